"""Periods by which a moment of inertia is measured: a pendulum hung at the butt, and a two-cord suspension.

Standard mechanics (physical pendulum, bifilar suspension; small swings). The trade's short cut "the period goes as the
root of the MOI" does not hold: the period also carries mass and centre of gravity. Derivation: docs/theory/moi.md;
checked in tests/published/test_published_moi.py.
"""

from __future__ import annotations

from math import pi

import numpy as np

from clubwright.club.build import Build
from clubwright.club.moi import moi_about_cg_kg_m2
from clubwright.club.statics import statics
from clubwright.units import Number


def pendulum_period_s(build: Build) -> Number:
    """Return the small-swing period about a pivot ``conventions.pivot_beyond_butt_m`` beyond the butt stop, in s."""
    sums = statics(build)
    arm = sums.first_kg_m / sums.mass_kg + build.conventions.pivot_beyond_butt_m
    inertia = moi_about_cg_kg_m2(build) + sums.mass_kg * arm * arm
    period: Number = 2 * pi * np.sqrt(inertia / (sums.mass_kg * build.conventions.gravity_m_s2 * arm))
    return period


def large_swing_factor(amplitude_rad: float) -> float:
    """Return by how much a swing of this amplitude lasts longer than a small one: 1 + a^2/16 to second order."""
    return 1 + amplitude_rad**2 / 16


def moi_from_pendulum_kg_m2(
    period_s: Number, mass_kg: Number, cg_m: Number, pivot_m: float, gravity_m_s2: float
) -> Number:
    """Return the MOI about the butt stop from a pendulum's period.

    Args:
        period_s: Small-swing period.
        mass_kg: Mass of what swings.
        cg_m: Balance point from the butt stop.
        pivot_m: Pivot beyond the butt stop, away from the head.
        gravity_m_s2: Local gravity.
    """
    arm = cg_m + pivot_m
    about_pivot = mass_kg * gravity_m_s2 * arm * period_s * period_s / (4 * pi**2)
    return about_pivot - mass_kg * arm * arm + mass_kg * cg_m * cg_m


def bifilar_period_s(build: Build, spacing_m: float, cord_m: float) -> Number:
    """Return the period of the club turning on two equal cords placed evenly about its balance point, in s."""
    mass = statics(build).mass_kg
    inertia = moi_about_cg_kg_m2(build)
    root: Number = np.sqrt(inertia * cord_m / (mass * build.conventions.gravity_m_s2))
    return 4 * pi / spacing_m * root
