"""Check a club's readings against the Equipment Rules, with the uncertainty of each reading.

The answer speaks of the measurement, never of the club's status: only the governing bodies rule. What an open answer
means depends on who decides. A builder must show that the limit is kept; an official must show that it is broken.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Literal

import msgspec

from clubwright.club.parts import KINDS
from clubwright.conformity.decision import lower_limit, upper_limit
from clubwright.conformity.equipment_limits import LIMITS, Limit, limits_for, off_vertical_from_lie_rad
from clubwright.conformity.outcome import Verdict
from clubwright.conformity.rules import DecisionRule, decision_rule
from clubwright.errors import Finding, InputError

Decider = Literal["builder", "official"]

WORDS = {
    "within": "within the limit by this measurement",
    "outside": "outside the limit by this measurement",
    "cannot tell": "this measurement cannot tell",
}
NOTICE = "A measurement at a bench is not a ruling: only the governing bodies rule on a club."
LOCAL_RULES = frozenset(limit.local_rule for limit in LIMITS if limit.local_rule is not None)
QUANTITIES = frozenset(limit.quantity for limit in LIMITS) | {"lie_rad"}


class LimitCheck(msgspec.Struct, frozen=True, kw_only=True):
    """One limit beside one reading.

    Attributes:
        limit: The limit.
        verdict: What the reading proves; numbers in SI.
        decided_by: Who decides.
        passes: For a builder, that the limit is shown to be kept; for an official, that it is not shown to be broken.
    """

    limit: Limit
    verdict: Verdict
    decided_by: Decider
    passes: bool

    def sentence(self) -> str:
        """Say the answer, the limit and what an open answer means here."""
        text = f"{self.limit.name}: {WORDS[self.verdict.verdict]}, {self.limit.text()}"
        if self.verdict.verdict != "cannot tell":
            return text + "."
        if self.decided_by == "builder":
            return f"{text}. Do not hand it over on this reading. {self.verdict.settle}"
        return f"{text}. It is not shown to be broken. {self.verdict.settle}"


class ClubCheck(msgspec.Struct, frozen=True, kw_only=True):
    """All limits that bind a club: those checked, and those nobody measured."""

    checks: tuple[LimitCheck, ...]
    not_measured: tuple[Limit, ...]
    notice: str = NOTICE


def check_limit(
    limit: Limit, measured_si: float, u_si: float, *, rule: str | DecisionRule, decided_by: Decider
) -> LimitCheck:
    """Check one reading against one limit.

    Args:
        limit: The limit.
        measured_si: The reading, in metres or radians.
        u_si: Its standard uncertainty, same unit, at least 0.
        rule: Decision rule.
        decided_by: Who decides, ``builder`` or ``official``.

    Raises:
        InputError: A number cannot be used, or the rule or decider is not known.
    """
    if decided_by not in ("builder", "official"):
        mend = 'Say "builder" or "official".'
        raise InputError([Finding(where="decided by", what=f"{decided_by!r} is not known", mend=mend)])
    side = upper_limit if limit.sense == "at most" else lower_limit
    found = side(measured_si, limit.value_si, u_si, rule, in_its_unit(limit))
    answer = found.verdict
    passes = answer == "within" if decided_by == "builder" else answer != "outside"
    return LimitCheck(limit=limit, verdict=found, decided_by=decided_by, passes=passes)


def check_club(
    kind: str,
    readings: Mapping[str, tuple[float, float]],
    *,
    rule: str | DecisionRule,
    decided_by: Decider,
    local_rules: frozenset[str] = frozenset(),
    own_limits: tuple[Limit, ...] = (),
) -> ClubCheck:
    """Check every reading of a club that a limit speaks about.

    Args:
        kind: One of `clubwright.club.parts.KINDS`.
        readings: Reading and standard uncertainty, in SI, by quantity; ``lie_rad`` stands for the shaft's angle from
            vertical. A length must be the one by the 60 degree plane (``rule_length_m``), for a putter along the axis.
        rule: Decision rule.
        decided_by: Who decides.
        local_rules: Local rules in force.
        own_limits: Limits that the shop adds; those of another kind of club are passed over.

    Raises:
        InputError: With every kind, quantity, local rule and number that cannot be used.
    """
    findings = _refusals(kind, readings, local_rules)
    decision_rule(rule)
    known = dict(readings)
    if "lie_rad" in known and "off_vertical_toe_heel_rad" not in known:
        lie_rad, u_rad = known["lie_rad"]
        known["off_vertical_toe_heel_rad"] = (off_vertical_from_lie_rad(lie_rad), u_rad)
    if findings:
        raise InputError(findings)
    binding = (*limits_for(kind, local_rules), *(limit for limit in own_limits if kind in limit.scope))
    return ClubCheck(
        checks=tuple(
            check_limit(limit, *known[limit.quantity], rule=rule, decided_by=decided_by)
            for limit in binding
            if limit.quantity in known
        ),
        not_measured=tuple(limit for limit in binding if limit.quantity not in known),
    )


def _refusals(kind: str, readings: Mapping[str, tuple[float, float]], local_rules: frozenset[str]) -> list[Finding]:
    """Everything in the input that cannot be used."""
    findings = []
    if kind not in KINDS:
        mend = f"Use one of {', '.join(KINDS)}."
        findings.append(Finding(where="kind of club", what=f"{kind!r} is not known", mend=mend))
    for name in sorted(local_rules - LOCAL_RULES):
        mend = f"Known are {', '.join(sorted(LOCAL_RULES))}."
        findings.append(Finding(where="local rule", what=f"{name!r} is not known", mend=mend))
    for quantity, (value, u) in readings.items():
        if quantity not in QUANTITIES:
            mend = f"Use one of {', '.join(sorted(QUANTITIES))}."
            findings.append(Finding(where=quantity, what="no limit speaks of it", mend=mend))
        if not (math.isfinite(value) and math.isfinite(u) and u >= 0):
            what = f"{value!r} with standard uncertainty {u!r} cannot be used"
            findings.append(Finding(where=quantity, what=what, mend="Take the reading again, or leave it out."))
    return findings


def in_its_unit(limit: Limit) -> Callable[[float], str]:
    """Return what writes an SI number in the limit's own unit."""
    unit_si = abs(limit.value_si / float(limit.value))
    return lambda value: f"{value / unit_si:.5g} {limit.unit}"
