"""When no set of weights reaches the targets: which head mass would.

The head mass that brings the mass targets closest (least squares in half-widths) is found along its own derivative; the
chance is that of all targets that weights move, in the same belief with a head of that mass, weighed as this one was. A
head that is lighter or heavier than heads of its kind are is not looked for.
"""

from __future__ import annotations

import numpy as np

from clubwright.belief.probability import box_probability
from clubwright.planning.advice.tray import looked_at
from clubwright.planning.advice.weights import REACHED, Choice, moved_goals, steered_goals
from clubwright.planning.club_state import ClubState
from clubwright.planning.said.actions import Action, Head
from clubwright.ticket.plausible.ranges import BY_KIND

LEAST_CHANGE_KG = 0.5e-3
"""A head nearer in mass than this is the same head."""


def another_head(club_state: ClubState, best: Choice) -> Action | None:
    """Return the head mass that would reach the targets with no loose weight, when the tray cannot; else None."""
    goals = moved_goals(club_state)
    if not goals or best.chance >= REACHED or "head.mass_kg" not in club_state.belief.names:
        return None
    if club_state.ticket.job not in ("build", "reshaft"):
        return None
    bare = looked_at(club_state.ticket, closed=club_state.is_closed).sets[:1]  # none, or what a port has to hold
    prediction = club_state.predict([goal.key for goal in goals], fitted=bare)
    place = club_state.belief.index("head.mass_kg")
    width = np.array([max(goal.half_width, 1e-12) for goal in goals])
    low, high = np.array([goal.low for goal in goals]), np.array([goal.high for goal in goals])
    steered = [goal in steered_goals(goals) for goal in goals]
    off = ((np.array([goal.target for goal in goals]) - prediction.mean[0]) / width)[steered]
    along = (prediction.slope[0, :, place] / width)[steered]
    change = float(along @ off / (along @ along))
    mean = prediction.mean + prediction.slope[:, :, place] * change
    chance = float(box_probability(mean, prediction.covariance, low, high)[0])
    wanted = club_state.belief.mean_of("head.mass_kg") + change
    bounds = BY_KIND["mass"][club_state.ticket.kind]
    if chance <= best.chance + 0.05 or abs(change) < LEAST_CHANGE_KG or not bounds.low <= wanted <= bounds.high:
        return None
    spread = prediction.sd()[0]
    finished = {goal.key: (float(mean[0, column]), float(spread[column])) for column, goal in enumerate(goals)}
    data = Head(mass_kg=float(wanted), change_kg=change, best_now=best.chance)
    return Action(kind="head", data=data, chance=chance, finished=finished)
