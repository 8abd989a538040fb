"""Total weight: the sum of what is on the club. Derivation: docs/theory/statics.md."""

from __future__ import annotations

from clubwright.club.build import Build
from clubwright.club.statics import statics
from clubwright.units import Number


def total_weight_kg(build: Build) -> Number:
    """Return the mass of everything on the club at this stage, in kg."""
    return statics(build).mass_kg
