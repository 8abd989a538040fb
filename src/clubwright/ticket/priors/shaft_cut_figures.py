"""The shaft as it was weighed and balanced after the cut, beside what its raw figures say: a reading of all of them.

Derivation: docs/theory/shaft.md; checked in tests/unit/ticket/priors/test_shaft_weighed.py.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

import msgspec
import numpy as np

from clubwright.belief.gaussian import Gaussian, Matrix, Vector, condition
from clubwright.belief.instruments import Instrument
from clubwright.belief.prediction import linearise
from clubwright.belief.readings import Reading
from clubwright.belief.sharing import FLICKER
from clubwright.belief.unknowns import bias_name, club_with, rounding_name
from clubwright.belief.update import INNOVATION_LIMIT
from clubwright.club.build import Conventions
from clubwright.club.part_figures import CUT_BALANCE, CUT_MASS
from clubwright.club.parts import Club
from clubwright.club.stages import BARE_SHAFT
from clubwright.errors import Finding
from clubwright.notation import render
from clubwright.state.particulars import Entry
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields.fields import SHAFT
from clubwright.ticket.priors.shaft_weighed import NOT_SAID, sources_of
from clubwright.ticket.rows.measured import doubt_of, gauge_of_figure, shared_again

LENGTH = "shaft.length_m"


class _Figure(NamedTuple):
    """One figure of the cut shaft, its doubt, the raw figure that gives way to it, the length it was taken at.

    `gauge` is what measured it, where that is known, and `shared` what it has in common with whatever that measured: its
    bias, and its rounding with further measurements of this figure.
    """

    entry: Entry
    sd: float
    path: str
    raw: str
    at_m: float | None
    gauge: Instrument | None
    shared: dict[str, tuple[float, float]]


class CutFigures(NamedTuple):
    """What figures of the cut shaft say: a finding for each that does not fit, and what measured each."""

    findings: tuple[Finding, ...]
    measured: dict[str, Instrument]


def not_said(ticket: Ticket) -> tuple[Finding, ...]:
    """Ask whether a cut shaft was weighed raw or as cut, where the ticket leaves it open."""
    row = ticket.club.shaft
    if sources_of(ticket).mass.share != NOT_SAID or row.mass is None:
        return ()
    return (
        Finding(
            where=row.where.at("weighed"),
            what=f"it is not said whether {row.mass.typed} is the raw shaft or the shaft as cut, "
            "so both are taken to be as likely",
            mend='Write weighed = "raw" or weighed = "cut"; the raw length, or the mass of the cut shaft, tells it too.',
            severity="note",
        ),
    )


def with_cut_figures(
    ticket: Ticket, club: Club, belief: Gaussian, conventions: Conventions, readings: Sequence[Reading]
) -> tuple[Club, Gaussian, CutFigures]:
    """Take in what was measured of the cut shaft beside its raw figures; those give way where both cannot be.

    Args:
        ticket: The ticket.
        club: Its club at the most likely figures.
        belief: Of its parts, the raw shaft's figures among them.
        conventions: Definitions in use.
        readings: Of the ticket: further measurements of a figure by the gauge that measured it first share its rounding.

    Returns:
        Club and belief with it, and what is to be known of those figures.
    """
    findings = []
    figures = _figures(ticket, readings)
    for figure in figures:
        belief = belief.extended(figure.shared)
        value, slope = _predicted(club, belief, conventions, figure, belief.mean)
        off, spread = figure.entry.value - value, float(np.sqrt(slope @ belief.covariance @ slope + figure.sd**2))
        if abs(off) > INNOVATION_LIMIT * spread:
            findings.append(_misfit(figure, value, spread))
            if figure.raw in belief.names:
                covariance = belief.covariance.copy()
                covariance[belief.index(figure.raw), belief.index(figure.raw)] += off**2
                belief = msgspec.structs.replace(belief, covariance=covariance)
        belief = _taken(club, belief, conventions, figure)
        club = club_with(club, belief.names, [float(number) for number in belief.mean])
    measured = {figure.path: figure.gauge for figure in figures if figure.gauge is not None and figure.at_m is None}
    return club, belief, CutFigures(tuple(findings), measured)


def _figures(ticket: Ticket, readings: Sequence[Reading]) -> list[_Figure]:
    """Return what is known of the cut shaft and is not what the raw figures come from."""
    row, sources = ticket.club.shaft, sources_of(ticket)
    found = []
    for source, key, length, path, raw in (
        (sources.mass, "cut_mass", "cut_mass_length", CUT_MASS, "shaft.mass_kg"),
        (sources.balance, "cut_balance_from_tip", "cut_balance_length", CUT_BALANCE, "shaft.balance_from_tip_m"),
    ):
        entry, field = row.entry(key), SHAFT.field(key)
        if entry is not None and field is not None and source.key != key:
            gauge = gauge_of_figure(ticket, row, key)
            at_m = row.value(length)
            if gauge is None:
                found.append(_Figure(entry, doubt_of(ticket, row, field, entry), path, raw, at_m, None, {}))
            else:
                sd, shared = _parted(gauge, path, readings if at_m is None else ())
                found.append(_Figure(entry, sd, path, raw, at_m, gauge, shared))
    return found


def _parted(gauge: Instrument, path: str, readings: Sequence[Reading]) -> tuple[float, dict[str, tuple[float, float]]]:
    """Return the doubt that is of one measuring alone, and the unknowns that it shares."""
    shared = {} if gauge.bias == 0 else {bias_name(gauge.name, path): (0.0, gauge.bias)}
    rounding = shared_again(gauge, path, readings)
    if rounding == 0:
        return gauge.noise(), shared
    own = math.sqrt(max(gauge.noise() ** 2 - rounding, 0.0))
    least = FLICKER * gauge.resolution if gauge.repeatability == 0 else 0.0
    return max(own, least), shared | {rounding_name(gauge.name, path): (0.0, math.sqrt(rounding))}


def _predicted(
    club: Club, belief: Gaussian, conventions: Conventions, figure: _Figure, at: Vector
) -> tuple[float, Vector]:
    """Return what a figure should be at an estimate, and its derivatives; at the length that the shaft had then."""
    names, place, whole = list(belief.names), None, at
    if figure.at_m is not None:
        club = msgspec.structs.replace(club, shaft=msgspec.structs.replace(club.shaft, length_m=figure.at_m))
        if LENGTH in names:
            place = names.index(LENGTH)
            del names[place]
            at = np.delete(at, place)
    none = np.zeros((1, len(club.weights)))
    mean, slope = linearise(club, conventions, names, at, [figure.path], BARE_SHAFT, none)
    row: Vector = slope[0, 0] if place is None else np.insert(slope[0, 0], place, 0.0)
    value = float(mean[0, 0])
    for error in figure.shared:
        value, row[belief.index(error)] = value + float(whole[belief.index(error)]), 1.0
    return value, row


def _taken(club: Club, belief: Gaussian, conventions: Conventions, figure: _Figure) -> Gaussian:
    def model(at: Vector) -> tuple[Vector, Matrix]:
        value, slope = _predicted(club, belief, conventions, figure, at)
        return np.array([value]), slope[None, :]

    return condition(belief, model, np.array([figure.entry.value]), np.array([[figure.sd**2]]))


def _misfit(figure: _Figure, value: float, spread: float) -> Finding:
    kind = "mass" if figure.path == CUT_MASS else "length"
    return Finding(
        where=figure.entry.where,
        what=f"{figure.entry.typed} does not fit what was measured before the cut, by which "
        f"{render(kind, value, spread)} is expected",
        mend="Measure the cut shaft again; the raw figures give way to it.",
        severity="warning",
    )
