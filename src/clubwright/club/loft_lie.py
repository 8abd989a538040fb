"""What a lie that does not fit does to the face, and how loft, lie and length hang together.

Signs: a lie error is positive with the toe up (too upright); a face direction is positive toward the heel side, which is
left of the target for a right-hander and right of it for a left-hander. The face direction is where the face points;
the ball starts mostly, not wholly, along it.
Derivation and sources: docs/theory/loft-lie-bounce.md; checked in tests/published/test_published_loft_lie.py.

The formulas work element by element on floats, arrays and complex arrays, and check nothing.
"""

from __future__ import annotations

import numpy as np

from clubwright.club.parts import Hand
from clubwright.units import DEGREE_RAD, Number

STRAIGHT_RAD = 0.005 * DEGREE_RAD
"""A face direction below this is called straight."""


def face_direction_rad(loft_rad: Number, lie_error_rad: Number) -> Number:
    """Return where the face points, ``atan(tan loft sin error)``, in rad toward the heel side for a toe that is up."""
    direction_rad: Number = np.arctan(np.tan(loft_rad) * np.sin(lie_error_rad))
    return direction_rad


def sideways_miss_m(distance_m: Number, loft_rad: Number, lie_error_rad: Number) -> Number:
    """Return how far beside the target the face points at a distance: ``distance tan loft sin error``."""
    return distance_m * np.tan(loft_rad) * np.sin(lie_error_rad)


def side_words(face_direction: float, hand: Hand) -> str:
    """Return a face direction in words: ``left of target``, ``right of target`` or ``at the target``.

    Args:
        face_direction: In rad, toward the heel side positive, as `face_direction_rad` gives it.
        hand: Hand the club is for.
    """
    if abs(face_direction) < STRAIGHT_RAD:
        return "at the target"
    heel_side, toe_side = ("left", "right") if hand == "right" else ("right", "left")
    return f"{heel_side if face_direction > 0 else toe_side} of target"
