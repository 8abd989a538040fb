"""Sums over the parts that every mass quantity is made of: mass, first moment and second moment about the butt stop."""

from __future__ import annotations

from typing import NamedTuple

from clubwright.club.build import Build, pieces
from clubwright.units import Number


class Statics(NamedTuple):
    """Mass, first moment (towards the head) and second moment of the build, about what the butt stop touches."""

    mass_kg: Number
    first_kg_m: Number
    second_kg_m2: Number


def statics(build: Build) -> Statics:
    """Sum the parts of a build, once for each build.

    The second moment is about an axis through the stop and across the shaft; each part adds its own inertia and its
    distance off the axis (parallel-axis theorem, both directions across the shaft counted as one).
    """
    sums = build.kept.get("statics")
    if not isinstance(sums, Statics):
        sums = build.kept["statics"] = _sums(build)
    return sums


def _sums(build: Build) -> Statics:
    mass: Number = 0.0
    first: Number = 0.0
    second: Number = 0.0
    stop = build.stop_m
    for piece in pieces(build):
        x = stop - piece.place_m
        mass = mass + piece.mass_kg
        first = first + piece.mass_kg * x
        second = second + piece.own_inertia_kg_m2 + piece.mass_kg * (x * x + piece.off_axis_m * piece.off_axis_m)
    return Statics(mass, first, second)
