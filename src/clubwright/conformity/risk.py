"""The risks behind a verdict: how often an accepted club is bad, and a good club refused.

Definitions of JCGM 106:2012; derivation in docs/theory/conformity.md; checked in tests/published/
test_published_jcgm106.py.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any, Protocol, TypeAlias

import msgspec
import numpy as np
from numpy.typing import NDArray

from clubwright.belief.normal import chance_below
from clubwright.conformity.rules import require_numbers
from clubwright.errors import Finding, InputError

Array: TypeAlias = NDArray[Any]
Interval: TypeAlias = tuple[float, float]
"""Lower and upper limit in one unit; minus and plus infinity where there is none."""

_TAIL = 1e-15
_SMALLEST_RISK = 1e-9
_STEPS_IN_U = (0.0, 2.0, 4.0, 6.0, 9.0)
_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(24)


class Prior(Protocol):
    """What is known of a quantity before it is read: any frozen continuous distribution of scipy.stats has these.

    Its density should be smooth between its ends; a spike narrower than u that sits off its own quantiles is not seen.
    """

    def pdf(self, x: Array, /) -> Array: ...  # noqa: D102
    def cdf(self, x: float, /) -> float: ...  # noqa: D102
    def ppf(self, q: float, /) -> float: ...  # noqa: D102
    def isf(self, q: float, /) -> float: ...  # noqa: D102


class Risks(msgspec.Struct, frozen=True, kw_only=True):
    """Global risks of a measurement, before any reading is known; all are probabilities.

    Attributes:
        consumer: The club is outside its tolerance and accepted.
        producer: The club is within its tolerance and refused.
        accepted: The club is accepted, good or bad.
        conditional_false_accept: An accepted club is outside its tolerance, consumer / accepted.
        nonconforming: A club is outside its tolerance, inspected or not.
    """

    consumer: float
    producer: float
    accepted: float
    conditional_false_accept: float
    nonconforming: float


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


def global_risks(prior: Prior, u: float, tolerance: Interval, acceptance: Interval) -> Risks:
    """Return the risks of accepting every reading within `acceptance` (JCGM 106:2012, 9.5).

    The reading of a club at x is N(x, u^2). A reading outside `acceptance` is refused, even one below zero of a quantity
    that cannot be: give minus infinity as the lower acceptance limit to take such a reading.

    Args:
        prior: Distribution of the clubs as they come, in the unit of the limits.
        u: Standard uncertainty of the reading, above 0.
        tolerance: Lower and upper tolerance limit.
        acceptance: Lower and upper acceptance limit.

    Raises:
        InputError: u is not above 0, or limits are crossed.
    """
    require_numbers(any_sign={}, at_least_zero={"standard uncertainty": u})
    _require_order("tolerance", tolerance)
    _require_order("acceptance", acceptance)
    if u == 0:
        raise InputError([Finding(where="standard uncertainty", what="0", mend="A perfect reading carries no risk.")])
    low, high = tolerance

    def refuse(x: Array) -> Array:
        refused: Array = chance_below((acceptance[0] - x) / u) + chance_below((x - acceptance[1]) / u)
        return refused

    def accept(x: Array) -> Array:
        return 1 - refuse(x)

    breaks = [limit + sign * step * u for limit in acceptance for sign in (-1, 1) for step in _STEPS_IN_U]
    breaks += [float(prior.ppf(q)) for q in (0.001, 0.1, 0.3, 0.5, 0.7, 0.9, 0.999)]
    consumer = _expect(prior, accept, (-math.inf, low), breaks) + _expect(prior, accept, (high, math.inf), breaks)
    accepted_good = _expect(prior, accept, tolerance, breaks)
    accepted = consumer + accepted_good
    return Risks(
        consumer=consumer,
        producer=_expect(prior, refuse, tolerance, breaks),
        accepted=accepted,
        conditional_false_accept=consumer / accepted if accepted > 0 else 0.0,
        nonconforming=1 - (float(prior.cdf(high)) - float(prior.cdf(low))),
    )


def normal_risks(mean: float, sd: float, u: float, tolerance: Interval, acceptance: Interval) -> Risks:
    """Return `global_risks` for clubs that come as N(mean, sd^2)."""
    require_numbers(any_sign={"mean": mean}, at_least_zero={"standard deviation": sd})
    if sd == 0:
        raise InputError([Finding(where="standard deviation", what="0", mend="Use conformance_probability instead.")])
    from scipy.stats import norm  # loads for a third of a second

    return global_risks(norm(mean, sd), u, tolerance, acceptance)


def guard_for_consumer_risk(prior: Prior, u: float, tolerance: Interval, wanted: float) -> float:
    """Return the guard band, taken off every finite limit, that brings the global consumer risk down to `wanted`.

    Args:
        prior: Distribution of the clubs as they come.
        u: Standard uncertainty of the reading, above 0.
        tolerance: Lower and upper tolerance limit, at least one of them finite.
        wanted: Consumer risk, from 1e-9 (what the integrals resolve) to 1.

    Returns:
        The guard band w, at least 0; 0 when simple acceptance already carries no more risk.

    Raises:
        InputError: The wanted risk is not in that range, or another number cannot be used.
    """
    low, high = tolerance
    if not _SMALLEST_RISK <= wanted <= 1:
        mend = f"Give a probability from {_SMALLEST_RISK:g} to 1."
        raise InputError([Finding(where="wanted consumer risk", what=f"{wanted!r} is out of range", mend=mend)])

    def excess(guard: float) -> float:
        # Half the tolerance taken off both ends may cross them by the last binary digit.
        acceptance = (low + guard, max(low + guard, high - guard))
        return global_risks(prior, u, tolerance, acceptance).consumer - wanted

    if excess(0.0) <= 0:
        return 0.0
    widest = (high - low) / 2
    if math.isinf(widest):
        edge = high if math.isfinite(high) else low
        widest = abs(edge - float(prior.ppf(0.5))) + float(prior.isf(_TAIL)) - float(prior.ppf(_TAIL)) + 9 * u
    from scipy.optimize import brentq

    return float(brentq(excess, 0.0, widest, xtol=1e-12 * widest))


def measurement_capability(tolerance_width: float, u: float) -> float:
    """Return C_m = T / (4 u), the whole tolerance over four standard uncertainties (JCGM 106:2012, from memory)."""
    return tolerance_width / (4 * u)


def process_capability(mean: float, sd: float, low: float, high: float) -> float:
    """Return C_pk: distance from the mean to the nearest limit over three standard deviations."""
    return min(high - mean, mean - low) / (3 * sd)


def _require_order(what: str, limits: Interval) -> None:
    if not limits[0] <= limits[1]:
        message = f"the lower limit {limits[0]!r} is not below the upper limit {limits[1]!r}"
        raise InputError([Finding(where=what, what=message, mend="Give the lower limit first.")])


def _expect(prior: Prior, chance: Callable[[Array], Array], region: Interval, breaks: list[float]) -> float:
    """Integrate chance(x) x prior density over a region, by Gauss-Legendre between the points where either bends."""
    start = max(region[0], float(prior.ppf(_TAIL)))
    end = min(region[1], float(prior.isf(_TAIL)))
    if start >= end:
        return 0.0
    cuts = np.unique([start, *(b for b in breaks if start < b < end), end])
    half = np.diff(cuts)[:, None] / 2
    x = cuts[:-1, None] + half * (1 + _NODES)
    return float(np.sum(half * _WEIGHTS * prior.pdf(x) * chance(x)))
