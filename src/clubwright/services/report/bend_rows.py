"""The bends of a head as before and after, angle by angle."""

from __future__ import annotations

import msgspec

from clubwright.club.quantities import ANGLES
from clubwright.notation import render, units_shown
from clubwright.planning.bending.advice import bend_plan_of
from clubwright.planning.club_state import ClubState
from clubwright.words.say import say


class BendRow(msgspec.Struct, frozen=True, kw_only=True):
    """One angle of the head.

    Attributes:
        angle: ``loft``, ``lie`` or ``bounce``.
        now: As believed now.
        after: As it will be after the bends of the plan.
        words: How much and which way, with the signed figure; empty when it is not bent.
        push: Which way the grip end goes.
    """

    angle: str
    now: str
    after: str
    words: str
    push: str


def bend_rows(club_state: ClubState) -> tuple[BendRow, ...]:
    """Return the angles with what the plan does to them; nothing while no bend is planned.

    A bounce that a loft bend takes along has other figures before and after, and no bend of its own.
    """
    plan = bend_plan_of(club_state)
    if plan is None:
        return ()
    bends = {bend.angle: bend for bend in plan.bends}
    after = {"loft": plan.result.loft_rad, "lie": plan.result.lie_rad, "bounce": plan.result.bounce_rad}
    rows = []
    for angle in ANGLES:
        result = after[angle]
        if result is None:
            continue
        bend = next((bend for name, bend in bends.items() if name == angle), None)
        rows.append(
            BendRow(
                angle=angle,
                now=render("angle", club_state.belief.mean_of(f"head.{angle}_rad")),
                after=render("angle", result),
                words="" if bend is None else say(bend.amount, units_shown()),
                push="" if bend is None else say(bend.push, units_shown()),
            )
        )
    return tuple(rows)
