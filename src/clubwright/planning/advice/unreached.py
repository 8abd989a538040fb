"""When no set of weights reaches all targets: which target, or which two together, are out of reach, and by how much.

A target is out of reach alone where no set gives it an even chance; two are in conflict where each can be reached and no set
reaches both. Where so little is known that even a club in the middle of its windows would not have an even chance, nothing
is out of reach: a reading is wanted.
"""

from __future__ import annotations

from itertools import combinations

import msgspec
import numpy as np

from clubwright.planning.advice.set_search import bounds, chances, distance
from clubwright.planning.advice.tray import looked_at
from clubwright.planning.advice.weights import REACHED, Choice, choices, moved_goals, steered_goals
from clubwright.planning.club_state import ClubState
from clubwright.planning.goals import Goal

MOST_SETS = 2000
"""Sets of fewest pieces that are looked at."""

WITH_FREQUENCY = 10
"""Sets that are looked at with the frequency: those that rank first."""


class Unreached(msgspec.Struct, frozen=True, kw_only=True):
    """What no set of weights reaches.

    Attributes:
        targets: One target that is out of reach by itself, or two that are in conflict.
        chance: The best chance of those, over all sets.
        best_now: The best chance of all targets together.
        each: The best chance of each of those by itself.
        ends: Where each of them ends, mean and standard uncertainty in SI, with the set that suits the other one best; where
            it is out of reach alone, with the set that brings it closest.
    """

    targets: tuple[str, ...]
    chance: float
    best_now: float
    each: dict[str, float]
    ends: dict[str, tuple[float, float]]


def unreached_of(club_state: ClubState, best: Choice) -> Unreached | None:
    """Return what is out of reach; None where a set reaches all, or too little is known to tell."""
    goals = moved_goals(club_state)
    if not goals or best.chance >= REACHED:
        return None
    steered = steered_goals(goals)
    sets = looked_at(club_state.ticket, closed=club_state.is_closed).sets[:MOST_SETS]
    found = _of(club_state, steered, sets, best)
    if len(steered) < len(goals) and (found is None or found.chance >= REACHED):
        ranked = choices(club_state, most=WITH_FREQUENCY)
        found = _of(club_state, goals, np.array([choice.counts for choice in ranked]), best)
    return found


def _of(
    club_state: ClubState,
    goals: tuple[Goal, ...],
    sets: np.ndarray[tuple[int, int], np.dtype[np.float64]],
    best: Choice,
) -> Unreached | None:
    prediction = club_state.predict([goal.key for goal in goals], fitted=sets)
    spread = prediction.sd()
    least = spread.min(axis=0)
    if any(goal.chance(goal.target, float(sd)) < REACHED for goal, sd in zip(goals, least, strict=True)):
        return None
    alone = bounds(prediction.mean, prediction.covariance, goals)
    each = {goal.key: float(alone[:, column].max()) for column, goal in enumerate(goals)}

    def ends(column: int, by: int) -> tuple[float, float]:
        """Where one target ends with the set that suits another one, or itself, best."""
        off = distance(prediction.mean[:, [by]], (goals[by],))
        place = int(np.lexsort((off, -np.round(alone[:, by], 2)))[0])
        return float(prediction.mean[place, column]), float(spread[place, column])

    lowest = min(each, key=lambda key: each[key])
    if each[lowest] < REACHED or len(goals) == 1:
        column = [goal.key for goal in goals].index(lowest)
        return Unreached(
            targets=(lowest,),
            chance=each[lowest],
            best_now=best.chance,
            each={lowest: each[lowest]},
            ends={lowest: ends(column, column)},
        )
    pairs = {
        (one, other): float(chances(prediction, (goals[one], goals[other])).max())
        for one, other in combinations(range(len(goals)), 2)
    }
    one, other = min(pairs, key=lambda pair: pairs[pair])
    keys = (goals[one].key, goals[other].key)
    return Unreached(
        targets=keys,
        chance=pairs[one, other],
        best_now=best.chance,
        each={key: each[key] for key in keys},
        ends={keys[0]: ends(one, other), keys[1]: ends(other, one)},
    )
