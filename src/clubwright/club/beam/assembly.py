"""A beam in space, put together: both bending planes, twist and stretch, with rigid bodies, springs and supports.

Six displacements a node, in the order (x, y, z, turn about x, about y, about z), x along the beam. For one beam with real
numbers; what the register of quantities asks a thousand times is in `clubwright.club.beam.first_mode`.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

import msgspec
import numpy as np
from numpy.typing import NDArray

from clubwright.club.beam.elements import GAUSS_POINTS, ElementProperties, bar_matrices, bending_matrices, gauss
from clubwright.club.beam.tip_body import TipBody

Matrix = NDArray[np.float64]
Along = Callable[[Matrix], Any]
"""A property along the beam: a function of an array of places."""

PER_NODE = 6
X, Y, Z, ABOUT_X, ABOUT_Y, ABOUT_Z = range(PER_NODE)
CLAMPED = (X, Y, Z, ABOUT_X, ABOUT_Y, ABOUT_Z)


class Beam(msgspec.Struct, frozen=True, kw_only=True):
    """A straight beam along x.

    Attributes:
        nodes_m: Places of the nodes, rising; put one on every step.
        ei_y_n_m2, ei_z_n_m2: Bending stiffness for deflection in y and in z.
        density_kg_m: Mass per length.
        gj_n_m2: Torsional stiffness.
        polar_kg_m: Polar inertia per length.
        ea_n: Axial stiffness; None holds x still everywhere.
        rotary_kg_m: Rotary inertia of the section per length, the same in both planes; None leaves it out.
        shear_n: Shear stiffness k G A, the same in both planes; None leaves shear out.
        tension_n: Axial force for the geometric stiffness; None leaves it out.
    """

    nodes_m: tuple[float, ...]
    ei_y_n_m2: Along
    ei_z_n_m2: Along
    density_kg_m: Along
    gj_n_m2: Along
    polar_kg_m: Along
    ea_n: Along | None = None
    rotary_kg_m: Along | None = None
    shear_n: Along | None = None
    tension_n: Along | None = None


def constant(value: float) -> Along:
    """Return a property that is the same all along the beam."""
    return lambda places: np.full(np.shape(places), value)


def assemble(
    beam: Beam,
    *,
    held: Mapping[int, Sequence[int]],
    bodies: Sequence[tuple[int, TipBody]] = (),
    springs: Sequence[tuple[int, int, float]] = (),
) -> tuple[Matrix, Matrix, NDArray[np.intp]]:
    """Return stiffness, mass and the free displacements.

    Args:
        beam: The beam.
        held: Displacements held still, by node (a negative node counts from the end).
        bodies: Rigid bodies, each with the node it is fixed to.
        springs: Springs to ground: node, displacement, stiffness.
    """
    count = len(beam.nodes_m)
    size = PER_NODE * count
    stiffness, mass = np.zeros((size, size)), np.zeros((size, size))
    for element in range(count - 1):
        for places, (k, m) in _element(beam, element):
            stiffness[np.ix_(places, places)] += k
            mass[np.ix_(places, places)] += m
    for node, body in bodies:
        at = PER_NODE * (node % count)
        mass[at : at + PER_NODE, at : at + PER_NODE] += body.mass_matrix()
    for node, displacement, spring in springs:
        at = PER_NODE * (node % count) + displacement
        stiffness[at, at] += spring
    still = {PER_NODE * (node % count) + place for node, places in held.items() for place in places}
    if beam.ea_n is None:
        still |= {PER_NODE * node + X for node in range(count)}
    free = np.array([place for place in range(size) if place not in still], dtype=np.intp)
    return stiffness[np.ix_(free, free)], mass[np.ix_(free, free)], free


def _element(beam: Beam, element: int) -> list[tuple[NDArray[np.intp], tuple[Matrix, Matrix]]]:
    """Return the matrices of one element with the places they are added at."""
    low, high = beam.nodes_m[element], beam.nodes_m[element + 1]
    t, _ = gauss(GAUSS_POINTS)
    length = high - low
    at = low + length * t

    def along(prop: Along | None) -> Matrix:
        return np.zeros_like(at) if prop is None else np.asarray(prop(at), dtype=float)

    first, second = PER_NODE * element, PER_NODE * (element + 1)
    shear = None if beam.shear_n is None else along(beam.shear_n)
    found = []
    for plane, ei in ((Y, beam.ei_y_n_m2), (Z, beam.ei_z_n_m2)):
        properties = ElementProperties(
            length, along(ei), along(beam.density_kg_m), along(beam.rotary_kg_m), shear, along(beam.tension_n)
        )
        k, m = bending_matrices(properties)
        turn = ABOUT_Z if plane == Y else ABOUT_Y
        if plane == Z:
            # A positive turn about y lowers z along x: the slope of z is its negative.
            sign = np.diag([1.0, -1.0, 1.0, -1.0])
            k, m = sign @ k @ sign, sign @ m @ sign
        found.append((np.array([first + plane, first + turn, second + plane, second + turn]), (k, m)))
    twist = bar_matrices(length, along(beam.gj_n_m2), along(beam.polar_kg_m))
    found.append((np.array([first + ABOUT_X, second + ABOUT_X]), twist))
    if beam.ea_n is not None:
        stretch = bar_matrices(length, along(beam.ea_n), along(beam.density_kg_m))
        found.append((np.array([first + X, second + X]), stretch))
    return found
