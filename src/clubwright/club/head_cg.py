"""Where the head's centre of gravity sits along the shaft when the lie is bent, and what else of the head a lie bend moves.

The centre is d toe-ward of the shaft axis' ground point and h above it. Derivation and sources: docs/theory/bending.md;
checked in tests/published/test_published_bending.py. Element by element on floats, arrays and complex arrays.
"""

from __future__ import annotations

import msgspec
import numpy as np

from clubwright.club.length import BEND_POINT_M, contact_after_lie_bend_m, length_change_from_lie_m
from clubwright.club.parts import Head
from clubwright.units import Number


def cg_toward_butt_m(
    cg_from_ground_m: Number, cg_off_axis_m: Number, bend_rad: Number, bend_point_m: Number = BEND_POINT_M
) -> Number:
    """Return how far the head's centre of gravity comes nearer to the butt of an uncut shaft, in m.

    ``a sin bend + (g - k)(cos bend - 1)``: the head turns about the bend point. Bent flat, it goes further out.

    Args:
        cg_from_ground_m: Place along the axis from its ground point before the bend, g.
        cg_off_axis_m: Distance from the axis in the lie plane, toe-ward, a.
        bend_rad: Change of lie, up positive.
        bend_point_m: The bend point above the axis' ground point, along the axis, k.
    """
    return cg_off_axis_m * np.sin(bend_rad) + (cg_from_ground_m - bend_point_m) * (np.cos(bend_rad) - 1)


def cg_from_ground_after_lie_bend_m(
    cg_from_ground_m: Number,
    cg_off_axis_m: Number,
    lie_rad: Number,
    bend_rad: Number,
    bend_point_m: Number = BEND_POINT_M,
) -> Number:
    """Return the centre's place from the axis' new ground point once the lie is bent, in m.

    The ground point moves with the length; what is left is what a club re-cut to its length keeps of the bend.
    """
    moved_m = cg_toward_butt_m(cg_from_ground_m, cg_off_axis_m, bend_rad, bend_point_m)
    return cg_from_ground_m + moved_m + length_change_from_lie_m(bend_rad, lie_rad, bend_point_m)


def cg_off_axis_after_lie_bend_m(
    cg_from_ground_m: Number, cg_off_axis_m: Number, bend_rad: Number, bend_point_m: Number = BEND_POINT_M
) -> Number:
    """Return the centre's distance from the axis in the lie plane after a bend, ``a cos bend - (g - k) sin bend``, in m."""
    return cg_off_axis_m * np.cos(bend_rad) - (cg_from_ground_m - bend_point_m) * np.sin(bend_rad)


def head_after_lie_bend(head: Head, bend_rad: Number) -> Head:
    """Return a head with its lie bent about the bend point, up positive; loft and bounce stay as they are."""
    longer_m = length_change_from_lie_m(bend_rad, head.lie_rad)
    return msgspec.structs.replace(
        head,
        lie_rad=head.lie_rad + bend_rad,
        bore_to_ground_m=head.bore_to_ground_m + longer_m,
        cg_from_ground_m=cg_from_ground_after_lie_bend_m(
            head.cg_from_ground_m, head.cg_off_axis_m, head.lie_rad, bend_rad
        ),
        cg_off_axis_m=cg_off_axis_after_lie_bend_m(head.cg_from_ground_m, head.cg_off_axis_m, bend_rad),
        sole_contact_m=contact_after_lie_bend_m(head.sole_contact_m, bend_rad, head.lie_rad),
    )
