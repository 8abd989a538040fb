"""Finished outside diameter of a grip, from what it is pulled over.

Two models bracket what rubber does. Additive: the wall keeps its thickness, and each bit of tape shows on the outside in
full. Constant volume: the wall's cross-section keeps its area, so the wall thins as the grip is opened up. The truth lies
between, and depends on the grip and on how it is pulled on; ``blend`` says where, and the shop's own readings set it
(``clubwright.planning.grip.calibration.calibrate_blend``). Derivation and sources: docs/theory/grip-size.md; checked in
tests/published/test_published_grip_size.py.

Every function works element by element on floats, arrays and complex arrays, and checks nothing.
"""

from __future__ import annotations

import numpy as np

from clubwright.units import Number


def under_diameter_m(butt_m: Number, tape_thickness_m: Number) -> Number:
    """Return the diameter that the grip's inside sits on: the butt with all tape, `tape_thickness_m` to a side."""
    return butt_m + 2 * tape_thickness_m


def additive_diameter_m(core_m: Number, nominal_m: Number, under_m: Number, stretch: Number = 0.0) -> Number:
    """Return the outside diameter when the wall keeps its thickness: ``u + (D0 - c) / (1 + s)``, in m."""
    return under_m + (nominal_m - core_m) / (1 + stretch)


def constant_volume_diameter_m(core_m: Number, nominal_m: Number, under_m: Number, stretch: Number = 0.0) -> Number:
    """Return the outside diameter when the rubber keeps its volume: ``sqrt(u^2 + (D0^2 - c^2) / (1 + s))``, in m."""
    return np.sqrt(under_m**2 + (nominal_m**2 - core_m**2) / (1 + stretch))


def outside_diameter_m(
    core_m: Number,
    nominal_m: Number,
    butt_m: Number,
    tape_thickness_m: Number,
    blend: Number,
    stretch: Number = 0.0,
) -> Number:
    """Return the finished outside diameter at one place on the grip.

    Args:
        core_m: Inside diameter that the grip is made for at this place.
        nominal_m: Outside diameter there on a butt that equals the core.
        butt_m: Diameter of the bare shaft there.
        tape_thickness_m: All tape under the grip, one side.
        blend: 0 for constant volume, 1 for additive; calibrated, it may come out slightly beyond either.
        stretch: Pulled longer by this share of its free length; 0.071 for 3/4 in on 10 1/2 in.

    Returns:
        The diameter in m, of the shape that the arguments broadcast to.
    """
    under_m = under_diameter_m(butt_m, tape_thickness_m)
    additive_m = additive_diameter_m(core_m, nominal_m, under_m, stretch)
    constant_m = constant_volume_diameter_m(core_m, nominal_m, under_m, stretch)
    return blend * additive_m + (1 - blend) * constant_m


def under_diameter_for_m(
    target_m: Number, core_m: Number, nominal_m: Number, blend: Number, stretch: Number = 0.0
) -> Number:
    """Return the diameter under the grip that gives the target outside: the inverse of the above, in closed form.

    With ``w = (D0 - c)/(1 + s)``, ``q = (D0^2 - c^2)/(1 + s)`` and ``K = D - b w`` the equation
    ``(K - b u)^2 = (1 - b)^2 (u^2 + q)`` has the wanted root
    ``u = (K^2 - (1 - b)^2 q) / (K b + (1 - b) sqrt(K^2 + (2 b - 1) q))``, which holds at b = 1/2 too.
    A target that cannot be reached gives a value below zero or NaN.
    """
    wall_m = (nominal_m - core_m) / (1 + stretch)
    q_m2 = (nominal_m**2 - core_m**2) / (1 + stretch)
    rest_m = target_m - blend * wall_m
    root_m = np.sqrt(rest_m**2 + (2 * blend - 1) * q_m2)
    return (rest_m**2 - (1 - blend) ** 2 * q_m2) / (rest_m * blend + (1 - blend) * root_m)
