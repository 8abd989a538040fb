"""The two conventions for the length of a club, what lies between them for a head, and what a lie bend does to either.

*Axis to ground*: along the shaft axis from the end of the grip to the ground, the head soled at its own lie. *60 degree
plane*: the club on a horizontal plane, the sole against a plane inclined 60 degrees to it, from the line where the planes
meet to the end of the grip (governing bodies' test procedure for club length, rev. 1.1, 2007).

The sole is a circle in the lie plane: heel-toe radius R, touching the ground a distance c toe-ward of the shaft axis.
Derivation and sources: docs/theory/length.md; checked in tests/published/test_published_length.py.

Every function works element by element on floats, arrays and complex arrays, and checks nothing.
"""

from __future__ import annotations

import msgspec
import numpy as np

from clubwright.club.parts import Kind
from clubwright.units import DEGREE_RAD, INCH_M, Number

PLANE_RAD = 60 * DEGREE_RAD
"""Inclination of the plane that the sole stands against."""

BEND_POINT_UP_M = 2.3 * INCH_M
"""From the level of the sole's contact to the bend point in the hosel, along the shaft axis (trade estimate)."""
CONTACT_OFF_AXIS_M = 1.5 * INCH_M
"""Of the sole's contact, square to the shaft axis (trade estimate)."""
USUAL_LIE_RAD = 62 * DEGREE_RAD
"""Lie for which the two trade estimates above were stated: a middle iron."""
BEND_POINT_M = float(BEND_POINT_UP_M - CONTACT_OFF_AXIS_M / np.tan(USUAL_LIE_RAD))
"""The bend point above the axis' ground point, along the axis, that follows from them: about 38 mm."""


class Sole(msgspec.Struct, frozen=True, kw_only=True):
    """The heel-toe shape of a sole.

    Attributes:
        camber_m: Radius of the sole from heel to toe.
        contact_m: How far toe-ward of the shaft axis it touches the ground.
        standing: How well the two are known.
    """

    camber_m: float
    contact_m: float
    standing: str


_OURS = "estimate of ours, not measured"

DEFAULT_SOLE: dict[Kind, Sole] = {
    "driver": Sole(camber_m=0.250, contact_m=0.055, standing=_OURS),
    "fairway": Sole(camber_m=0.250, contact_m=0.055, standing=_OURS),
    "hybrid": Sole(camber_m=0.250, contact_m=0.055, standing=_OURS),
    "iron": Sole(camber_m=0.250, contact_m=0.055, standing=_OURS),
    "wedge": Sole(camber_m=0.250, contact_m=0.055, standing=_OURS),
    "putter": Sole(camber_m=0.250, contact_m=0.055, standing=_OURS),
}
"""Taken for a head whose sole nobody measured. One shape for all until somebody lays a radius gauge on each kind."""


def length_at_tilt_minus_axis_m(
    lie_rad: Number, shaft_to_plane_rad: Number, sole_camber_m: Number, sole_contact_m: Number
) -> Number:
    """Return how much longer the axis reads with the head tilted than with it soled at its own lie.

    ``(R (1 - cos t) - c sin t) / sin b`` with ``t = lie - b``: a head with its toe up (t > 0) reads short.

    Args:
        lie_rad: Lie of the head.
        shaft_to_plane_rad: Angle b between shaft and plane in the tilted position.
        sole_camber_m: Heel-toe radius of the sole, R.
        sole_contact_m: Contact toe-ward of the axis at the head's own lie, c.
    """
    tilt_rad = lie_rad - shaft_to_plane_rad
    lift_m: Number = sole_camber_m * (1 - np.cos(tilt_rad)) - sole_contact_m * np.sin(tilt_rad)
    return lift_m / np.sin(shaft_to_plane_rad)


def plane_minus_axis_m(
    lie_rad: Number, sole_camber_m: Number, sole_contact_m: Number, axis_height_m: Number = 0.0
) -> Number:
    """Return the 60 degree plane length minus the axis-to-ground length of the same club.

    Negative for a lie above 60 degrees: such a head stands toe up against the plane.

    Args:
        lie_rad: Lie of the head.
        sole_camber_m: Heel-toe radius of the sole.
        sole_contact_m: Contact toe-ward of the axis at the head's own lie.
        axis_height_m: How far the shaft axis lies above the horizontal plane; the line where the planes meet is then
            nearer to the grip than the axis' point on the inclined plane by ``h cot 60``. Zero when the rule follows
            the axis itself.
    """
    tilted_m = length_at_tilt_minus_axis_m(lie_rad, PLANE_RAD, sole_camber_m, sole_contact_m)
    return tilted_m - axis_height_m / float(np.tan(PLANE_RAD))


def axis_length_m(
    plane_length_m: Number,
    lie_rad: Number,
    sole_camber_m: Number,
    sole_contact_m: Number,
    axis_height_m: Number = 0.0,
) -> Number:
    """Return the axis-to-ground length of a club that reads `plane_length_m` against the 60 degree plane."""
    return plane_length_m - plane_minus_axis_m(lie_rad, sole_camber_m, sole_contact_m, axis_height_m)


def plane_length_m(
    axis_length_m: Number,
    lie_rad: Number,
    sole_camber_m: Number,
    sole_contact_m: Number,
    axis_height_m: Number = 0.0,
) -> Number:
    """Return what a club of axis-to-ground length `axis_length_m` reads against the 60 degree plane."""
    return axis_length_m + plane_minus_axis_m(lie_rad, sole_camber_m, sole_contact_m, axis_height_m)


def length_change_from_lie_m(
    bend_rad: Number, lie_rad: Number = USUAL_LIE_RAD, bend_point_m: Number = BEND_POINT_M
) -> Number:
    """Return the change of the axis-to-ground length when the lie is bent and the shaft stays as it is.

    ``k (sin lie / sin(lie + bend) - 1)``: the bend point keeps its height above the ground, and the axis runs down from
    it at the new lie. A club bent flat gets longer.

    Args:
        bend_rad: Change of lie, up positive.
        lie_rad: Lie before the bend.
        bend_point_m: The bend point above the axis' ground point, along the axis, k.
    """
    return bend_point_m * (np.sin(lie_rad) / np.sin(lie_rad + bend_rad) - 1)


def contact_after_lie_bend_m(
    sole_contact_m: Number,
    bend_rad: Number,
    lie_rad: Number = USUAL_LIE_RAD,
    bend_point_m: Number = BEND_POINT_M,
) -> Number:
    """Return how far toe-ward of the axis the sole touches once the lie is bent: ``c + k sin bend / sin(lie + bend)``."""
    return sole_contact_m + bend_point_m * np.sin(bend_rad) / np.sin(lie_rad + bend_rad)


def plane_length_change_from_lie_m(
    bend_rad: Number,
    lie_rad: Number,
    sole_camber_m: Number,
    sole_contact_m: Number,
    bend_point_m: Number = BEND_POINT_M,
) -> Number:
    """Return the change of the 60 degree plane length when the lie is bent and the shaft stays as it is.

    Several times that of the axis-to-ground length, since the head also stands differently against the plane.
    """
    contact_m = contact_after_lie_bend_m(sole_contact_m, bend_rad, lie_rad, bend_point_m)
    before_m = plane_minus_axis_m(lie_rad, sole_camber_m, sole_contact_m)
    after_m = plane_minus_axis_m(lie_rad + bend_rad, sole_camber_m, contact_m)
    return length_change_from_lie_m(bend_rad, lie_rad, bend_point_m) + after_m - before_m
