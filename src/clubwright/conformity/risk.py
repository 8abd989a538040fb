"""The risk behind a verdict: the chance that this club, taken as within, is outside.

Definitions of JCGM 106:2012; derivation in docs/theory/conformity.md; checked in tests/published/
test_published_jcgm106.py.
"""

from __future__ import annotations

import math
from typing import TypeAlias

from clubwright.belief.normal import chance_below
from clubwright.conformity.rules import require_numbers
from clubwright.errors import Finding, InputError

Interval: TypeAlias = tuple[float, float]
"""Lower and upper limit in one unit; minus and plus infinity where there is none."""


def conformance_probability(mean: float, u: float, low: float = -math.inf, high: float = math.inf) -> float:
    """Return the chance that a quantity known as N(mean, u^2) lies from low to high (JCGM 106:2012, 7).

    Args:
        mean: Best estimate.
        u: Standard uncertainty, at least 0, same unit; 0 means that the value is known.
        low: Lower limit, if any.
        high: Upper limit, if any.

    Raises:
        InputError: A number is not finite, u is negative, or the limits are crossed.
    """
    require_numbers(any_sign={"mean": mean}, at_least_zero={"standard uncertainty": u})
    _require_order("tolerance", (low, high))
    if u == 0:
        return float(low <= mean <= high)
    below, above = (low - mean) / u, (high - mean) / u
    # The tails are exact on the left only, so a far right-hand interval is taken in the mirror.
    if below > 0:
        below, above = -above, -below
    return float(chance_below(above) - chance_below(below))


def specific_consumer_risk(mean: float, u: float, low: float = -math.inf, high: float = math.inf) -> float:
    """Return the chance that this very club, taken as within, is outside; arguments as `conformance_probability`."""
    upper_tail = conformance_probability(mean, u, low=high) if math.isfinite(high) else 0.0
    lower_tail = conformance_probability(mean, u, high=low) if math.isfinite(low) else 0.0
    return upper_tail + lower_tail


def _require_order(what: str, limits: Interval) -> None:
    if not limits[0] <= limits[1]:
        message = f"the lower limit {limits[0]!r} is not below the upper limit {limits[1]!r}"
        raise InputError([Finding(where=what, what=message, mend="Give the lower limit first.")])
