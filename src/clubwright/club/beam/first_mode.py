"""The first mode of many clubs made of one raw shaft, in the plane of shaft and head's centre of gravity.

Rows may be complex: the eigenproblem is solved for the real parts, and the Rayleigh quotient ``x . K x / x . M x`` with
that shape and the complex matrices then has the exact first derivative in its imaginary part (the shape's own change
counts only in second order). Derivation: docs/theory/frequency.md; checked in
tests/published/test_published_frequency.py and tests/unit/club/test_frequency.py.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from clubwright.club.beam.elements import COLUMNS, PAIRS, hermite
from clubwright.club.beam.mesh import Integrals, Mesh, element, mesh_of, moments_to
from clubwright.club.beam.solve import banded_product, first_shapes
from clubwright.club.beam.stiffness import StiffnessProfile

Values = NDArray[Any]

DIAGONALS = 4
DOWN = [a - b for a, b in PAIRS]
"""On which diagonal each entry of an element lies."""
NEAR_M = 0.006
"""A node of the raw shaft nearer than this to hosel or clamp is left out, and its cells go to the end element."""
RIGID_RAD_N_M = 1e-11
"""A clamp that gives less than this is rigid: it would move no frequency in its eighth digit."""
CHUNK = 1000
"""So many rows at once: their matrices stay in the processor's cache."""


class Rows(NamedTuple):
    """N clubs of one raw shaft, each number of shape (N), places from the raw tip.

    Attributes:
        free_m: Where the bending part begins: the hosel top, or the tip.
        clamp_m: Where the clamp begins.
        factor: On the bending stiffness.
        density, density_s: The mass per length is ``(density + density_s s)`` times that of the mesh.
        body_kg, body_kg_m, body_kg_m2: Mass, first and second moment of the rigid body, about the free end and beyond it.
        spots_kg, spots_m: Masses on the bending part, shape (P, N); a mass of 0 counts for nothing.
    """

    free_m: Values
    clamp_m: Values
    factor: Values
    density: Values
    density_s: Values
    body_kg: Values
    body_kg_m: Values
    body_kg_m2: Values
    spots_kg: Values
    spots_m: Values

    def stacked(self) -> Values:
        """Return all numbers of a row in one column, shape (8 + 2 P, N)."""
        return np.concatenate([np.stack(self[:8]), self.spots_kg, self.spots_m])

    def taken(self, rows: Any) -> Rows:
        """Return some of the rows."""
        return Rows(*(column[..., rows] for column in self))

    def real(self) -> Rows:
        """Return the real parts."""
        return Rows(*(np.ascontiguousarray(column.real) for column in self))


class Clamp(NamedTuple):
    """How the club is held: give of the clamp (rad per N m), and gravity along it (m/s2, positive when head down)."""

    compliance_rad_n_m: float = 0.0
    along_m_s2: float = 0.0


def first_squares(profile: StiffnessProfile, rows: Rows, clamp: Clamp) -> Values:
    """Return ``w^2`` of the first mode of each row, in 1/s2, complex where the rows are."""
    if not any(np.iscomplexobj(column) for column in rows):
        return _in_groups(profile, rows, rows, None, clamp)
    stacked = rows.stacked()
    rows = Rows(*(np.asarray(column, dtype=stacked.dtype) for column in rows))
    keep, back = _distinct(stacked)
    distinct = rows.taken(keep)
    real = distinct.real()
    keep_real, back_real = _distinct(real.stacked())
    return _in_groups(profile, distinct, real.taken(keep_real), back_real, clamp)[back]


def _distinct(stacked: Values) -> tuple[Values, Values]:
    """Return one place of each different column, and for every column which of those it is.

    By the bytes of a column, which for many of them is far faster than to sort them.
    """
    columns = np.ascontiguousarray(stacked.T)
    marks = columns.view(np.dtype((np.void, columns.shape[1] * columns.itemsize))).ravel().tolist()
    seen: dict[Any, int] = {}
    back = np.array([seen.setdefault(mark, len(seen)) for mark in marks])
    keep = np.empty(len(seen), dtype=np.intp)
    keep[back[::-1]] = np.arange(len(marks))[::-1]
    return keep, back


def _in_groups(profile: StiffnessProfile, rows: Rows, real: Rows, solved: Values | None, clamp: Clamp) -> Values:
    """Work the rows whose ends lie in the same cells together.

    Args:
        profile: Of the raw shaft.
        rows: What is asked, complex or real.
        real: The eigenproblems to solve.
        solved: Which of `real` belongs to each of `rows`; None when they are the same.
        clamp: How they are held.
    """
    found = np.empty(len(rows.free_m), dtype=np.result_type(*rows))
    for members in _groups(mesh_of(profile), real):
        for start in range(0, len(members), CHUNK):
            some = members[start : start + CHUNK]
            alike = real if len(some) == len(real.free_m) else real.taken(some)
            stiffness, mass = _matrices(profile, alike, clamp)
            shapes = first_shapes(stiffness, mass)
            if solved is None:
                # the shapes have x . K x = 1
                found[some] = 1 / (shapes * banded_product(mass, shapes)).sum(axis=0)
                continue
            place = np.full(len(real.free_m), -1)
            place[some] = np.arange(len(some))
            asked = np.flatnonzero(place[solved] >= 0)
            for begin in range(0, len(asked), CHUNK):
                these = asked[begin : begin + CHUNK]
                stiffness, mass = _matrices(profile, rows.taken(these), clamp)
                found[these] = _quotient(stiffness, mass, shapes[:, place[solved[these]]])
    return found


def _groups(mesh: Mesh, rows: Rows) -> list[Values]:
    """Part the rows by the cells their ends lie in and the nodes between."""
    marks = np.stack(
        [
            np.searchsorted(mesh.nodes_m, rows.free_m + NEAR_M, side="right"),
            np.searchsorted(mesh.nodes_m, rows.clamp_m - NEAR_M, side="left"),
            np.searchsorted(mesh.edges_m, rows.free_m, side="right"),
            np.searchsorted(mesh.edges_m, rows.clamp_m, side="left"),
        ]
    )
    if np.all(marks == marks[:, :1]):
        return [np.arange(marks.shape[1])]
    _, group = np.unique(marks, axis=1, return_inverse=True)
    group = group.ravel()
    return [np.flatnonzero(group == number) for number in range(int(group.max()) + 1)]


def _matrices(profile: StiffnessProfile, rows: Rows, clamp: Clamp) -> tuple[Values, Values]:
    """Return banded stiffness and mass, shape (4, n, N), for (slope, deflection) of each node from the free end."""
    mesh = mesh_of(profile)
    low = int(np.searchsorted(mesh.nodes_m, rows.free_m[0].real + NEAR_M, side="right"))
    high = int(np.searchsorted(mesh.nodes_m, rows.clamp_m[0].real - NEAR_M, side="left"))
    nodes = mesh.nodes_m[low:high]
    count = len(rows.free_m)
    hangs = clamp.along_m_s2 != 0
    first = element(mesh, rows.free_m, np.full(count, nodes[0]), hung=hangs)
    inner = _inner(profile, low, high)
    last = element(mesh, np.full(count, nodes[-1]), rows.clamp_m, hung=hangs)
    ends = [_joined(*three) for three in list(zip(first, inner, last, strict=True))[: 6 if hangs else 3]]
    k = ends[0] * rows.factor
    m = ends[1] * rows.density + ends[2] * rows.density_s
    if hangs:
        before = moments_to(mesh, rows.free_m)
        hung = rows.body_kg - rows.density * before[0] - rows.density_s * before[1]
        k += clamp.along_m_s2 * (ends[3] * hung + ends[4] * rows.density + ends[5] * rows.density_s)
    # The body's centre lies beyond the free end, against the direction in which places are counted.
    m[0, 1] += rows.body_kg
    m[1, 0] -= rows.body_kg_m
    m[0, 0] += rows.body_kg_m2
    k[0, 0] += clamp.along_m_s2 * rows.body_kg_m
    _add_spots(m, rows, nodes)
    if clamp.compliance_rad_n_m > RIGID_RAD_N_M:
        k[0, -2] += 1 / clamp.compliance_rad_n_m
        return k[:, :-1], m[:, :-1]
    return k[:, :-2], m[:, :-2]


@lru_cache(maxsize=1024)
def _inner(profile: StiffnessProfile, low: int, high: int) -> Integrals:
    """Return the integrals of the elements between two nodes, each added up into lower diagonals, shape (4, 2 nodes)."""
    mesh = mesh_of(profile)
    found = []
    for name in Integrals._fields:
        entries = getattr(mesh, name)[:, low : high - 1]
        band = np.zeros((DIAGONALS, 2 * (high - low)))
        for place, (a, b) in enumerate(PAIRS):
            band[a - b, b : b + 2 * entries.shape[1] : 2] += entries[place]
        found.append(band)
    return Integrals(*found)


def _joined(first: Values, inner: Values, last: Values) -> Values:
    """Add the first and the last element, shape (10, N), to the bands of what lies between: shape (4, 2 nodes + 4, N)."""
    band = np.zeros((DIAGONALS, inner.shape[1] + 4, first.shape[1]), dtype=np.result_type(first, last))
    band[:, 2:-2] = inner[:, :, None]
    band[DOWN, COLUMNS] += first
    band[DOWN, inner.shape[1] + np.array(COLUMNS)] += last
    return band


def _add_spots(mass: Values, rows: Rows, nodes: Values) -> None:
    """Add the masses that sit on the beam between nodes."""
    spots, on = np.nonzero(rows.spots_kg)
    if not len(on):
        return
    kg, at = rows.spots_kg[spots, on], rows.spots_m[spots, on]
    above = np.searchsorted(nodes, at.real)
    before = np.where(above == 0, rows.free_m[on], nodes[np.maximum(above - 1, 0)])
    after = np.where(above == len(nodes), rows.clamp_m[on], nodes[np.minimum(above, len(nodes) - 1)])
    length = after - before
    shapes = hermite((at - before) / length, length)
    for a, b in PAIRS:
        # Two masses may share an element: added one after the other.
        np.add.at(mass[a - b], (2 * above + b, on), kg * shapes[a] * shapes[b])


def _quotient(stiffness: Values, mass: Values, shapes: Values) -> Values:
    bent = (shapes * banded_product(stiffness, shapes)).sum(axis=0)
    moved = (shapes * banded_product(mass, shapes)).sum(axis=0)
    return np.asarray(bent / moved)
