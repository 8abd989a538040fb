"""The cells and elements of a raw shaft as plain numbers, and the integrals of an element that a club cuts from them.

The same integrals as in `clubwright.club.beam.mesh`, which works arrays. Places are from the raw tip. Derivation:
docs/theory/frequency.md; checked in tests/unit/club/test_one_club.py.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

import numpy as np

from clubwright.club.beam.elements import PAIRS
from clubwright.club.beam.mesh import PLACES, WEIGHTS, Mesh, mesh_of
from clubwright.club.beam.stiffness import StiffnessProfile
from clubwright.club.beam.stretch import Stretch, stretch

Ten = list[float]
"""The ten entries of an element's matrix, in the order of `PAIRS`."""

_GAUSS = list(zip(PLACES.tolist(), WEIGHTS.tolist(), strict=True))
_SHAPES = ((0, 1, -2, 1), (1, 0, -3, 2), (0, 0, -1, 1), (0, 0, 3, -2))
"""The cubic shape functions of an element of length 1, by rising powers."""
_POWERS = 7
_PRODUCTS = np.array([np.convolve(_SHAPES[a], _SHAPES[b]) for a, b in PAIRS], dtype=float).T
"""Their products by rising powers, shape (powers, 10)."""
_WHOLE = (np.array([[1 / (k + n + 1) for k in range(_POWERS)] for n in range(3)]) @ _PRODUCTS).T.tolist()
"""Integrals of the products with 1, t and t^2 over the whole element, ten of three."""
_UP_TO = np.zeros((_POWERS + 2, 30))
"""The same from 0 to some share of the element, by the powers of that share from 1 on, shape (powers, 3 x 10)."""
for _n in range(3):
    _rising = np.arange(_n, _n + _POWERS)
    _UP_TO[_rising, 10 * _n : 10 * _n + 10] = _PRODUCTS / (_rising + 1)[:, None]


class Plain(NamedTuple):
    """A mesh in lists.

    Attributes:
        mesh: The mesh itself.
        edges, nodes: Ends of the cells and of the elements.
        cells: Of each cell: EI at its lower end, slope of EI, density at s = 0 and its slope, and four constants that make
            the four moments continuous.
        stiffness, mass, mass_s: The entries of each element.
        stretches: Those that were asked for, by their first and last node.
    """

    mesh: Mesh
    edges: list[float]
    nodes: list[float]
    cells: list[tuple[float, ...]]
    stiffness: list[Ten]
    mass: list[Ten]
    mass_s: list[Ten]
    stretches: dict[tuple[int, int], Stretch]


class Cut(NamedTuple):
    """An element between two places.

    Attributes:
        length_m: Its length.
        turned: What its ends turn against each other under a moment of 1: the integral of 1 / EI.
        middle_m: From its lower end to the middle of that.
        shifted: Second moment of 1 / EI about the middle.
        mass: Integrals of the density with the products of the shape functions.
    """

    length_m: float
    turned: float
    middle_m: float
    shifted: float
    mass: Ten


@lru_cache(maxsize=256)
def plain_mesh(profile: StiffnessProfile) -> Plain:
    """Return the mesh of a profile in lists."""
    mesh = mesh_of(profile)
    edges = mesh.edges_m.tolist()
    cells = []
    moments = mesh.moments.T.tolist()
    columns = zip(
        mesh.ei.tolist(), mesh.ei_slope.tolist(), mesh.density.tolist(), mesh.density_slope.tolist(), strict=True
    )
    for s, (ei, rise, density, q), given in zip(edges, columns, moments, strict=False):
        c = density - q * s
        steady = [given[k] - s ** (k + 1) * (c / (k + 1) + q * s / (k + 2)) for k in range(4)]
        cells.append((ei, rise, c, q, *steady))
    stiffness, mass, mass_s = (entries.T.tolist() for entries in (mesh.stiffness, mesh.mass, mesh.mass_s))
    return Plain(mesh, edges, mesh.nodes_m.tolist(), cells, stiffness, mass, mass_s, {})


def stretch_of(plain: Plain, low: int, high: int) -> Stretch:
    """Return the stretch between two nodes, worked once."""
    found = plain.stretches.get((low, high))
    if found is None:
        found = plain.stretches[low, high] = stretch(plain.mesh, low, high)
    return found


def moments(plain: Plain, s: float) -> tuple[float, float, float, float]:
    """Return the integrals of density times s^k from the raw tip to a place, k = 0 to 3."""
    cells = plain.cells
    _, _, c, q, zeroth, first, second, third = cells[min(max(bisect_right(plain.edges, s) - 1, 0), len(cells) - 1)]
    square = s * s
    return (
        zeroth + s * (c + q * s / 2),
        first + square * (c / 2 + q * s / 3),
        second + square * s * (c / 3 + q * s / 4),
        third + square * square * (c / 4 + q * s / 5),
    )


def cut_element(plain: Plain, low_m: float, high_m: float, density: float, density_s: float, entries: int = 10) -> Cut:
    """Integrate the element between two places, with a density ``(density + density_s s)`` times that of the mesh.

    Of the mass only the first `entries` are given: three belong to the lower end alone.
    """
    edges, last = plain.edges, len(plain.cells)
    start, end = min(bisect_right(edges, low_m, 1), last), min(bisect_left(edges, high_m, 1), last)
    length = high_m - low_m
    own, more = density + density_s * low_m, density_s * length
    turned = first = second = 0.0
    weights = []
    low = low_m
    for number in range(start - 1, max(start, end)):
        high = edges[number + 1] if number + 1 < end else high_m
        ei, rise, c, q, *_ = plain.cells[number]
        span, off = high - low, low - low_m
        if rise == 0:
            give, middle = span / ei, off + span / 2
            turned += give
            first += give * middle
            second += give * (middle * middle + span * span / 12)
        else:
            ei += rise * (low - edges[number])
            for place, weight in _GAUSS:
                x = place * span
                give = weight * span / (ei + rise * x)
                x += off
                turned += give
                first += give * x
                second += give * x * x
        below, above = c + q * low_m, q * length
        weights.append(((off + span) / length, below * own, below * more + above * own, above * more))
        low = high
    if len(weights) == 1:
        _, q0, q1, q2 = weights[0]
        mass = [q0 * x + q1 * y + q2 * z for x, y, z in _WHOLE[:entries]]
    else:
        mass = _partly(weights, entries)
    # the shape of a slope goes with the length
    square = length * length
    mass[0] *= square * length
    mass[1] *= square
    mass[2] *= length
    if entries > 3:
        mass[3] *= square * length
        mass[4] *= square
        mass[5] *= square * length
        mass[6] *= square
        mass[7] *= length
        mass[8] *= square
        mass[9] *= length
    middle = first / turned
    return Cut(length, turned, middle, second - first * middle, mass)


def _partly(weights: list[tuple[float, float, float, float]], entries: int) -> Ten:
    """Integrate where the density changes inside: the last weight all along, and what each differs up to its end."""
    _, q0, q1, q2 = weights[-1]
    found = [q0 * x + q1 * y + q2 * z for x, y, z in _WHOLE[:entries]]
    for (c, *own), (_, *after) in pairwise(weights):
        d0, d1, d2 = (one - other for one, other in zip(own, after, strict=True))
        c2 = c * c
        c3, c4 = c2 * c, c2 * c2
        powers = np.array((c, c2, c3, c4, c4 * c, c3 * c3, c4 * c3, c4 * c4, c4 * c4 * c))
        parts = (powers @ _UP_TO).tolist()
        for n in range(entries):
            found[n] += d0 * parts[n] + d1 * parts[10 + n] + d2 * parts[20 + n]
    return found
