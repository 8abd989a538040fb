"""How many standard uncertainties a figure must keep from a limit, by the decision rule that a ticket names."""

from __future__ import annotations

GUARD_FACTORS = {"guard 2u": 2.0, "guard 95 %": 1.6448536269514722, "simple": 0.0}
"""Guard band over standard uncertainty of each rule a ticket may name; held equal to `clubwright.conformity.rules` by
tests/unit/planning/steps/test_steps.py."""
