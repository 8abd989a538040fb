"""Moment of inertia of the club, about the butt stop and about its own centre of gravity.

Derivation: docs/theory/moi.md; checked in tests/published/test_published_moi.py.
"""

from __future__ import annotations

from clubwright.club.build import Build
from clubwright.club.statics import statics
from clubwright.units import Number


def moi_kg_m2(build: Build) -> Number:
    """Return the moment of inertia about the butt stop, across the shaft, in kg m2 (1 kg cm2 = 1e-4 kg m2)."""
    return statics(build).second_kg_m2


def moi_about_cg_kg_m2(build: Build) -> Number:
    """Return the moment of inertia about the centre of gravity, in kg m2 (parallel-axis theorem)."""
    sums = statics(build)
    return sums.second_kg_m2 - sums.first_kg_m * sums.first_kg_m / sums.mass_kg
