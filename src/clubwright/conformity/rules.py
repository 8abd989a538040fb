"""The named decision rules: how far from a limit a reading must stay before it proves anything.

A guard band is ``w = factor x u``: the standard uncertainty of the reading, times a factor that the rule names. The factor
bounds the chance that a club whose reading lies just on the acceptance limit is in truth outside
(docs/theory/conformity.md).
"""

from __future__ import annotations

import math

import msgspec

from clubwright.belief.normal import quantile
from clubwright.errors import Finding, InputError


class DecisionRule(msgspec.Struct, frozen=True, kw_only=True):
    """A rule agreed before the reading is taken.

    Attributes:
        name: As written in a ticket.
        guard_factor: Guard band over standard uncertainty, ``w / u``; at least 0.
        meaning: One clause for the person who reads the verdict.
        source: Where the rule comes from.
        standing: How well we know that source.
    """

    name: str
    guard_factor: float
    meaning: str
    source: str
    standing: str


GUARD_2U = DecisionRule(
    name="guard 2u",
    guard_factor=2.0,
    meaning="the reading must clear the limit by twice its standard uncertainty",
    source="ILAC-G8:09/2019, binary statement with guard band w = U (k = 2)",
    standing="seen",
)
GUARD_95 = DecisionRule(
    name="guard 95 %",
    guard_factor=quantile(0.95),
    meaning="the reading must clear the limit by 1.645 times its standard uncertainty, for a chance of 95 %",
    source="ISO 14253-1:2017, default rule",
    standing="memory",
)
SIMPLE = DecisionRule(
    name="simple",
    guard_factor=0.0,
    meaning="the reading is taken as if it were the true value, which is a coin toss at the limit",
    source="ILAC-G8:09/2019, binary statement for simple acceptance (w = 0)",
    standing="seen",
)

RULES: dict[str, DecisionRule] = {rule.name: rule for rule in (GUARD_2U, GUARD_95, SIMPLE)}
"""Every rule a ticket may name. There is none that widens the tolerance by the uncertainty."""


def decision_rule(rule: str | DecisionRule) -> DecisionRule:
    """Return the rule of that name, or the rule itself.

    Raises:
        InputError: The name is none of `RULES`.
    """
    if isinstance(rule, DecisionRule):
        return rule
    if rule not in RULES:
        names = ", ".join(f'"{name}"' for name in RULES)
        raise InputError([Finding(where="decision rule", what=f"{rule!r} is not known", mend=f"Use one of {names}.")])
    return RULES[rule]


def require_numbers(*, at_least_zero: dict[str, float], any_sign: dict[str, float]) -> None:
    """Refuse numbers that are not finite, and negative ones where a size is meant, all at once.

    Raises:
        InputError: With one finding for each number that cannot be used.
    """
    findings = [
        Finding(where=where, what=f"{value!r} is not a finite number", mend="Take the reading again, or leave it out.")
        for where, value in (at_least_zero | any_sign).items()
        if not math.isfinite(value)
    ]
    findings += [
        Finding(where=where, what=f"{value!r} is negative", mend="Give its size, zero or more.")
        for where, value in at_least_zero.items()
        if value < 0
    ]
    if findings:
        raise InputError(findings)
