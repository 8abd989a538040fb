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
from clubwright.errors import Finding, Where
from clubwright.planning.club_state import ClubState
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

    where: Where
    quantity: str
    value: float
    spread: float
    ordered: bool
    method: str = ""


def rule_findings(club_state: ClubState) -> tuple[Finding, ...]:
    """Return a warning for each figure beyond a limit, and a note for each too near to tell; nothing for the rest."""
    own = local_limits(club_state)
    found = []
    for figure in (*_ordered(club_state), *_standing(club_state)):
        checked = check_club(
            club_state.ticket.kind,
            {figure.quantity: (figure.value, figure.spread)},
            rule=TOLERANCE_KEPT if figure.ordered else club_state.ticket.rule,
            decided_by="builder",
            own_limits=own,
        )
        found += [_finding(figure, check) for check in checked.checks if not check.passes]
    return tuple(found)


def local_limits(club_state: ClubState) -> tuple[Limit, ...]:
    """Return the limit of length that the shop's events have adopted, if the ticket names one."""
    entry = club_state.ticket.shop.local_length_limit
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


def _ordered(club_state: ClubState) -> Iterable[Figure]:
    """What the ticket orders, each with its half-width."""
    head, lie = club_state.club.head, club_state.goal("lie")
    for goal in club_state.goals:
        value, wanted = goal.target, ""
        if goal.key == "length":
            method, wanted = club_state.prior.conventions.length_method, _rule_method(club_state)
            lie_rad = float(head.lie_rad) if lie is None else lie.target
            if method != wanted:
                convert = plane_length_m if wanted == PLANE else axis_length_m
                value = float(convert(value, lie_rad, head.sole_camber_m, head.sole_contact_m))
        elif goal.key not in ("loft", "lie", *GRIP_PLACES):
            continue
        where = club_state.ticket.order.targets.where.at(goal.key)
        quantity = _SPOKEN[goal.key]
        yield Figure(where=where, quantity=quantity, value=value, spread=goal.half_width, ordered=True, method=wanted)


_SPOKEN = {"length": "rule_length_m", "loft": "loft_rad", "lie": "lie_rad"} | dict.fromkeys(
    GRIP_PLACES, "grip_section_m"
)
"""What the limits call a quantity of ours."""


def _rule_method(club_state: ClubState) -> str:
    return AXIS if club_state.ticket.kind == "putter" else PLANE


def _standing(club_state: ClubState) -> Iterable[Figure]:
    """What is believed of the parts and the finished club, as far as somebody measured it."""
    ticket, belief = club_state.ticket, club_state.belief
    read = {item.reading.quantity for item in club_state.present if item.taken}
    row = ticket.club.head
    for key in ("loft", "lie"):
        if row.entry(key) is not None or key in read:
            name = f"head.{key}_rad"
            yield _believed(row.where.at(key), key, belief.mean_of(name), belief.sd_of(name))
    if ticket.club.grip.length is not None:
        where = ticket.club.grip.where.at("length")
        mean, sd = belief.mean_of("grip.length_m"), belief.sd_of("grip.length_m")
        yield Figure(where=where, quantity="grip_length_m", value=mean, spread=sd, ordered=False)
    for key in GRIP_PLACES:
        if club_state.can_predict(key):
            yield _predicted(club_state, key)
    if ticket.club.shaft.cut_length is not None or "length" in read:
        yield _predicted(club_state, "length")


def _predicted(club_state: ClubState, key: str) -> Figure:
    """The finished club, its length by the rule's own method."""
    method = _rule_method(club_state)
    conventions = msgspec.structs.replace(club_state.prior.conventions, length_method=method)
    found = predict(club_state.belief, club_state.prior.club, conventions, (key,), FINISHED, club_state.fitted_now)
    where = f"{club_state.ticket.source} the club as it stands, {key}"
    told = method if key == "length" else ""
    return _believed(where, key, float(found.mean[0, 0]), float(found.sd()[0, 0]), told)


def _believed(where: Where, key: str, mean: float, sd: float, method: str = "") -> Figure:
    return Figure(where=where, quantity=_SPOKEN[key], value=mean, spread=sd, ordered=False, method=method)
