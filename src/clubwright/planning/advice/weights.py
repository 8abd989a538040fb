"""Choose the weight: every set the tray offers, ranked by the chance that all targets it moves end within tolerance.

The chance is that of the joint belief of those targets lying inside their windows, adhesive, tape and grip still to come
included. Ties go to the chance of the targets that weights are for, then to what lies closer to the middle of their
windows, then to fewer pieces. A weight moves the frequency too, but little: a frequency that no set reaches shall not draw
the others away from the swing weight. Derivation: docs/theory/advice.md; calibration: benchmarks/virtual_bench.py.
"""

from __future__ import annotations

import msgspec
import numpy as np
from numpy.typing import NDArray

from clubwright.belief.prediction import Prediction
from clubwright.club.quantities import QUANTITIES
from clubwright.planning.advice.set_search import Worked, at_most, best_sets, chances, distance, heaviest_of_use
from clubwright.planning.advice.tray import looked_at
from clubwright.planning.club_state import ClubState
from clubwright.planning.goals import Goal

REACHED = 0.5
"""Chance below which the targets are not reached: other levers are looked for then (estimate of ours)."""

FREQUENCY_SETS = 10
"""Sets worked with the frequency at once."""

MOST_FREQUENCIES = 40
"""Sets worked with the frequency at most; what others can reach is told then."""


class Choice(msgspec.Struct, frozen=True, kw_only=True):
    """One set of weights and what it would do.

    Attributes:
        counts: How many of each weight of the tray, shape (w).
        chance: Chance that all targets it moves end within tolerance; 1 when there is none.
        steered: The same of those targets that weights are for (`steered_goals`).
        miss: Root of the mean square distance from those, in half-widths.
        keys: The targets it moves.
        mean, sd: What the finished club would read for them, in SI.
        changed: Whether it differs from what is fitted now.
        looked: Up to how many pieces sets were looked at, where larger ones might be better; else 0.
        left_out: Where sets that were not looked at might be better, what none of them can exceed; else 0.
    """

    counts: NDArray[np.float64]
    chance: float
    steered: float
    miss: float
    keys: tuple[str, ...]
    mean: NDArray[np.float64]
    sd: NDArray[np.float64]
    changed: bool
    looked: int = 0
    left_out: float = 0.0


def moved_goals(club_state: ClubState) -> tuple[Goal, ...]:
    """Return the targets that a loose weight moves.

    Those of mass, the frequency, and the length when a weight lifts a cut shaft.
    """
    lifts = club_state.ticket.is_cut and any(row.lifts_shaft is not None for row in club_state.ticket.weights)
    return tuple(
        goal
        for goal in club_state.goals
        if club_state.can_predict(goal.key)
        and (QUANTITIES[goal.key].weights_move_it or (goal.key == "length" and lifts))
    )


def steered_goals(goals: tuple[Goal, ...]) -> tuple[Goal, ...]:
    """Return those of the moved targets that weights are for: all but the frequency, unless it stands alone."""
    return tuple(goal for goal in goals if not QUANTITIES[goal.key].moved_by_weights) or goals


def choices(club_state: ClubState, *, most: int = 6, pulled: bool = False) -> list[Choice]:
    """Rank the sets of weights that the tray offers, best first; the set fitted now is always among the answers.

    It is not where it leaves a port empty that has to be filled. A closed joint keeps what sits in the tip, unless it is
    asked what there were with the head `pulled`. Sets that do the same are one.
    """
    goals = moved_goals(club_state)
    if not goals:
        return [_choice(sets_row, None, 0, (), club_state.fitted_now[0]) for sets_row in club_state.fitted_now]
    steered, closed = steered_goals(goals), club_state.is_closed and not pulled
    in_tip = np.array([row.seat == "tip" for row in club_state.ticket.weights], dtype=bool)
    bare = np.where(in_tip & closed, club_state.fitted_now[0], 0.0)
    looked = looked_at(club_state.ticket, closed=closed, heaviest_kg=heaviest_of_use(club_state, steered, bare))
    sprung = len(steered) < len(goals)
    worked = best_sets(club_state, steered, looked.sets, max(most, MOST_FREQUENCIES) if sprung else most, looked.pieces)
    found, left = _ranked(club_state, goals, worked, looked.sets)
    if not looked.is_whole:
        left = max(left, at_most(worked, steered))
    if round(left, 2) > round(found[0].chance, 2):
        pieces = 0 if looked.is_whole else looked.pieces
        found = [msgspec.structs.replace(choice, looked=pieces, left_out=left) for choice in found]
    head = found[:most]
    if all(choice.changed for choice in head):
        head += [choice for choice in found if not choice.changed]
    return head


def _ranked(
    club_state: ClubState, goals: tuple[Goal, ...], worked: Worked, sets: NDArray[np.float64]
) -> tuple[list[Choice], float]:
    """Rank worked sets by all targets, and return what none of those left out can exceed, 0 where none is left out.

    With the frequency, an eigenproblem for each set, in the order of the other targets' chance: no chance of all targets is
    greater than that of some of them, so it ends as soon as the next one cannot be better, or after `MOST_FREQUENCIES`.
    """
    now, steered = club_state.fitted_now[0], steered_goals(goals)
    if len(steered) == len(goals):
        prediction = club_state.predict([goal.key for goal in steered], fitted=worked.counts)
        rows = zip(worked.counts, worked.chance, strict=True)
        found = [
            msgspec.structs.replace(
                _choice(row, prediction, place, goals, now), chance=float(chance), steered=float(chance)
            )
            for place, (row, chance) in enumerate(rows)
        ]
        return sorted(found, key=_rank), 0.0
    found, left = [], 0.0
    on = np.flatnonzero((worked.counts == now).all(axis=1))
    order = np.concatenate([on, np.setdiff1d(np.arange(len(worked.counts)), on)]).astype(np.intp)
    for at in range(0, len(order), FREQUENCY_SETS):
        batch = order[at : at + FREQUENCY_SETS]
        prediction = club_state.predict([goal.key for goal in goals], fitted=worked.counts[batch])
        whole = chances(prediction, goals)
        for place, row in enumerate(batch):
            choice = _choice(worked.counts[row], prediction, place, goals, now)
            steered_chance = float(worked.chance[row])
            found.append(msgspec.structs.replace(choice, chance=float(whole[place]), steered=steered_chance))
        following = at + FREQUENCY_SETS
        left = float(worked.chance[order[following]]) if following < len(order) else worked.rest
        best = max(choice.chance for choice in found)
        if round(left, 2) <= round(best, 2):
            left = 0.0
            break
        left = min(left, _frequency_at_most(club_state, sets))
        if following >= MOST_FREQUENCIES or round(left, 2) <= round(best, 2):
            break
    return sorted(found, key=_rank), left


def _frequency_at_most(club_state: ClubState, sets: NDArray[np.float64]) -> float:
    """Return the greatest chance that any of some sets can leave the frequency.

    More mass never raises a frequency (Lord Rayleigh, The Theory of Sound, 1877, section 88): all lie between that of no
    weight and that of the most of each. A weight that lifts the shaft makes it longer too; nothing is said of those.
    """
    goal = next(goal for goal in club_state.goals if QUANTITIES[goal.key].moved_by_weights)
    if any(row.lifts_shaft is not None for row in club_state.ticket.weights):
        return 1.0
    prediction = club_state.predict([goal.key], fitted=np.array([sets.min(axis=0), sets.max(axis=0)]))
    high, low = (float(value) for value in prediction.mean[:, 0])
    spread = prediction.sd()[:, 0]
    nearest = min(max(goal.target, low), high)
    inside = goal.low <= nearest <= goal.high
    return goal.chance(nearest, float(spread.min() if inside else spread.max()))


def _choice(
    counts: NDArray[np.float64],
    prediction: Prediction | None,
    place: int,
    goals: tuple[Goal, ...],
    now: NDArray[np.float64],
) -> Choice:
    if prediction is None:
        none = np.zeros(0)
        return Choice(counts=counts, chance=1.0, steered=1.0, miss=0.0, keys=(), mean=none, sd=none, changed=False)
    steered = steered_goals(goals)
    of = [prediction.keys.index(goal.key) for goal in steered]
    return Choice(
        counts=counts,
        chance=0.0,
        steered=0.0,
        miss=float(distance(prediction.mean[[place]][:, of], steered)[0]),
        keys=tuple(goal.key for goal in goals),
        mean=prediction.mean[place],
        sd=prediction.sd()[place],
        changed=not np.array_equal(counts, now),
    )


def _rank(choice: Choice) -> tuple[float, float, float, float, float, bool]:
    """Chance first; then that of what weights are for, closeness, fewer pieces, and leaving well alone."""
    chance, steered = -round(choice.chance, 2), -round(choice.steered, 2)
    return (chance, steered, round(choice.miss, 1), float(choice.counts.sum()), choice.miss, choice.changed)
