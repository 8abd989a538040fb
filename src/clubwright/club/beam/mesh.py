"""A raw shaft cut into cells and elements once, so that a thousand clubs made of it share the integrals.

A cell is a stretch along which stiffness and density run straight; an element is one or a few cells. The elements that the
clamp and the hosel cut are integrated anew for each club (`clubwright.club.beam.first_mode`), all others are these. Places
are from the raw tip. Derivation: docs/theory/frequency.md; checked in tests/published/test_published_frequency.py.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from clubwright.club.beam.elements import COLUMNS, PAIRS, ROWS, end_load_stiffness, gauss, hermite, hermite_slope
from clubwright.club.beam.stiffness import StiffnessProfile

Values = NDArray[Any]

LONGEST_CELL_M = 0.045
MOST_GROWTH = 0.25
"""Where the stiffness grows steeply the cells are shorter: at most by a quarter (of its logarithm) in each."""
SHORTEST_ELEMENT_M = 0.010
"""Shorter elements would cost digits: the stiffness of an element goes with the inverse cube of its length."""
POINTS = 5
"""Exact for every polynomial here: the highest is a density times s times a square of cubics, of degree 8. The integrals of
1 / EI over a cell, in which EI grows by `MOST_GROWTH` at most, are good to twelve digits."""
PLACES, WEIGHTS = gauss(POINTS)


class Mesh(NamedTuple):
    """The raw shaft.

    Attributes:
        edges_m: Ends of the cells.
        ei, ei_slope, density, density_slope: Value at the lower end of each cell, and slope. Where the profile holds no
            density it is 1 all along: only its shape matters.
        moments: Integrals of density times s^k from the raw tip to each edge, k = 0 to 3, shape (4, edges).
        nodes_m: Ends of the elements.
        stiffness: Stiffness of each element, exact for loads at its ends, shape (10, elements).
        mass, mass_s: Integrals of density N N and of density s N N.
        slope, slope_mass, slope_first: Integrals of N' N', and of it times the first two `moments`.
    """

    edges_m: Values
    ei: Values
    ei_slope: Values
    density: Values
    density_slope: Values
    moments: Values
    nodes_m: Values
    stiffness: Values
    mass: Values
    mass_s: Values
    slope: Values
    slope_mass: Values
    slope_first: Values


class Integrals(NamedTuple):
    """The six integrals of one element for N clubs, each of shape (10, N)."""

    stiffness: Values
    mass: Values
    mass_s: Values
    slope: Values
    slope_mass: Values
    slope_first: Values


@lru_cache(maxsize=256)
def mesh_of(profile: StiffnessProfile) -> Mesh:
    """Cut a profile into cells and elements, and integrate those once."""
    edges: list[float] = [profile.start_m]
    columns: list[tuple[float, float, float, float]] = []
    known = profile.has_density
    for piece in profile.pieces:
        length = piece.end_m - piece.start_m
        ei_slope = (piece.end_ei_n_m2 - piece.start_ei_n_m2) / length
        d_slope = (piece.end_density_kg_m - piece.start_density_kg_m) / length if known else 0.0
        ends = cell_ends(length, float(np.log(piece.end_ei_n_m2 / piece.start_ei_n_m2)))
        for at, end in zip([0.0, *ends], ends, strict=False):
            density = piece.start_density_kg_m + d_slope * at if known else 1.0
            columns.append((piece.start_ei_n_m2 + ei_slope * at, ei_slope, density, d_slope))
            edges.append(piece.start_m + end)
    places = np.array(edges)
    ei, ei_slopes, densities, d_slopes = np.array(columns).T
    empty = np.zeros((10, 0))
    mesh = Mesh(
        places, ei, ei_slopes, densities, d_slopes, np.zeros((4, len(edges))), np.zeros(0),
        empty, empty, empty, empty, empty, empty,
    )  # fmt: skip
    steps = np.stack([_cell_moments(mesh, cell, places[cell + 1]) for cell in range(len(columns))], axis=1)
    mesh = mesh._replace(moments=np.concatenate([np.zeros((4, 1)), np.cumsum(steps, axis=1)], axis=1))
    nodes = _nodes(places)
    made = [element(mesh, nodes[i : i + 1], nodes[i + 1 : i + 2]) for i in range(len(nodes) - 1)]
    joined = [np.concatenate(parts, axis=1) for parts in zip(*made, strict=True)]
    return mesh._replace(nodes_m=nodes)._replace(**dict(zip(Integrals._fields, joined, strict=True)))


def cell_ends(length_m: float, growth: float) -> list[float]:
    """Return the upper ends of a piece's cells, from its lower end; the logarithm of its stiffness grows by `growth`."""
    steps = max(1, int(np.ceil(abs(growth) / MOST_GROWTH)))
    shares = [
        k / steps if steps == 1 else float(np.expm1(growth * k / steps) / np.expm1(growth)) for k in range(steps + 1)
    ]
    ends: list[float] = []
    for low, high in pairwise(shares):
        count = max(1, int(np.ceil((high - low) * length_m / LONGEST_CELL_M)))
        ends += [(low + (high - low) * (part + 1) / count) * length_m for part in range(count)]
    return ends


def _unit_products(shapes: tuple[Values, ...]) -> Values:
    """Return the ten products of shape functions of an element of length 1 at the Gauss points, shape (10, points)."""
    return np.stack([shapes[a] * shapes[b] for a, b in PAIRS])


SHAPES, SLOPES = (_unit_products(shape(PLACES, 1.0)) for shape in (hermite, hermite_slope))
TURNS = np.array([(a % 2 == 0) + (b % 2 == 0) for a, b in PAIRS])[:, None]
"""How many of each pair are slopes: a product of shapes goes with the element's length to that power."""


def element(mesh: Mesh, low_m: Values, high_m: Values, *, hung: bool = True) -> Integrals:
    """Integrate an element between two places, real or complex, each of shape (N).

    The real parts of the places must lie in the same two cells for all N. Without `hung` the three integrals for gravity
    along the club are left at 0.
    """
    length = high_m - low_m
    first, last = float(low_m[0].real), float(high_m[0].real)
    inside = mesh.edges_m[1:-1][(mesh.edges_m[1:-1] > first) & (mesh.edges_m[1:-1] < last)]
    if not len(inside):
        return _one_cell(mesh, low_m, length, cell_at(mesh, (first + last) / 2), hung=hung)
    between = np.broadcast_to(inside[:, None], (len(inside), len(low_m)))
    ends = np.concatenate([low_m[None], between, high_m[None]])
    span = np.diff(ends, axis=0)[:, None]
    # the Gauss points of all cells one below the other, each with its cell
    s = (ends[:-1, None] + PLACES[:, None] * span).reshape(-1, len(low_m))
    along = (WEIGHTS[:, None] * span).reshape(-1, len(low_m))
    lowest = cell_at(mesh, (first + float(inside[0])) / 2)
    cells = np.repeat(np.arange(lowest, lowest + len(span)), POINTS)[:, None]
    off = s - mesh.edges_m[cells]
    density = (mesh.density[cells] + mesh.density_slope[cells] * off) * along
    t = (s - low_m) / length
    shapes = np.stack(hermite(t, length))
    stiffness = end_load_stiffness(s - low_m, along / (mesh.ei[cells] + mesh.ei_slope[cells] * off), length)
    mass, mass_s = _products(shapes, density), _products(shapes, density * s)
    if not hung:
        nothing = np.zeros_like(mass)
        return Integrals(stiffness, mass, mass_s, nothing, nothing, nothing)
    slopes = np.stack(hermite_slope(t, length))
    zeroth, first_moment = moments_at(mesh, s, cells)[:2]
    return Integrals(
        stiffness,
        mass,
        mass_s,
        _products(slopes, along),
        _products(slopes, along * zeroth),
        _products(slopes, along * first_moment),
    )


def _one_cell(mesh: Mesh, low_m: Values, length: Values, cell: int, *, hung: bool) -> Integrals:
    """Integrate an element that lies in one cell: its Gauss points are always at the same shares of its length."""
    s = low_m + PLACES[:, None] * length
    off = s - mesh.edges_m[cell]
    along = WEIGHTS[:, None] * length
    density = (mesh.density[cell] + mesh.density_slope[cell] * off) * along
    square = length * length
    powers = np.stack([np.ones_like(length), length, square])[TURNS[:, 0]]
    stiffness = end_load_stiffness(
        PLACES[:, None] * length, along / (mesh.ei[cell] + mesh.ei_slope[cell] * off), length
    )
    mass, mass_s = SHAPES @ density * powers, SHAPES @ (density * s) * powers
    if not hung:
        nothing = np.zeros_like(mass)
        return Integrals(stiffness, mass, mass_s, nothing, nothing, nothing)
    zeroth, first_moment = moments_at(mesh, s, cell)[:2]
    turned = powers / square
    return Integrals(
        stiffness,
        mass,
        mass_s,
        SLOPES @ along * turned,
        SLOPES @ (along * zeroth) * turned,
        SLOPES @ (along * first_moment) * turned,
    )


def _products(shapes: Values, weight: Values) -> Values:
    """Integrate the ten products of shape functions, shape (4, points, N), with a weight, shape (points, N)."""
    found: Values = np.einsum("agn,bgn->abn", shapes * weight, shapes)
    return found[ROWS, COLUMNS]


def cell_at(mesh: Mesh, place_m: float) -> int:
    """Return the cell over a place; beyond the ends the outermost one runs on."""
    return int(np.clip(np.searchsorted(mesh.edges_m, place_m, side="right") - 1, 0, len(mesh.ei) - 1))


def moments_to(mesh: Mesh, place_m: Values) -> Values:
    """Return the integrals of density times s^k from the raw tip to places of shape (N), k = 0 to 3: shape (4, N)."""
    cells = np.clip(np.searchsorted(mesh.edges_m, place_m.real, side="right") - 1, 0, len(mesh.ei) - 1)
    return moments_at(mesh, place_m, cells)


def moments_at(mesh: Mesh, s: Values, cell: int | Values) -> Values:
    """Return the same at places whose cells are known, in front of their shape."""
    start = mesh.moments[:, cell]
    ends = _cell_moments(mesh, cell, s)
    return start.reshape(start.shape + (1,) * (ends.ndim - start.ndim)) + ends


def _cell_moments(mesh: Mesh, cell: int | Values, s: Values) -> Values:
    """Integrate density times s^k from the lower edge of a cell; the density is ``c + q s`` there."""
    low = np.broadcast_to(mesh.edges_m[cell], s.shape)
    q = mesh.density_slope[cell]
    c = mesh.density[cell] - q * mesh.edges_m[cell]
    orders = np.arange(1, 6).reshape(-1, *(1 for _ in s.shape))
    raised = (_powers(s) - _powers(low)) / orders
    return np.asarray(c * raised[:4] + q * raised[1:])


def _powers(s: Values) -> Values:
    """Return the first five powers, in front of the shape."""
    square = s * s
    return np.stack([s, square, square * s, square * square, square * square * s])


def _nodes(edges: Values) -> Values:
    """Choose the edges that become nodes: all, unless an element would be too short."""
    nodes = [float(edges[0])]
    for edge in edges[1:-1]:
        if edge - nodes[-1] >= SHORTEST_ELEMENT_M and edges[-1] - edge >= SHORTEST_ELEMENT_M:
            nodes.append(float(edge))
    return np.array([*nodes, float(edges[-1])])
