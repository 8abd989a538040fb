"""Balance point: where the club rests level on an edge. Derivation: docs/theory/statics.md."""

from __future__ import annotations

from clubwright.club.build import Build
from clubwright.club.statics import statics
from clubwright.units import Number


def balance_point_m(build: Build) -> Number:
    """Return the distance from the butt stop to the balance point, in m."""
    sums = statics(build)
    return sums.first_kg_m / sums.mass_kg
