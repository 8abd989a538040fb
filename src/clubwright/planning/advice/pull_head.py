"""When a closed joint keeps what would reach the targets: pull the head, with what is to do again and how long it takes.

A weight in the tip, under the shaft, is behind the joint. Which weights there were with the head off is worked by the same
belief; what is to do again is what the register of steps says of a head that was pulled.
"""

from __future__ import annotations

from clubwright.notation import parse
from clubwright.planning.advice.tray import names_of
from clubwright.planning.advice.weights import Choice, choices
from clubwright.planning.club_state import ClubState
from clubwright.planning.said.actions import Action, Pull
from clubwright.state.steps import STEPS

WORTH = 0.10
"""Least gain of chance for which a head is pulled: a joint is heated only for something (estimate of ours)."""

PULLED = "head pulled"


def pull_head(club_state: ClubState, best: Choice) -> Action | None:
    """Return the pull of the head as one action; None where the joint is open, or where it would bring little."""
    if not club_state.is_closed or not any(row.seat == "tip" for row in club_state.ticket.weights):
        return None
    free, *_ = choices(club_state, pulled=True)
    if not free.changed or free.chance - best.chance < WORTH:
        return None
    ticket = club_state.ticket
    again = [step for step in STEPS.values() if step.key == "pull head" or PULLED in step.anew_by]
    data = Pull(
        weights=tuple(names_of(ticket, free.counts)),
        best_now=best.chance,
        hands_on_s=sum(parse("duration", step.minutes).value for step in again if not step.waits),
        steps=tuple(step.key for step in again),
        shaft_material=ticket.material or None,
        head_metal=ticket.club.head.metal,
    )
    finished = {key: (float(mean), float(sd)) for key, mean, sd in zip(free.keys, free.mean, free.sd, strict=True)}
    return Action(kind="pull", data=data, chance=free.chance, finished=finished)
