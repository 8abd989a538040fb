"""The period by which a moment of inertia is measured: a pendulum hung at the butt.

Standard mechanics (physical pendulum; small swings). The trade's short cut "the period goes as the
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
