"""A tip trim as advice: when more off the tip, or less while none is off, brings the frequency much nearer to the order."""

from __future__ import annotations

from clubwright.errors import NotPossible
from clubwright.planning.advice.trim_planner import TrimPlan, trim_plan_of
from clubwright.planning.club_state import ClubState
from clubwright.planning.said.actions import Action, Trim
from clubwright.state.particulars import in_si

WORTH = 0.10
"""Least gain of the frequency's chance for which what cannot be taken back is advised (estimate of ours)."""


def trim_advice(club_state: ClubState) -> Action | None:
    """Return the trim as one action; None when none helps, or none can be planned."""
    if club_state.goal("frequency") is None or in_si(club_state.ticket.club.shaft.tip_trim_limit) is None:
        return None
    try:
        plan = trim_plan_of(club_state)
    except NotPossible:
        return None
    if not worth_it(plan):
        return None
    option = plan.chosen
    data = Trim(tip_trim_m=option.tip_trim_m, more=plan.best > plan.own, weights=option.weights)
    return Action(kind="trim", data=data, chance=option.chance, finished=option.finished, irreversible=True)


def worth_it(plan: TrimPlan) -> bool:
    """Say whether the best trim helps the frequency enough to be advised."""
    now, then = plan.as_ticket.of_frequency, plan.chosen.of_frequency
    return plan.best != plan.own and now is not None and then is not None and then - now >= WORTH
