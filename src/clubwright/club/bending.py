"""Bending the hosel: which turn of the shaft in the head changes loft, lie or both.

Axes of the gauge, for a right-handed club: X from heel to toe, Y to the target, Z up; a left-handed club is its mirror
image and has the same lofts and lies. The head is held, and the shaft is turned about an axis through the bend point.
Then the club goes back into the gauge: grooves level, face square, shaft in the vertical plane square to the target line.
Derivation and sources: docs/theory/bending.md; checked in tests/published/test_published_bending.py against
`scipy.spatial.transform.Rotation`.

Angles are floats, or complex numbers where a derivative is wanted.
"""

from __future__ import annotations

from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from clubwright.units import Number

Vector: TypeAlias = NDArray[Any]
"""Three components along X, Y, Z."""

HEEL_TO_TOE: Vector = np.array([1.0, 0.0, 0.0])
TO_TARGET: Vector = np.array([0.0, 1.0, 0.0])


def shaft_direction(lie_rad: Number) -> Vector:
    """Return the unit vector up the shaft of a club in the gauge: ``(-cos lie, 0, sin lie)``."""
    return np.array([-np.cos(lie_rad), 0.0, np.sin(lie_rad)])


def face_normal(loft_rad: Number) -> Vector:
    """Return the unit vector out of the face of a club in the gauge: ``(0, cos loft, sin loft)``."""
    return np.array([0.0, np.cos(loft_rad), np.sin(loft_rad)])


def turned(vector: Vector, axis: Vector, angle_rad: Number) -> Vector:
    """Return a vector turned about a unit axis, right-handed (Rodrigues' formula)."""
    along = axis * (axis @ vector)
    result: Vector = along + (vector - along) * np.cos(angle_rad) + np.cross(axis, vector) * np.sin(angle_rad)
    return result


def gauge_angles_rad(normal: Vector, grooves: Vector, shaft: Vector) -> tuple[Number, Number]:
    """Return loft and lie as the gauge reads them, from any position of the club.

    Args:
        normal: Unit vector out of the face.
        grooves: Unit vector along the grooves, heel to toe, square to `normal`.
        shaft: Unit vector up the shaft.

    Returns:
        Loft and lie in rad, for lofts and lies strictly between 0 and 90 degrees either way of zero.
    """
    lean = -(shaft @ grooves)
    upright = shaft + lean * grooves
    rise = np.sqrt(upright @ upright)
    up = upright / rise
    forward = np.cross(up, grooves)
    return np.arctan((normal @ up) / (normal @ forward)), np.arctan(rise / lean)


def angles_after_bend_rad(loft_rad: Number, lie_rad: Number, axis: Vector, bend_rad: Number) -> tuple[Number, Number]:
    """Return loft and lie in the gauge after the shaft was turned in the head about a unit axis.

    Args:
        loft_rad: Loft before.
        lie_rad: Lie before.
        axis: Unit vector, in the gauge's axes before the bend.
        bend_rad: Angle of the turn, right-handed about `axis`.
    """
    shaft = turned(shaft_direction(lie_rad), axis, bend_rad)
    return gauge_angles_rad(face_normal(loft_rad), HEEL_TO_TOE, shaft)


def square_pull_axis(lie_rad: Number) -> Vector:
    """Return the axis, in the lie plane and square to the shaft, about which a bar pulled along the target line turns it."""
    return np.array([np.sin(lie_rad), 0.0, np.cos(lie_rad)])


def lie_pull_axis(lie_rad: Number, bar_turned_rad: Number) -> Vector:
    """Return the axis of a lie bend whose bar sits `bar_turned_rad` round the shaft from the lie plane.

    Zero is the target line itself; positive turns right-handed about the direction up the shaft.
    """
    return turned(TO_TARGET, shaft_direction(lie_rad), bar_turned_rad)


def loft_change_from_square_pull_rad(pull_rad: Number, lie_rad: Number) -> Number:
    """Return the loft gained when a bar is pulled square to the shaft: ``atan(tan pull / sin lie)``.

    More than the pull, since the club is turned back about its shaft until the face is square again. Positive is a shaft
    moved toward the target, which makes the loft weaker.
    """
    change_rad: Number = np.arctan(np.tan(pull_rad) / np.sin(lie_rad))
    return change_rad


def square_pull_for_loft_rad(loft_change_rad: Number, lie_rad: Number) -> Number:
    """Return the pull square to the shaft that gives a change of loft: ``atan(tan change sin lie)``."""
    pull_rad: Number = np.arctan(np.tan(loft_change_rad) * np.sin(lie_rad))
    return pull_rad


def changes_from_lie_pull_rad(lie_rad: Number, pull_rad: Number, bar_turned_rad: Number) -> tuple[Number, Number]:
    """Return the changes of loft and lie from a lie bend with the bar turned round the shaft.

    Args:
        lie_rad: Lie before.
        pull_rad: Angle that the bar goes through, up positive.
        bar_turned_rad: How far the bar sits round the shaft from the lie plane; zero gives lie alone.

    Returns:
        Change of loft and change of lie. The loft of the head does not matter.
    """
    shaft = turned(shaft_direction(lie_rad), lie_pull_axis(lie_rad, bar_turned_rad), pull_rad)
    # A face with no loft reads the change itself.
    loft_change, lie_after = gauge_angles_rad(face_normal(0.0), HEEL_TO_TOE, shaft)
    return loft_change, lie_after - lie_rad
