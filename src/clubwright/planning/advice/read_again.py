"""Is one more reading worth more than any action now?

The value of a reading is the chance that the best action has after it, averaged over what it may show (preposterior
analysis: H. Raiffa and R. Schlaifer, Applied Statistical Decision Theory, 1961, chapter 4), over evenly likely points: the
best chance has kinks, where one action takes over from another, and a polynomial rule would stumble over them.
"""

from __future__ import annotations

import msgspec
import numpy as np

from clubwright.belief.normal import quantile
from clubwright.belief.probability import box_probability
from clubwright.belief.readings import Reading
from clubwright.belief.sharing import already_read
from clubwright.belief.update import predict_reading, with_biases
from clubwright.club.quantities import WEIGHING
from clubwright.club.stages import AS_IT_CAME, DRY_GRIPPED, FINISHED, STAGES
from clubwright.planning.advice.weights import Choice, choices, moved_goals, steered_goals
from clubwright.planning.club_state import ClubState
from clubwright.planning.said.actions import Action
from clubwright.planning.said.actions import Reading as Asked
from clubwright.ticket.gauges import usual_gauge

WORTH = 0.10
"""Least gain of chance that makes another reading worth the time (estimate of ours)."""

GOOD_ENOUGH = 0.80
"""Chance above which the best action is taken without reading again (estimate of ours)."""

POINTS = quantile((np.arange(32) + 0.5) / 32)
"""What a reading may show, in standard deviations: the middles of 32 equally likely slices."""

WITHOUT_DRY = ("loft-lie", "weight", "regrip")
"""Kinds of work on a club whose joint stays closed: it is never read dry."""

LOOKED_AT = 6
"""Sets that may be the best after the reading: those that rank first before it."""


def read_again(club_state: ClubState, best: Choice) -> Action | None:
    """Return the reading worth taking, with the chance it is expected to bring; None when none is."""
    goals = moved_goals(club_state)
    if not goals or best.steered >= GOOD_ENOUGH:
        return None
    offered = [_value(club_state, quantity) for quantity in WEIGHING]
    steered, quantity, stage = max(offered)
    if steered - best.steered < WORTH:
        return None
    # What such a reading says of the frequency is next to nothing: that part of the chance stays as it is.
    chance = steered * best.chance / best.steered if best.steered > 0 else steered
    data = Asked(quantity=quantity, stage=stage, best_now=best.chance)
    return Action(kind="read", data=data, chance=chance, finished={})


def _value(club_state: ClubState, quantity: str) -> tuple[float, str, str]:
    """Expected chance of the best set of weights after one more reading of a quantity.

    A club that was read already with this gauge would round as before: only what is new in the reading counts.
    """
    goals = steered_goals(moved_goals(club_state))
    reading = _next_reading(club_state, quantity)
    belief = with_biases(club_state.belief, [reading])
    prior = club_state.prior
    _, gradient = predict_reading(prior.club, prior.conventions, belief.names, belief.mean, reading)
    taken = [item.reading for item in club_state.learned.judged if item.taken]
    before = already_read(prior.belief, prior.club, prior.conventions, taken, reading, prior.measured)
    variance = float(gradient @ belief.covariance @ gradient) + reading.instrument.noise_of_more(1, before) ** 2
    sets = np.array([choice.counts for choice in choices(club_state, most=LOOKED_AT)])
    prediction = club_state.predict([goal.key for goal in goals], fitted=sets)
    slope = np.zeros((*prediction.slope.shape[:2], len(belief.names)))
    slope[:, :, : prediction.slope.shape[2]] = prediction.slope
    shared = slope @ (belief.covariance @ gradient) / np.sqrt(variance)
    narrowed = prediction.covariance - shared[:, :, None] * shared[:, None, :]
    low = np.array([goal.low for goal in goals])
    high = np.array([goal.high for goal in goals])
    # Every reading with every set at once: 32 small calls would cost more than all their arithmetic.
    means = prediction.mean + POINTS[:, None, None] * shared
    spreads = np.broadcast_to(narrowed, (len(POINTS), *narrowed.shape))
    flat = box_probability(means.reshape(-1, len(goals)), spreads.reshape(-1, *narrowed.shape[1:]), low, high)
    return float(np.mean(np.max(flat.reshape(len(POINTS), -1), axis=1))), quantity, reading.stage.name


def _next_reading(club_state: ClubState, quantity: str) -> Reading:
    """Describe the next reading of a quantity: same gauge, stage and weights as the last one of it, else usual ones."""
    job = club_state.ticket.job
    once_done = FINISHED if job in WITHOUT_DRY else DRY_GRIPPED
    for item in reversed(club_state.present):
        reading = msgspec.structs.replace(item.reading, then=None)
        if reading.quantity == quantity:
            return msgspec.structs.replace(reading, stage=once_done) if reading.stage.old_parts else reading
    later = [entry.stage for entry in club_state.present_entries if entry.stage != AS_IT_CAME.name]
    stage = STAGES[later[-1]] if later else AS_IT_CAME if job == "regrip" else once_done
    if job in ("loft-lie", "weight"):
        stage = FINISHED
    fitted = tuple(float(count) for count in club_state.fitted_now[0])
    return Reading(
        where="next",
        quantity=quantity,
        value=0.0,
        stage=stage,
        fitted=fitted,
        instrument=usual_gauge(quantity),
    )
