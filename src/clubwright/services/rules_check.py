"""The Equipment Rules beside what is ordered and what is believed: told only where a build comes near a limit.

Lengths are those the rule measures: against the 60 degree plane, for a putter along the axis. Nothing here is a ruling.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

import msgspec

from clubwright.belief.prediction import predict
from clubwright.club.length import axis_length_m, plane_length_m
from clubwright.club.stages import FINISHED
from clubwright.conformity.equipment_limits import LIMITS, Limit
from clubwright.conformity.equipment_rules import WORDS, LimitCheck, check_club, in_its_unit
from clubwright.conformity.rules import DecisionRule
from clubwright.errors import Finding
from clubwright.planning.situation import Situation
from clubwright.units import INCH_EXACT_M

PLANE, AXIS = "60 degree plane", "axis to ground"
GRIP_PLACES = ("grip_diameter_2in", "grip_diameter_6in")

TOLERANCE_KEPT = DecisionRule(
    name="tolerance kept",
    guard_factor=1.0,
    meaning="the target must clear the limit by its own tolerance",
    source="ours: a build that meets its order must not break a limit",
    standing="estimate of ours",
)


class Figure(msgspec.Struct, frozen=True, kw_only=True):
    """One figure that a limit may speak about, in SI: an order with its tolerance, or a belief with its uncertainty.

    Attributes:
        where: Its place, for the finding.
        quantity: What the limits call it.
        value: The figure.
        spread: Half-width of the tolerance, or standard uncertainty.
        ordered: It is an order.
        method: How a length is measured, else empty.
    """

    where: str
    quantity: str
    value: float
    spread: float
    ordered: bool
    method: str = ""


def rule_findings(situation: Situation) -> tuple[Finding, ...]:
    """Return a warning for each figure beyond a limit, and a note for each too near to tell; nothing for the rest."""
    own = local_limits(situation)
    found = []
    for figure in (*_ordered(situation), *_standing(situation)):
        checked = check_club(
            situation.ticket.kind,
            {figure.quantity: (figure.value, figure.spread)},
            rule=TOLERANCE_KEPT if figure.ordered else situation.ticket.rule,
            decided_by="builder",
            own_limits=own,
        )
        found += [_finding(figure, check) for check in checked.checks if not check.passes]
    return tuple(found)


def local_limits(situation: Situation) -> tuple[Limit, ...]:
    """Return the limit of length that the shop's events have adopted, if the ticket names one."""
    entry = situation.ticket.shop.local_length_limit
    if entry is None:
        return ()
    adopted = next(limit for limit in LIMITS if limit.key == "length-max-local")
    value = Fraction(entry.value / float(INCH_EXACT_M)).limit_denominator(1024)
    clause = adopted.clause if value == adopted.value else f"{entry.typed} by [shop] local_length_limit"
    return (msgspec.structs.replace(adopted, value=value, clause=clause, local_rule=None),)


def _finding(figure: Figure, check: LimitCheck) -> Finding:
    """Say one limit that is not shown to be kept."""
    limit, found = check.limit, check.verdict
    size = in_its_unit(limit)
    beyond = found.margin < 0
    words = WORDS[found.verdict]
    if figure.ordered:
        words = "beyond the limit as ordered" if beyond else "the tolerance ordered reaches beyond the limit"
    mend = "Settle it with the player before the club is made or handed over; only the governing bodies rule on a club."
    if not beyond:
        mend = "Leave more room, or measure it by the rule's own method; only the governing bodies rule on a club."
    name = f"length by the {figure.method}" if figure.method else limit.name
    what = f"{name} {size(found.measured)} ± {size(found.u)}, {limit.text()}: {words}, never a ruling"
    return Finding(where=figure.where, what=what, mend=mend, severity="warning" if beyond else "note")


def _ordered(situation: Situation) -> Iterable[Figure]:
    """What the ticket orders, each with its half-width."""
    head, lie = situation.club.head, situation.goal("lie")
    for goal in situation.goals:
        value, wanted = goal.target, ""
        if goal.key == "length":
            method, wanted = situation.prior.conventions.length_method, _rule_method(situation)
            lie_rad = float(head.lie_rad) if lie is None else lie.target
            if method != wanted:
                convert = plane_length_m if wanted == PLANE else axis_length_m
                value = float(convert(value, lie_rad, head.sole_camber_m, head.sole_contact_m))
        elif goal.key not in ("loft", "lie", *GRIP_PLACES):
            continue
        where = f"{situation.ticket.order.targets.where} {goal.key}"
        quantity = _SPOKEN[goal.key]
        yield Figure(where=where, quantity=quantity, value=value, spread=goal.half_width, ordered=True, method=wanted)


_SPOKEN = {"length": "rule_length_m", "loft": "loft_rad", "lie": "lie_rad"} | dict.fromkeys(
    GRIP_PLACES, "grip_section_m"
)
"""What the limits call a quantity of ours."""


def _rule_method(situation: Situation) -> str:
    return AXIS if situation.ticket.kind == "putter" else PLANE


def _standing(situation: Situation) -> Iterable[Figure]:
    """What is believed of the parts and the finished club, as far as somebody measured it."""
    ticket, belief = situation.ticket, situation.belief
    read = {item.reading.quantity for item in situation.present if item.taken}
    row = ticket.club.head
    for key in ("loft", "lie"):
        if row.entry(key) is not None or key in read:
            name = f"head.{key}_rad"
            yield _believed(f"{row.where} {key}", key, belief.mean_of(name), belief.sd_of(name))
    if ticket.club.grip.length is not None:
        where = f"{ticket.club.grip.where} length"
        mean, sd = belief.mean_of("grip.length_m"), belief.sd_of("grip.length_m")
        yield Figure(where=where, quantity="grip_length_m", value=mean, spread=sd, ordered=False)
    for key in GRIP_PLACES:
        if situation.can_predict(key):
            yield _predicted(situation, key)
    if ticket.club.shaft.cut_length is not None or "length" in read:
        yield _predicted(situation, "length")


def _predicted(situation: Situation, key: str) -> Figure:
    """The finished club, its length by the rule's own method."""
    method = _rule_method(situation)
    conventions = msgspec.structs.replace(situation.prior.conventions, length_method=method)
    found = predict(situation.belief, situation.prior.club, conventions, (key,), FINISHED, situation.fitted_now)
    where = f"{situation.ticket.source} the club as it stands, {key}"
    told = method if key == "length" else ""
    return _believed(where, key, float(found.mean[0, 0]), float(found.sd()[0, 0]), told)


def _believed(where: str, key: str, mean: float, sd: float, method: str = "") -> Figure:
    return Figure(where=where, quantity=_SPOKEN[key], value=mean, spread=sd, ordered=False, method=method)
