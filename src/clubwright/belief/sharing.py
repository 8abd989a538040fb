"""Readings that share their rounding, and what they come to together.

Two readings of one gauge are of the same club when the quantity is the same in both whatever the parts' numbers are: the
swing weight at one stage with the same weights on, the loft at any stage. They round alike, so their noise is correlated:
what they share is the covariance of each pair, and only the rest is averaged. All of such readings depend on the unknowns
alike, so their mean says all that they say. Derivation: docs/theory/belief.md.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import isclose

import numpy as np

from clubwright.belief.gaussian import Gaussian, Matrix
from clubwright.belief.instruments import Instrument
from clubwright.belief.prediction import values
from clubwright.belief.readings import Reading
from clubwright.belief.unknowns import rounding_name
from clubwright.club.build import Conventions, FrequencyMeter
from clubwright.club.parts import Club
from clubwright.club.quantities import QUANTITIES

SAME = 1e-11
"""Two builds whose quantity differs by a smaller share are one: far above round-off, far below any part's own effect."""

GOLDEN = 0.6180339887498949

FLICKER = 0.5
"""Of its step, the standard uncertainty of one showing of a gauge of which no repeatability is stated, where its rounding is
an unknown of the belief: the last digit may be one off from one weighing to the next (estimate of ours)."""

Configuration = tuple[str, str, str, tuple[float, ...], int | None, FrequencyMeter | None]


def groups_of(
    prior: Gaussian, template: Club, conventions: Conventions, readings: Sequence[Reading]
) -> tuple[int, ...]:
    """Number the readings by what they were taken of: the same number for the same gauge on the same club.

    Args:
        prior: Belief from the parts alone: its unknowns are what may differ.
        template: The club.
        conventions: Definitions in use.
        readings: In any order.

    Returns:
        One number for each reading, the place of the first reading of its group.
    """
    kinds = [(reading.instrument.name, reading.quantity) for reading in readings]
    known: dict[Configuration, float] = {}
    found: list[int] = []
    for place, reading in enumerate(readings):
        same = [other for other in range(place) if kinds[other] == kinds[place]]
        probes = {other: _probed(prior, template, conventions, readings[other], known) for other in same}
        mine = _probed(prior, template, conventions, reading, known) if same else 0.0
        match = (other for other in same if isclose(mine, probes[other], rel_tol=SAME, abs_tol=1e-300))
        first = next(match, place)
        found.append(found[first] if first < place else place)
    return tuple(found)


def already_read(
    prior: Gaussian,
    template: Club,
    conventions: Conventions,
    taken: Sequence[Reading],
    reading: Reading,
    measured: Mapping[str, Instrument],
) -> int:
    """Return how often the club of a reading was read with its gauge before, repeats counted.

    Args:
        prior: Belief from the parts alone.
        template: The club.
        conventions: Definitions in use.
        taken: What was read of it.
        reading: The one that is asked about.
        measured: What measured each figure of a part that stands in its table: the first weighing of it is no reading.
    """
    *groups, mine = groups_of(prior, template, conventions, [*taken, reading])
    read = sum(
        each.repeats
        for each, group in zip(taken, groups, strict=True)
        if group == mine and _figures(each) == _figures(reading)
    )
    return read + (reading.then is None and measured.get(reading.quantity) == reading.instrument)


def carried(prior: Gaussian, readings: Sequence[Reading], slopes: Matrix) -> tuple[float, ...]:
    """Return the variance of each reading's rounding that an unknown of the belief stands for, so that its noise has it not.

    Args:
        prior: Belief from the parts alone.
        readings: The m readings.
        slopes: Their derivatives by its n unknowns, shape (m, n).
    """
    names = [rounding_name(reading.instrument.name, reading.quantity) for reading in readings]
    return tuple(
        prior.sd_of(name) ** 2 if name in prior.names and slope[prior.index(name)] != 0 else 0.0
        for name, slope in zip(names, slopes, strict=True)
    )


def flicker(reading: Reading, known: float) -> float:
    """Return the least standard uncertainty of one showing whose rounding the belief has an unknown for (`carried`)."""
    gauge = reading.instrument
    return FLICKER * gauge.resolution if known > 0 and gauge.repeatability == 0 else 0.0


def together(
    readings: Sequence[Reading], groups: Sequence[int], known: Sequence[float] | None = None
) -> tuple[Matrix, Matrix]:
    """Return what readings come to when those of one club are averaged.

    Args:
        readings: The m readings.
        groups: Their numbers (`groups_of`).
        known: Of each, the variance that the belief has an unknown for (`carried`); nothing when None.

    Returns:
        The means as a matrix on the readings, shape (p, m), and the covariance of their noise, shape (p, p). Means of one
        club by one gauge of different stated figures share the smaller of what either shares, so that the worse of them
        adds nothing of its own.
    """
    members: dict[tuple[int, tuple[float, float, float]], list[int]] = {}
    for place, (reading, group) in enumerate(zip(readings, groups, strict=True)):
        members.setdefault((group, _figures(reading)), []).append(place)
    means = np.zeros((len(members), len(readings)))
    noise = np.zeros((len(members), len(members)))
    for row, ((group, _), places) in enumerate(members.items()):
        counts = [readings[place].repeats for place in places]
        means[row, places] = np.array(counts) / sum(counts)
        gauge = readings[places[0]].instrument
        of_the_belief = 0.0 if known is None else known[places[0]]
        noise[row, row] = max(gauge.noise(sum(counts)) ** 2 - of_the_belief, 0.0)
        noise[row, row] = max(noise[row, row], flicker(readings[places[0]], of_the_belief) ** 2)
        for other, ((other_group, _), others) in enumerate(members.items()):
            if other != row and other_group == group:
                both = min(gauge.shared_variance, readings[others[0]].instrument.shared_variance)
                noise[row, other] = max(both - of_the_belief, 0.0)
    return means, noise


def _figures(reading: Reading) -> tuple[float, float, float]:
    gauge = reading.instrument
    return gauge.resolution, gauge.repeatability, gauge.stated


def _probed(
    prior: Gaussian, template: Club, conventions: Conventions, reading: Reading, known: dict[Configuration, float]
) -> float:
    """Work the quantity of a reading where every unknown is off its mean by a share of its own: only the same agree."""
    if reading.quantity not in QUANTITIES and not template.earlier:
        return 0.0  # a part's own number is the same at every stage
    key = (
        reading.quantity,
        reading.stage.name,
        reading.instrument.name,
        tuple(reading.fitted),
        reading.then,
        reading.meter,
    )
    if key not in known:
        shares = (np.arange(1, len(prior.names) + 1) * GOLDEN) % 1.0 - 0.5
        theta = [float(each) for each in prior.mean + shares * np.sqrt(np.diag(prior.covariance))]
        asked, fitted = [reading.quantity], tuple(reading.fitted)
        by = reading.read_by(conventions)
        (value,) = values(template, by, prior.names, theta, asked, reading.stage, fitted, reading.then)
        known[key] = float(np.asarray(value).real)
    return known[key]
