"""Tubes: area, second moment and stiffness of a round tube, and the pieces of a step-taper or straight-taper one.

A place is counted from the raw tip. Derivation and sources: docs/theory/frequency.md; checked in
tests/published/test_published_frequency.py.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import pi

import msgspec
import numpy as np

from clubwright.club.beam.stiffness import StiffnessPiece, StiffnessProfile
from clubwright.errors import NotPossible
from clubwright.units import INCH_M, Number


class Metal(msgspec.Struct, frozen=True, kw_only=True):
    """What a tube is made of: Young's modulus, shear modulus and density."""

    young_pa: float
    shear_pa: float
    density_kg_m3: float


STEEL = Metal(young_pa=205e9, shear_pa=79.3e9, density_kg_m3=7850.0)
"""Shaft steel; handbook values of a low-alloy steel, from memory."""


def tube_area_m2(outside_m: Number, wall_m: Number) -> Number:
    """Return the area of a round tube, ``pi t (d - t)``, in m2, from its outside diameter and wall."""
    return pi * wall_m * (outside_m - wall_m)


def tube_second_moment_m4(outside_m: Number, wall_m: Number) -> Number:
    """Return the second moment of area about a diameter, ``A (d^2 + (d - 2t)^2) / 16``, in m4; the polar one is twice it."""
    inside = outside_m - 2 * wall_m
    return tube_area_m2(outside_m, wall_m) * (outside_m * outside_m + inside * inside) / 16


def tube_piece(
    start_m: float, end_m: float, outside_m: Sequence[float], wall_m: Sequence[float], metal: Metal
) -> StiffnessPiece:
    """Return a stretch of tube as a piece, exact at both ends (`outside_m` and `wall_m` hold the two of them)."""
    _check_tube(start_m, end_m, outside_m, wall_m)
    area = [float(tube_area_m2(d, t)) for d, t in zip(outside_m, wall_m, strict=True)]
    moment = [float(tube_second_moment_m4(d, t)) for d, t in zip(outside_m, wall_m, strict=True)]
    return StiffnessPiece(
        start_m,
        end_m,
        metal.young_pa * moment[0],
        metal.young_pa * moment[1],
        metal.shear_pa * 2 * moment[0],
        metal.shear_pa * 2 * moment[1],
        metal.density_kg_m3 * area[0],
        metal.density_kg_m3 * area[1],
    )


def step_taper(
    edges_m: Sequence[float], outside_m: Sequence[float], wall_m: Sequence[float], metal: Metal = STEEL
) -> StiffnessProfile:
    """Return the profile of a step-taper tube.

    Args:
        edges_m: Ends of its n stretches from the raw tip, n + 1 of them, rising.
        outside_m: Outside diameter of each stretch.
        wall_m: Wall of each stretch.
        metal: What it is made of.

    Raises:
        NotPossible: when the counts do not fit, an edge does not rise, or a wall is thicker than the radius.
    """
    if not len(edges_m) - 1 == len(outside_m) == len(wall_m) > 0:
        raise NotPossible(
            f"{len(edges_m)} edges, {len(outside_m)} diameters and {len(wall_m)} walls do not make a tube",
            "Give one diameter and one wall for each stretch, and one edge more than stretches.",
        )
    stretches = zip(pairwise(edges_m), outside_m, wall_m, strict=True)
    return StiffnessProfile(
        pieces=tuple(tube_piece(low, high, (d, d), (t, t), metal) for (low, high), d, t in stretches)
    )


def straight_taper(
    length_m: float,
    tip_outside_m: float,
    butt_outside_m: float,
    tip_wall_m: float,
    butt_wall_m: float,
    metal: Metal = STEEL,
    pieces: int = 64,
) -> StiffnessProfile:
    """Return the profile of a tube whose diameter and wall run straight from tip to butt.

    The stiffness goes with the third power of the diameter; it is exact at the ends of each of `pieces` stretches and
    straight between them, which for a shaft and 64 of them leaves under 1e-4 of it.
    """
    edges = np.linspace(0.0, length_m, pieces + 1)
    outside = np.linspace(tip_outside_m, butt_outside_m, pieces + 1)
    wall = np.linspace(tip_wall_m, butt_wall_m, pieces + 1)
    made = [
        tube_piece(float(edges[i]), float(edges[i + 1]), outside[i : i + 2].tolist(), wall[i : i + 2].tolist(), metal)
        for i in range(pieces)
    ]
    return StiffnessProfile(pieces=tuple(made))


def _check_tube(start_m: float, end_m: float, outside_m: Sequence[float], wall_m: Sequence[float]) -> None:
    """Refuse what is no tube."""
    for diameter, wall in zip(outside_m, wall_m, strict=True):
        if not (end_m > start_m and 0 < wall <= diameter / 2):
            raise NotPossible(
                f"a stretch from {start_m / INCH_M:.2f} in to {end_m / INCH_M:.2f} in with diameter {diameter * 1e3:.2f} mm "
                f"and wall {wall * 1e3:.2f} mm is no tube",
                "Give edges that rise from the tip, and a wall of at most half the diameter.",
            )
