"""Choose the weight: every set the tray offers, ranked by the chance that all targets it moves end within tolerance.

The chance is that of the joint belief of those targets lying inside their windows, adhesive, tape and grip still to come
included. Ties go to what lies closer to the middle of the windows, then to fewer pieces. Derivation:
docs/theory/advice.md; calibration: benchmarks/virtual_bench.py.
"""

from __future__ import annotations

import msgspec
import numpy as np
from numpy.typing import NDArray

from clubwright.belief.prediction import Prediction
from clubwright.belief.probability import box_probability
from clubwright.club.quantities import QUANTITIES
from clubwright.planning.goals import Goal
from clubwright.planning.situation import Situation
from clubwright.planning.tray import possible_sets

SHORTLIST = 24
"""Sets looked at with their full uncertainty, after a first pass on means alone."""


class Choice(msgspec.Struct, frozen=True, kw_only=True):
    """One set of weights and what it would do.

    Attributes:
        counts: How many of each weight of the tray, shape (w).
        chance: Chance that all targets it moves end within tolerance; 1 when there is none.
        miss: Root of the mean square distance from the targets, in half-widths.
        keys: The targets it moves.
        mean, sd: What the finished club would read for them, in SI.
        changed: Whether it differs from what is fitted now.
    """

    counts: NDArray[np.float64]
    chance: float
    miss: float
    keys: tuple[str, ...]
    mean: NDArray[np.float64]
    sd: NDArray[np.float64]
    changed: bool


def moved_goals(situation: Situation) -> tuple[Goal, ...]:
    """Return the targets that a loose weight moves: those of mass, and the length when one lifts a cut shaft."""
    lifts = situation.ticket.is_cut and any("lifts_shaft" in row.numbers for row in situation.ticket.weights)
    return tuple(
        goal
        for goal in situation.goals
        if situation.can_predict(goal.key)
        and (QUANTITIES[goal.key].steered_by == "weights" or (goal.key == "length" and lifts))
    )


def choices(situation: Situation, *, most: int = 6) -> list[Choice]:
    """Rank the sets of weights that the tray offers, best first; the set fitted now is always among the answers."""
    goals = moved_goals(situation)
    sets = possible_sets(situation.ticket)
    now = situation.fitted_now[0]
    if not goals:
        return [_choice(sets_row, None, 0, (), now) for sets_row in situation.fitted_now]
    kept = _shortlist(situation, goals, sets)
    prediction = situation.predict([goal.key for goal in goals], fitted=kept)
    found = [_choice(row, prediction, place, goals, now) for place, row in enumerate(kept)]
    for place, chance in enumerate(chances(prediction, goals)):
        found[place] = msgspec.structs.replace(found[place], chance=float(chance))
    found.sort(key=_rank)
    head = found[:most]
    if all(choice.changed for choice in head):
        head += [choice for choice in found if not choice.changed]
    return head


def chances(prediction: Prediction, goals: tuple[Goal, ...]) -> NDArray[np.float64]:
    """Return for each predicted set the chance that all goals end within tolerance, shape (C)."""
    low = np.array([goal.low for goal in goals])
    high = np.array([goal.high for goal in goals])
    found: NDArray[np.float64] = box_probability(prediction.mean, prediction.covariance, low, high)
    return found


def _shortlist(situation: Situation, goals: tuple[Goal, ...], sets: NDArray[np.float64]) -> NDArray[np.float64]:
    """Keep the sets whose means lie closest to the targets, and the one fitted now."""
    if len(sets) <= SHORTLIST:
        return sets
    prediction = situation.means([goal.key for goal in goals], sets)
    miss = _miss(prediction, goals)
    order = np.argsort(miss, kind="stable")[:SHORTLIST]
    rows = {tuple(sets[place]) for place in order}
    kept = [sets[place] for place in order]
    if tuple(situation.fitted_now[0]) not in rows:
        kept.append(situation.fitted_now[0])
    return np.array(kept)


def _miss(mean: NDArray[np.float64], goals: tuple[Goal, ...]) -> NDArray[np.float64]:
    target = np.array([goal.target for goal in goals])
    width = np.array([max(goal.half_width, 1e-12) for goal in goals])
    found: NDArray[np.float64] = np.sqrt(np.mean(((mean - target) / width) ** 2, axis=1))
    return found


def _choice(
    counts: NDArray[np.float64],
    prediction: Prediction | None,
    place: int,
    goals: tuple[Goal, ...],
    now: NDArray[np.float64],
) -> Choice:
    if prediction is None:
        none = np.zeros(0)
        return Choice(counts=counts, chance=1.0, miss=0.0, keys=(), mean=none, sd=none, changed=False)
    return Choice(
        counts=counts,
        chance=0.0,
        miss=float(_miss(prediction.mean[[place]], goals)[0]),
        keys=tuple(goal.key for goal in goals),
        mean=prediction.mean[place],
        sd=prediction.sd()[place],
        changed=not np.array_equal(counts, now),
    )


def _rank(choice: Choice) -> tuple[float, float, float, float, bool]:
    """Chance first; then closeness, fewer pieces, and leaving well alone."""
    return (-round(choice.chance, 2), round(choice.miss, 1), float(choice.counts.sum()), choice.miss, choice.changed)
