"""What the readings of a shaft's stiffness say and do not say, in plain words, and the lines for a ticket."""

from __future__ import annotations

from math import hypot
from statistics import fmean

import numpy as np

from clubwright.belief.stiffness.fit import MASS_LINE_SD, StiffnessFit, predict_reading
from clubwright.belief.stiffness.reading import StiffnessReading
from clubwright.units import INCH_M

USUAL = StiffnessReading(
    where="a 5 in clamp", kind="frequency", value=1.0, sd=1.0, clamp_length_m=5 * INCH_M, mass_kg=0.205
)
"""A bare shaft in the usual meter; 205 g is common practice, no source."""
THIRDS = ("tip third", "middle", "butt third")
HARDLY, PARTLY, WELL = 0.3, 0.7, 0.95
"""Shares of the prior's variance removed, at which the words change: ours."""
FELT = 2.0
"""Standard deviations of a reading that it must move by to count as feeling a change: common practice."""


def learned_by_third(fit: StiffnessFit) -> dict[str, float]:
    """Return the mean share of the prior's variance that the readings removed in each third of the shaft."""
    return {third: fmean(fit.learned[node] for node in nodes) for third, nodes in _nodes_by_third(fit).items()}


def felt_by_third(fit: StiffnessFit) -> dict[str, float]:
    """Return how many of its own standard deviations the reading that feels it most moves with 10 % of EI in a third."""
    felt = {}
    for third, nodes in _nodes_by_third(fit).items():
        felt[third] = float(np.max(0.1 * np.abs(fit.slope[:, nodes].sum(axis=1)) / fit.reading_sd))
    return felt


def statements(fit: StiffnessFit) -> list[str]:
    """Say for each third of the shaft how much the readings tell of it."""
    lines = []
    felt = felt_by_third(fit)
    for third, share in learned_by_third(fit).items():
        if share < HARDLY:
            said = "is hardly touched by these readings"
        elif share < PARTLY:
            said = "is told in part by these readings"
        elif share < WELL:
            said = "is told by these readings, single places less well"
        else:
            said = "is told well by these readings"
        line = f"The {third} {said}: {100 * share:.0f} % learned."
        if felt[third] < FELT:
            line += " No reading feels a tenth of stiffness there; what is learned is that shafts hang together."
        lines.append(line)
    return lines


def _nodes_by_third(fit: StiffnessFit) -> dict[str, list[int]]:
    nodes = fit.prior.nodes_m
    low, length = nodes[0], nodes[-1] - nodes[0]
    found: dict[str, list[int]] = {third: [] for third in THIRDS}
    for place, node in enumerate(nodes):
        found[THIRDS[min(2, int(3 * (node - low) / length))]].append(place)
    return {third: places for third, places in found.items() if places}


def ticket_lines(fit: StiffnessFit) -> list[str]:
    """Return the lines for the ``[shaft]`` table of a ticket: the stiffness, and how well it is known as a whole.

    The ± of the factor is twice the relative standard deviation of the frequency of the bare shaft in a 5 in clamp, since
    a frequency goes with the square root of the stiffness; it is never rounded down to nothing.
    """
    at = ", ".join(f'"{node / INCH_M:.3f} in"' for node in fit.prior.nodes_m)
    ei = ", ".join(f'"{value:.2f} N m2"' for value in fit.ei_n_m2)
    mean, sd = predict_reading(fit, USUAL)
    factor_sd = 2 * hypot(sd / mean, MASS_LINE_SD)
    return [
        f'stiffness = {{ kind = "table", at = [{at}], ei = [{ei}] }}',
        f'stiffness_factor = "1 ± {max(factor_sd, 0.001):.3f}"',
    ]
