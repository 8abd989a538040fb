"""A set built to a slope: so many cpm for each half inch through one club, as target and tip trim of every club."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import msgspec

from clubwright.errors import Finding, InputError
from clubwright.notation import parse_difference, render
from clubwright.planning.advice.trim_planner import TrimOption
from clubwright.services.answer.club_answer import work_document
from clubwright.services.shaft.vibration import set_of, trims_of
from clubwright.state.particulars import in_si
from clubwright.ticket.again import with_typed
from clubwright.units import INCH_M

HALF_INCH_M = INCH_M / 2


class SlopedClub(msgspec.Struct, frozen=True, kw_only=True):
    """One club of the set.

    Attributes:
        name: Its name.
        length_m: Its length.
        target_hz: What the slope asks of it.
        trim: The best tip trim for that; None where none can be planned.
        why_not: Why none can be planned.
    """

    name: str
    length_m: float
    target_hz: float
    trim: TrimOption | None
    why_not: str = ""


def slope_plan(tickets: Sequence[tuple[str, Mapping[str, Any]]], step: str, through: str) -> tuple[SlopedClub, ...]:
    """Return target and trim of each club of a set.

    Args:
        tickets: Name of the file and document of each club.
        step: What the frequency climbs by for each half inch shorter, such as ``4.5 cpm``.
        through: File of the club that keeps its frequency: the one ordered, else the one it is believed to have.

    Raises:
        InputError: with every finding: of a ticket, of the step, or when that club is not of the set.
    """
    climb_hz = parse_difference("frequency", step, where="--step").value
    names = [name for name, _ in tickets]
    if through not in names:
        mend = f"Name one of {', '.join(names)}."
        raise InputError([Finding(where="--through", what=f'"{through}" is not among the clubs', mend=mend)])
    clubs, _ = set_of(tickets)
    place = names.index(through)
    order = work_document(tickets[place][1], through).club_state.ticket.order
    fixed_hz = in_si(order.targets.figures.get("frequency"))
    fixed_hz = clubs[place].frequency_hz if fixed_hz is None else fixed_hz
    found = []
    for club, (name, document) in zip(clubs, tickets, strict=True):
        target_hz = fixed_hz + climb_hz * (clubs[place].length_m - club.length_m) / HALF_INCH_M
        wanted = with_typed(document, {"target.frequency": render("frequency", target_hz)})
        trim, why_not = None, ""
        try:
            trim = trims_of(wanted, name).chosen
        except InputError as refused:
            why_not = refused.findings[0].sentence()
        found.append(
            SlopedClub(name=club.name, length_m=club.length_m, target_hz=target_hz, trim=trim, why_not=why_not)
        )
    return tuple(found)


def slope_plan_part(clubs: Sequence[SlopedClub]) -> list[dict[str, Any]]:
    """Return the plan for programs: SI, with the trade's text of each target."""
    return [
        {
            "chance": None if club.trim is None else club.trim.chance,
            "length_m": club.length_m,
            "name": club.name,
            "target_hz": club.target_hz,
            "target_text": render("frequency", club.target_hz),
            "tip_trim_m": None if club.trim is None else club.trim.tip_trim_m,
            "why_not": club.why_not or None,
        }
        for club in clubs
    ]
