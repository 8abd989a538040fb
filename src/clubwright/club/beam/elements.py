"""Beam elements: shape functions, and their energies integrated at Gauss points where the properties vary inside.

Bending: two nodes with deflection and slope, cubic in between (Hermite); with shear, the two-node element whose shape
functions satisfy the static equations (Z. Friedman and J. B. Kosmatka, Computers & Structures 47 (1993) 473), which
without shear is the same. Derivation: docs/theory/frequency.md; checked in tests/published/test_published_beam.py.
"""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

Values = NDArray[Any]

GAUSS_POINTS = 6
PAIRS = tuple((a, b) for a in range(4) for b in range(a + 1))
"""The ten different entries of an element matrix, in the order they are kept."""
ROWS, COLUMNS = [list(numbers) for numbers in zip(*PAIRS, strict=True)]
BOTH_SLOPES = [place for place, (a, b) in enumerate(PAIRS) if a % 2 == 0 and b % 2 == 0]
SLOPE_SIGNS = np.array([1.0 if PAIRS[place][0] == PAIRS[place][1] else -1.0 for place in BOTH_SLOPES])[:, None]
"""The entries of two slopes: the ends of an element turn against each other."""


def gauss(points: int = GAUSS_POINTS) -> tuple[Values, Values]:
    """Return Gauss-Legendre places and weights on 0 to 1."""
    places, weights = np.polynomial.legendre.leggauss(points)
    return (places + 1) / 2, weights / 2


def hermite(t: Any, h: Any) -> tuple[Any, Any, Any, Any]:
    """Return the cubic shape functions of (slope, deflection) at the lower and at the upper node.

    Args:
        t: Place in the element, 0 to 1.
        h: Length of the element.
    """
    t2, t3 = t * t, t * t * t
    return h * (t - 2 * t2 + t3), 1 - 3 * t2 + 2 * t3, h * (t3 - t2), 3 * t2 - 2 * t3


def hermite_slope(t: Values, h: Values | float) -> tuple[Values, Values, Values, Values]:
    """Return their first derivatives along the beam, in the same order."""
    t2 = t * t
    across = 6 * (t - t2) / h
    return 1 - 4 * t + 3 * t2, -across, 3 * t2 - 2 * t, across


def end_load_stiffness(off_m: Values, give: Values, length_m: Values) -> Values:
    """Return the stiffness of an element that carries loads at its ends only, exact however its EI runs, shape (10, N).

    The moment runs straight along it: ``M = a + b (s - c)``. With c the middle of the give 1 / EI the two do not mix: a
    turns the ends against each other by ``a F0``, b shifts them by ``b F2``, F0 and F2 being the integral of the give and
    its second moment about c.

    Args:
        off_m: Places from the lower end, shape (points, N).
        give: 1 / EI at these places, times their integration weights, shape (points, N).
        length_m: Length, shape (N).
    """
    turned = give.sum(axis=0)
    middle = (off_m * give).sum(axis=0) / turned
    shifted = ((off_m - middle) ** 2 * give).sum(axis=0)
    one = np.ones_like(middle)
    shift = np.stack([middle, one, length_m - middle, -one])
    found: Values = shift[ROWS] * shift[COLUMNS] / shifted
    found[BOTH_SLOPES] += SLOPE_SIGNS / turned
    return found


class ElementProperties(NamedTuple):
    """What an element of a general beam needs, at its Gauss points (arrays of shape (points,)).

    Attributes:
        length_m: Length of the element.
        ei_n_m2: Bending stiffness in the plane.
        density_kg_m: Mass per length.
        rotary_kg_m: Density times second moment of area: rotary inertia of the section; zeros leave it out.
        shear_n: Shear stiffness k G A; None leaves shear out.
        tension_n: Axial force, positive when it stretches; zeros leave it out.
    """

    length_m: float
    ei_n_m2: Values
    density_kg_m: Values
    rotary_kg_m: Values
    shear_n: Values | None
    tension_n: Values


def bending_matrices(element: ElementProperties) -> tuple[Values, Values]:
    """Return stiffness and mass, 4 x 4, for (deflection, slope) at both nodes."""
    t, weights = gauss(len(element.ei_n_m2))
    h = element.length_m
    ratio = 0.0
    if element.shear_n is not None:
        ratio = 12 * float(np.mean(element.ei_n_m2 / element.shear_n)) / h**2
    part = 1 / (1 + ratio)
    deflection = part * np.array(
        [
            1 - 3 * t**2 + 2 * t**3 + ratio * (1 - t),
            h * (t - 2 * t**2 + t**3 + ratio / 2 * (t - t**2)),
            3 * t**2 - 2 * t**3 + ratio * t,
            h * (t**3 - t**2 + ratio / 2 * (t**2 - t)),
        ]
    )
    slope = (
        part
        / h
        * np.array(
            [
                6 * (t**2 - t) - ratio,
                h * (1 - 4 * t + 3 * t**2 + ratio / 2 * (1 - 2 * t)),
                6 * (t - t**2) + ratio,
                h * (3 * t**2 - 2 * t + ratio / 2 * (2 * t - 1)),
            ]
        )
    )
    turn = part * np.array(
        [6 * (t**2 - t) / h, 1 - 4 * t + 3 * t**2 + ratio * (1 - t), 6 * (t - t**2) / h, 3 * t**2 - 2 * t + ratio * t]
    )
    curvature = part * np.array(
        [(12 * t - 6) / h**2, (6 * t - 4 - ratio) / h, (6 - 12 * t) / h**2, (6 * t - 2 + ratio) / h]
    )
    along = h * weights
    stiffness = _energy(curvature, along * element.ei_n_m2) + _energy(slope, along * element.tension_n)
    if element.shear_n is not None:
        stiffness = stiffness + _energy(slope - turn, along * element.shear_n)
    mass = _energy(deflection, along * element.density_kg_m) + _energy(turn, along * element.rotary_kg_m)
    return stiffness, mass


def bar_matrices(length_m: float, stiffness: Values, inertia: Values) -> tuple[Values, Values]:
    """Return stiffness and mass, 2 x 2, of a bar in twist (GJ, polar inertia per length) or along its axis (EA, mass)."""
    t, weights = gauss(len(stiffness))
    along = length_m * weights
    slope = np.array([-np.ones_like(t), np.ones_like(t)]) / length_m
    return _energy(slope, along * stiffness), _energy(np.array([1 - t, t]), along * inertia)


def _energy(shapes: Values, weights: Values) -> Values:
    """Integrate the products of shape functions with a weight: shape (functions, functions)."""
    return np.asarray((shapes * weights) @ shapes.T)
