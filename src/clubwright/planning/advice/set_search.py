"""The best of many sets of weights, exactly: each is bounded first, and worked until no other can be better.

The chance of all targets is never greater than that of one of them, which costs next to nothing. So sets are worked in the
order of that bound, and once those found rank before what the next one can reach at most, all others are behind
(branch and bound: A. Land and A. Doig, Econometrica 28 (1960) 497). Derivation: docs/theory/advice.md.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from clubwright.belief.normal import chance_below
from clubwright.belief.prediction import Prediction
from clubwright.belief.probability import box_probability
from clubwright.club.part_paths import path_of
from clubwright.club.quantities import QUANTITIES
from clubwright.planning.club_state import ClubState
from clubwright.planning.goals import Goal

AT_ONCE = 24
"""Sets worked at once."""

PREDICTED = 512
"""Sets predicted at once, for the memory they take."""

SURE = 4.0
"""Standard uncertainties beyond a window where the chance is nothing: 3 in 100,000."""

FEW_SETS = 2000
"""Below so many combinations of the tray no heaviest set is looked for."""


class Worked(NamedTuple):
    """Sets of weights with their chances, best first.

    Attributes:
        counts: Shape (C, w).
        chance: Of all targets asked about, shape (C).
        miss: Root mean square distance from them in half-widths, shape (C).
        rest: What none of the sets that were not worked can exceed; 0 where all were.
        least_sd: The least doubt of each target over all sets of the most pieces, worked or not: more pieces add to it.
    """

    counts: NDArray[np.float64]
    chance: NDArray[np.float64]
    miss: NDArray[np.float64]
    rest: float
    least_sd: NDArray[np.float64]


def best_sets(
    club_state: ClubState, goals: tuple[Goal, ...], sets: NDArray[np.float64], most: int, pieces_whole: int = 0
) -> Worked:
    """Return the sets that rank first, `most` of them or more, and the one fitted now if it is among them.

    They rank by chance to a whole percent, then by distance to a tenth of a half-width, then by fewer pieces.
    Up to `pieces_whole` pieces they are all there are.
    """
    keys = [goal.key for goal in goals]
    parts = [club_state.predict(keys, fitted=sets[at : at + PREDICTED]) for at in range(0, len(sets), PREDICTED)]
    mean = np.concatenate([part.mean for part in parts])
    covariance = np.concatenate([part.covariance for part in parts])
    off, pieces = distance(mean, goals), sets.sum(axis=1)
    bound = bounds(mean, covariance, goals).min(axis=1)
    order = np.lexsort((off, pieces, np.round(off, 1), -np.round(bound, 2)))
    now = np.flatnonzero((sets == club_state.fitted_now[0]).all(axis=1))
    order = np.concatenate([now, order[~np.isin(order, now)]])
    done = np.zeros(0, dtype=np.intp)
    chance, rest = np.zeros(0), 0.0
    low, high = ends(goals)
    for at in range(0, len(order), AT_ONCE):
        batch = order[at : at + AT_ONCE]
        done = np.concatenate([done, batch])
        chance = np.concatenate([chance, box_probability(mean[batch], covariance[batch], low, high)])
        rank = np.lexsort((off[done], pieces[done], np.round(off[done], 1), -np.round(chance, 2)))
        if at + AT_ONCE < len(order) and len(rank) >= most:
            last, following = rank[most - 1], order[at + AT_ONCE]
            reached = (-np.round(chance[last], 2), np.round(off[done[last]], 1), pieces[done[last]], off[done[last]])
            if reached <= (
                -np.round(bound[following], 2),
                np.round(off[following], 1),
                pieces[following],
                off[following],
            ):
                rest = float(bound[order[at + AT_ONCE :]].max())
                break
    variances = np.diagonal(covariance, axis1=1, axis2=2)
    largest = pieces >= min(pieces_whole, float(pieces.max()))
    least = np.sqrt(np.maximum(variances, 0.0))[largest].min(axis=0)
    return Worked(sets[done[rank]], chance[rank], off[done[rank]], rest, least)


def bounds(mean: NDArray[np.float64], covariance: NDArray[np.float64], goals: tuple[Goal, ...]) -> NDArray[np.float64]:
    """Return the chance of each goal by itself, shape (C, q)."""
    low, high = ends(goals)
    sd = np.sqrt(np.maximum(np.diagonal(covariance, axis1=1, axis2=2), 1e-30))
    found: NDArray[np.float64] = chance_below((high - mean) / sd) - chance_below((low - mean) / sd)
    return found


def at_most(worked: Worked, goals: tuple[Goal, ...]) -> float:
    """Return what no set that was left out can exceed: each target met at its middle, with the least doubt of any seen."""
    return min(goal.chance(goal.target, float(sd)) for goal, sd in zip(goals, worked.least_sd, strict=True))


def heaviest_of_use(club_state: ClubState, goals: tuple[Goal, ...], bare: NDArray[np.float64]) -> float:
    """Return the mass of weights in kg beyond which every target is overshot for certain; infinite where none is known.

    Asked only where the tray has many combinations. A weight at the butt lowers the swing weight: what those can take off is
    added.
    """
    rows = club_state.ticket.weights
    stock = np.array([float(row.count.value) if row.count is not None else 1.0 for row in rows])
    if float(np.prod(stock + 1)) <= FEW_SETS or any(not QUANTITIES[goal.key].adds_up for goal in goals):
        return float("inf")
    singles = np.concatenate([bare[None, :], bare + np.eye(len(rows))])
    prediction = club_state.predict([goal.key for goal in goals], fitted=singles)
    mass = np.array([float(weight.mass_kg) for weight in club_state.club.weights])
    doubt = max(
        club_state.number(path_of("weights", place, "mass_kg"))[1] / max(float(kg), 1e-6)
        for place, kg in enumerate(mass)
    )
    at_butt = np.array([row.seat == "butt" for row in rows], dtype=bool)
    if SURE * doubt >= 0.5 or at_butt.all():
        return float("inf")
    most = 0.0
    for column, goal in enumerate(goals):
        each = prediction.mean[1:, column] - prediction.mean[0, column]
        by_kg = float((each / mass)[~at_butt].min())
        if by_kg <= 0:
            return float("inf")
        lowered = max(float((-each[at_butt]).max(initial=0.0)), 0.0)
        far = goal.high + SURE * float(prediction.sd()[:, column].max()) - float(prediction.mean[0, column]) + lowered
        most = max(most, far / by_kg / (1 - SURE * doubt))
    return most + float(bare @ mass) + float(mass[at_butt].max(initial=0.0))


def distance(mean: NDArray[np.float64], goals: tuple[Goal, ...]) -> NDArray[np.float64]:
    """Return how far each set lies from the targets, root mean square in half-widths."""
    target = np.array([goal.target for goal in goals])
    width = np.array([max(goal.half_width, 1e-12) for goal in goals])
    found: NDArray[np.float64] = np.sqrt(np.mean(((mean - target) / width) ** 2, axis=1))
    return found


def ends(goals: tuple[Goal, ...]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return low and high ends of the windows."""
    return np.array([goal.low for goal in goals]), np.array([goal.high for goal in goals])


def chances(prediction: Prediction, goals: tuple[Goal, ...]) -> NDArray[np.float64]:
    """Return for each predicted set the chance that all of some predicted goals end within tolerance, shape (C)."""
    of = [prediction.keys.index(goal.key) for goal in goals]
    low, high = ends(goals)
    found: NDArray[np.float64] = box_probability(
        prediction.mean[:, of], prediction.covariance[:, of][:, :, of], low, high
    )
    return found
