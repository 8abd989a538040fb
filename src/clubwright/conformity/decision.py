"""The verdict: whether a reading proves a limit, with three possible answers.

A reading is within when it stays inside the limit by the guard band, outside when it is beyond the limit by the guard
band, and otherwise it cannot tell. Derivation: docs/theory/conformity.md; checked in tests/published/
test_published_jcgm106.py and tests/property/test_property_verdict.py.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import msgspec

from clubwright.conformity.outcome import ROUNDING, Outcome, Verdict, plain
from clubwright.conformity.rules import DecisionRule, decision_rule, require_numbers
from clubwright.conformity.settling import settle, settle_text

__all__ = ["Outcome", "Verdict", "lower_limit", "plain", "upper_limit", "verdict"]


def verdict(
    measured: float,
    target: float,
    half_width: float,
    u: float,
    rule: str | DecisionRule,
    render: Callable[[float], str] = plain,
) -> Verdict:
    """Decide whether a reading proves ``target +- half_width``.

    Args:
        measured: The reading, or the belief's mean.
        target: Middle of the tolerance, same unit.
        half_width: Half the tolerance, at least 0.
        u: Standard uncertainty of the reading, at least 0.
        rule: Name of a rule, or a rule.
        render: Writes a number of that unit in the sentences.

    Raises:
        InputError: A number is not finite or a size is negative, or the rule is not known.
    """
    require_numbers(
        any_sign={"reading": measured, "target": target},
        at_least_zero={"half-width of the tolerance": half_width, "standard uncertainty": u},
    )
    # From the distance, not from target +- half_width: so a reading and its mirror image get the same answer.
    margin = half_width - abs(measured - target)
    limits = (target - half_width, target + half_width)
    return _decide(measured, limits, margin, u, decision_rule(rule), render)


def upper_limit(
    measured: float, limit: float, u: float, rule: str | DecisionRule, render: Callable[[float], str] = plain
) -> Verdict:
    """Decide whether a reading proves "at most `limit`"; arguments and errors as in `verdict`."""
    require_numbers(any_sign={"reading": measured, "limit": limit}, at_least_zero={"standard uncertainty": u})
    return _decide(measured, (-math.inf, limit), limit - measured, u, decision_rule(rule), render)


def lower_limit(
    measured: float, limit: float, u: float, rule: str | DecisionRule, render: Callable[[float], str] = plain
) -> Verdict:
    """Decide whether a reading proves "at least `limit`"; arguments and errors as in `verdict`."""
    require_numbers(any_sign={"reading": measured, "limit": limit}, at_least_zero={"standard uncertainty": u})
    return _decide(measured, (limit, math.inf), measured - limit, u, decision_rule(rule), render)


def _decide(
    measured: float,
    limits: tuple[float, float],
    margin: float,
    u: float,
    rule: DecisionRule,
    render: Callable[[float], str],
) -> Verdict:
    """Compare the margin with the guard band; a margin equal to it proves, on either side."""
    guard = rule.guard_factor * u
    rounding = ROUNDING * max(abs(measured), *(abs(limit) for limit in limits if math.isfinite(limit)))
    answer: Outcome = "cannot tell"
    if margin >= guard - rounding:
        answer = "within"
    elif margin <= rounding - guard:
        answer = "outside"
    found = Verdict(
        verdict=answer,
        named=f'Rule "{rule.name}": {rule.meaning}.',
        figures=_figures(measured, limits, u, guard, render),
        settle="",
        margin=margin,
        guard=guard,
        u=u,
        measured=measured,
        low=limits[0],
        high=limits[1],
        guard_factor=rule.guard_factor,
    )
    return msgspec.structs.replace(found, settle=settle_text(settle(found), render))


def _figures(
    measured: float,
    limits: tuple[float, float],
    u: float,
    guard: float,
    render: Callable[[float], str],
) -> str:
    """Name the reading, the limits and the guard band."""
    low, high = limits
    if math.isinf(low):
        bounds = f"at most {render(high)}"
    elif math.isinf(high):
        bounds = f"at least {render(low)}"
    else:
        bounds = f"from {render(low)} to {render(high)}"
    return (
        f"Reading {render(measured)}, standard uncertainty {render(u)}, guard band {render(guard)}; allowed {bounds}."
    )
