"""What hangs on the shaft of a club in a frequency meter: the rigid body on its end, and the masses along it.

Everything up to the end of the bending part moves with the head. The ferrule sits on the shaft above it; grip and tape
reach a little out of the clamp, and what they weigh there counts, while rubber adds no stiffness worth naming. Derivation:
docs/theory/frequency.md; checked in tests/unit/club/test_frequency.py.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from clubwright.club.build import Build, Piece, pieces
from clubwright.units import Number

Spot = tuple[Number, Number]
"""A mass and its place from the raw tip."""

SPREAD = {"shaft", "tapes", "grip"}
"""Parts that lie along the shaft."""

PLACES = (0.5 - 0.15**0.5, 0.5, 0.5 + 0.15**0.5)
WEIGHTS = (5 / 18, 8 / 18, 5 / 18)
"""Gauss-Legendre on 0 to 1, three points."""


def _real(number: Any) -> Any:
    return number.real


def _chosen(where: Any, one: Number, other: Number) -> Number:
    """Return one number where something holds and another elsewhere, plain where all is plain."""
    if isinstance(where, bool):
        return one if where else other
    return np.where(where, one, other)


def lumps(build: Build) -> list[Piece]:
    """List what is on the club at this stage besides shaft, tape and grip."""
    return pieces(build, build.stage.parts - SPREAD)


def beam_parts(build: Build, end_m: Number, clamp_m: Number) -> tuple[tuple[Number, Number, Number], list[Spot]]:
    """Return the rigid body (mass, first and second moment about the end of the bending part) and the masses beyond.

    Args:
        build: The club.
        end_m: Where the bending part ends, from the ground point.
        clamp_m: Where the clamp begins, from the raw tip.
    """
    mass: Number = 0.0
    first: Number = 0.0
    second: Number = 0.0
    spots: list[Spot] = []
    top = build.hosel_top_m
    for lump in lumps(build):
        on_body = _real(lump.place_m) <= _real(top)
        own = _chosen(on_body, lump.mass_kg, 0.0)
        beyond = end_m - lump.place_m
        mass = mass + own
        first = first + own * beyond
        turning = lump.own_inertia_kg_m2 + lump.mass_kg * (beyond * beyond + lump.off_axis_m * lump.off_axis_m)
        second = second + _chosen(on_body, turning, 0.0)
        if on_body is not True and not np.all(on_body):
            spots.append(_spot(build, clamp_m, _chosen(on_body, 0.0, lump.mass_kg), lump.place_m))
    club = build.club
    if "tapes" in build.stage.parts:
        for tape in club.tapes:
            low = build.cap_face_m - tape.cg_from_cap_m - tape.length_m / 2
            spots += _spread(build, clamp_m, low, tape.length_m, tape.mass_kg, 0.0)
    if "grip" in build.stage.parts:
        grip = club.grip
        # A straight-line density with the grip's centre, as for a shaft; counted from its mouth.
        skew = 6 * (0.5 - grip.cg_from_cap_m / grip.length_m)
        spots += _spread(build, clamp_m, build.cap_face_m - grip.length_m, grip.length_m, grip.mass_kg, skew)
    return (mass, first, second), spots


def _spot(build: Build, clamp_m: Number, mass_kg: Number, place_m: Number) -> Spot:
    """Put a mass on the shaft, unless it is held by the clamp."""
    at = place_m - build.tip_m + build.club.shaft.tip_trim_m
    return _chosen(_real(at) < _real(clamp_m), mass_kg, 0.0), at


def _spread(
    build: Build, clamp_m: Number, low_m: Number, length_m: Number, mass_kg: Number, skew: Number
) -> list[Spot]:
    """Spread what lies out of the clamp over three places; the density runs ``(m / L)(1 + skew (2u - 1))``."""
    start = low_m - build.tip_m + build.club.shaft.tip_trim_m
    out = _chosen(_real(start) < _real(clamp_m), clamp_m - start, 0.0)
    if not np.any(_real(out) > 0):
        return []
    found: list[Spot] = []
    for share, weight in zip(PLACES, WEIGHTS, strict=True):
        u = share * out / length_m
        found.append((mass_kg / length_m * (1 + skew * (2 * u - 1)) * weight * out, start + share * out))
    return found
