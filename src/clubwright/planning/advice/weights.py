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
from clubwright.belief.probability import box_probability
from clubwright.club.quantities import QUANTITIES
from clubwright.planning.advice.tray import MANY_PIECES, looked_at
from clubwright.planning.club_state import ClubState
from clubwright.planning.goals import Goal

SHORTLIST = 24
"""Sets looked at with their full uncertainty, after a first pass on means alone."""

REACHED = 0.5
"""Chance below which larger sets are looked at than usual, and those left out are told (estimate of ours)."""

FREQUENCY_SETS = 10
"""Of those, so many are looked at with the frequency: an eigenproblem each."""


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
        looked: Up to how many pieces sets were looked at, where none of them reaches and larger ones fit; else 0.
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

    A closed joint keeps what sits in the tip, unless it is asked what there were with the head `pulled`.
    """
    goals = moved_goals(club_state)
    if not goals:
        return [_choice(sets_row, None, 0, (), club_state.fitted_now[0]) for sets_row in club_state.fitted_now]
    closed = club_state.is_closed and not pulled
    looked = looked_at(club_state.ticket, closed=closed)
    found = _ranked(club_state, goals, looked.sets, most)
    if found[0].chance < REACHED and not looked.is_whole:
        looked = looked_at(club_state.ticket, closed=closed, most=MANY_PIECES)
        more = _ranked(club_state, goals, looked.sets, most)
        found = more if more[0].chance > found[0].chance else found
    if found[0].chance < REACHED and not looked.is_whole:
        found = [msgspec.structs.replace(choice, looked=looked.pieces) for choice in found]
    return found


def _ranked(club_state: ClubState, goals: tuple[Goal, ...], sets: NDArray[np.float64], most: int) -> list[Choice]:
    now = club_state.fitted_now[0]
    steered = steered_goals(goals)
    kept = _shortlist(club_state, steered, sets)
    prediction = club_state.predict([goal.key for goal in steered], fitted=kept)
    likely = chances(prediction, steered)
    whole = likely
    if len(steered) < len(goals):
        places = _likeliest(prediction, steered, likely, kept, now)
        kept, likely = kept[places], likely[places]
        prediction = club_state.predict([goal.key for goal in goals], fitted=kept)
        whole = chances(prediction, goals)
    found = [_choice(row, prediction, place, goals, now) for place, row in enumerate(kept)]
    for place, (chance, of_weights) in enumerate(zip(whole, likely, strict=True)):
        found[place] = msgspec.structs.replace(found[place], chance=float(chance), steered=float(of_weights))
    found.sort(key=_rank)
    head = found[:most]
    if all(choice.changed for choice in head):
        head += [choice for choice in found if not choice.changed]
    return head


def chances(prediction: Prediction, goals: tuple[Goal, ...]) -> NDArray[np.float64]:
    """Return for each predicted set the chance that all of some predicted goals end within tolerance, shape (C)."""
    of = [prediction.keys.index(goal.key) for goal in goals]
    low = np.array([goal.low for goal in goals])
    high = np.array([goal.high for goal in goals])
    found: NDArray[np.float64] = box_probability(
        prediction.mean[:, of], prediction.covariance[:, of][:, :, of], low, high
    )
    return found


def _likeliest(
    prediction: Prediction,
    goals: tuple[Goal, ...],
    likely: NDArray[np.float64],
    sets: NDArray[np.float64],
    now: NDArray[np.float64],
) -> NDArray[np.intp]:
    """Return the places of the sets worth the frequency's work, the one fitted now among them.

    No chance of all targets is greater than that of some of them.
    """
    order = np.lexsort((_miss(prediction.mean, goals), -np.round(likely, 2)))[:FREQUENCY_SETS]
    fitted = np.flatnonzero((sets == now).all(axis=1))
    return np.unique(np.concatenate([order, fitted]))


def _shortlist(club_state: ClubState, goals: tuple[Goal, ...], sets: NDArray[np.float64]) -> NDArray[np.float64]:
    """Keep the sets whose means lie closest to the targets, and the one fitted now."""
    if len(sets) <= SHORTLIST:
        return sets
    prediction = club_state.means([goal.key for goal in goals], sets)
    miss = _miss(prediction, goals)
    order = np.argsort(miss, kind="stable")[:SHORTLIST]
    rows = {tuple(sets[place]) for place in order}
    kept = [sets[place] for place in order]
    if tuple(club_state.fitted_now[0]) not in rows:
        kept.append(club_state.fitted_now[0])
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
        return Choice(counts=counts, chance=1.0, steered=1.0, miss=0.0, keys=(), mean=none, sd=none, changed=False)
    steered = steered_goals(goals)
    of = [prediction.keys.index(goal.key) for goal in steered]
    return Choice(
        counts=counts,
        chance=0.0,
        steered=0.0,
        miss=float(_miss(prediction.mean[[place]][:, of], steered)[0]),
        keys=tuple(goal.key for goal in goals),
        mean=prediction.mean[place],
        sd=prediction.sd()[place],
        changed=not np.array_equal(counts, now),
    )


def _rank(choice: Choice) -> tuple[float, float, float, float, float, bool]:
    """Chance first; then that of what weights are for, closeness, fewer pieces, and leaving well alone."""
    chance, steered = -round(choice.chance, 2), -round(choice.steered, 2)
    return (chance, steered, round(choice.miss, 1), float(choice.counts.sum()), choice.miss, choice.changed)
