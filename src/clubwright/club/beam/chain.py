"""One club as a chain of few links, in plain numbers: what `clubwright.club.beam.one_club` solves.

The shaft between hosel and clamp is made of the elements that these two cut, those that carry a mass, and one long stretch
that is a series (`clubwright.club.beam.stretch`). Derivation: docs/theory/frequency.md; checked in
tests/unit/club/test_one_club.py.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from itertools import pairwise
from math import inf
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from clubwright.club.beam.elements import PAIRS, hermite
from clubwright.club.beam.first_mode import NEAR_M, RIGID_RAD_N_M
from clubwright.club.beam.plain import Cut, Plain, Ten, cut_element, stretch_of
from clubwright.club.beam.stretch import ORDER

Values = NDArray[Any]
Three = tuple[float, float, float]
"""A symmetric two by two matrix for (slope, deflection): its entries 00, 10 and 11."""

FEWEST = 3
"""Elements that a stretch must have to be worth a series."""


class One(NamedTuple):
    """One club; the fields are those of `clubwright.club.beam.first_mode.Rows`, and its masses one by one."""

    free_m: float
    clamp_m: float
    factor: float
    density: float
    density_s: float
    body_kg: float
    body_kg_m: float
    body_kg_m2: float
    spots: list[tuple[float, float]]


class Chain(NamedTuple):
    """A club as links, everything over the factor on stiffness, masses over `level` besides.

    Attributes:
        level: The density at the middle of the stretch, over that of the mesh.
        tip: Links from the tip up to the node where both sides meet.
        series: By powers of L, the ten entries of the stretch that follows and their slopes by L, shape (ORDER + 1, 20);
            None where there is no stretch.
        reach: The largest L for which the series serves.
        above: Elements from the clamp down to the stretch: entries of stiffness and of mass.
        last: The element that the clamp cuts, likewise.
        soft: Whether the clamp gives.
    """

    level: float
    tip: list[TipLink]
    series: Values | None
    reach: float
    above: list[tuple[Ten, Ten]]
    last: tuple[Ten, Ten]
    soft: bool


class TipLink(NamedTuple):
    """An element at the tip: how it bends (d) beside how its upper end carries it along (u).

    So taken, nothing of its stiffness cancels. Attributes: length; its stiffness in d; its mass in d d, d u and u u.
    """

    length_m: float
    stiffness: Three
    dd: Three
    du: tuple[float, float, float, float]
    uu: Three


def chain_of(plain: Plain, one: One, compliance: float, *, whole: bool) -> Chain:
    """Put the links together; `whole` does without a stretch."""
    nodes = plain.nodes
    low = bisect_right(nodes, one.free_m + NEAR_M)
    high = bisect_left(nodes, one.clamp_m - NEAR_M) - 1
    spots: dict[int, list[tuple[float, float]]] = {}
    for kg, at in one.spots:
        if kg != 0:
            spots.setdefault(min(max(bisect_left(nodes, at) - 1, low - 1), high), []).append((kg, at))
    start, end = (low, low) if whole else _longest(spots, low, high)
    series, reach, centre, length = None, inf, (one.free_m + one.clamp_m) / 2, 1.0
    if start < end:
        centre, length, coefficients, reach = stretch_of(plain, start, end)
    level = one.density + one.density_s * centre
    tilt = one.density_s * length / level
    if start < end:
        series = (coefficients @ powers_of(tilt)).reshape(ORDER + 1, -1)
    a, b = one.density / level, one.density_s / level

    def element(number: int) -> tuple[Ten, Ten]:
        given = zip(plain.mass[number], plain.mass_s[number], strict=True)
        mass = [a * m + b * s for m, s in given]
        _add_spots(mass, spots.get(number, ()), nodes[number], nodes[number + 1], level)
        return plain.stiffness[number], mass

    tip = cut_element(plain, one.free_m, nodes[low], a, b)
    mass = tip.mass
    _add_spots(mass, spots.get(low - 1, ()), one.free_m, nodes[low], level)
    # The body's centre lies beyond the free end, against the direction in which places are counted.
    mass[0] += one.body_kg_m2 / level
    mass[1] -= one.body_kg_m / level
    mass[2] += one.body_kg / level
    links = [_tip_link(tip.length_m, _lower(tip), mass)]
    for number in range(low, start):
        stiffness, mass = element(number)
        links.append(_tip_link(nodes[number + 1] - nodes[number], stiffness, mass))
    soft = compliance > RIGID_RAD_N_M
    top = cut_element(plain, nodes[high], one.clamp_m, a, b, entries=10 if soft else 3)
    _add_spots(top.mass, spots.get(high, ()), nodes[high], one.clamp_m, level)
    above = [element(number) for number in range(high - 1, end - 1, -1)]
    if soft:
        stiffness = _end_loads(top)
        stiffness[5] += 1 / (compliance * one.factor)
    else:
        stiffness = _lower(top)
    return Chain(level, links, series, reach, above, (stiffness, top.mass), soft)


def _longest(spots: dict[int, list[tuple[float, float]]], low: int, high: int) -> tuple[int, int]:
    """Return the ends of the longest run of elements that carry no mass; the lowest node twice where none is long enough."""
    marks = [number for number in spots if low <= number < high]
    start, end = low, high
    if marks:
        marks = [low - 1, *sorted(marks), high]
        start, end = max(((one + 1, other) for one, other in pairwise(marks)), key=lambda run: run[1] - run[0])
    return (start, end) if end - start >= FEWEST else (low, low)


def _add_spots(mass: Ten, spots: Sequence[tuple[float, float]], low_m: float, high_m: float, level: float) -> None:
    """Add the masses that sit on an element between its ends."""
    length = high_m - low_m
    for kg, at in spots:
        shapes = hermite((at - low_m) / length, length)
        for place, (a, b) in enumerate(PAIRS[: len(mass)]):
            mass[place] += kg / level * shapes[a] * shapes[b]


def _lower(cut: Cut) -> list[float]:
    """Return the first three entries of the stiffness: how the lower end of an element resists while the upper is held."""
    arm, stiff = cut.middle_m, 1 / cut.shifted
    return [arm * arm * stiff + 1 / cut.turned, arm * stiff, stiff]


def _end_loads(cut: Cut) -> Ten:
    """Return all ten, as `clubwright.club.beam.elements.end_load_stiffness` does."""
    shift = (cut.middle_m, 1.0, cut.length_m - cut.middle_m, -1.0)
    found = [shift[a] * shift[b] / cut.shifted for a, b in PAIRS]
    found[0] += 1 / cut.turned
    found[3] -= 1 / cut.turned
    found[5] += 1 / cut.turned
    return found


def _tip_link(h: float, stiffness: Sequence[float], m: Ten) -> TipLink:
    """Turn the mass of an element from its two ends to its bend d and its upper end u: lower end = d + carried along."""
    p00, p01 = m[0] - h * m[1] + m[3], m[1] + m[6]
    p10, p11 = m[1] - h * m[2] + m[4], m[2] + m[7]
    uu = (p00 - h * p10 + m[3] - h * m[4] + m[5], p10 + m[6] - h * m[7] + m[8], p11 + m[7] + m[9])
    k0, k1, k2 = stiffness[:3]
    return TipLink(h, (k0, k1, k2), (m[0], m[1], m[2]), (p00, p01, p10, p11), uu)


def powers_of(x: float) -> Values:
    """Return the powers from 0 to ORDER."""
    x2 = x * x
    x3, x4 = x2 * x, x2 * x2
    return np.array((1.0, x, x2, x3, x4, x4 * x, x3 * x3, x4 * x3, x4 * x4, x4 * x4 * x))
