"""Belief strips: for each target its window, the belief about the finished club, and the last reading, on one scale.

Places run from 0 (left end of the strip) to 1 (right end), heights from 0 to 1, so that a page, a sheet or a terminal can
draw them at any size.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

import msgspec

from clubwright.club.quantities import ANGLES, QUANTITIES
from clubwright.club.stages import FINISHED
from clubwright.notation import render, render_apart
from clubwright.planning.goals import Goal
from clubwright.services.answer.club_answer import ClubAnswer

POINTS = 61
WINDOWS = 3.0
"""A strip shows at least this many half-widths either side of its target."""

SPREADS = 3.2
MOST_WINDOWS = 12.0
"""And at most this many: a belief further out is shown by an arrow."""


class Tick(msgspec.Struct, frozen=True, kw_only=True):
    """What was read of the finished club, as its verdict takes it: place, width (one standard uncertainty), text."""

    place: float
    width: float
    text: str


class Curve(msgspec.Struct, frozen=True, kw_only=True):
    """A belief: points (place, height), figure and spread, the chance; `beyond` says where it lies when off the strip."""

    points: tuple[tuple[float, float], ...]
    text: str
    spread: str
    chance: float
    beyond: str


class Strip(msgspec.Struct, frozen=True, kw_only=True):
    """One target's row.

    Attributes:
        key: The quantity.
        name: Its name.
        target: The order, as typed.
        tolerance: Its half-width, as typed.
        window: Places of both ends of the tolerance window.
        middle: Place of the target.
        ends: What stands at the two ends of the strip, in trade notation.
        belief: The belief with what is on the club now.
        considered: The belief with the action that is being considered, if any.
        tick: What was read of the finished club, if anything.
        verdict: What the readings prove, if they were taken.
        measured: Whether a reading of it stands, at any stage, or the head was measured for it: else it is only foreseen.
    """

    key: str
    name: str
    target: str
    tolerance: str
    window: tuple[float, float]
    middle: float
    ends: tuple[str, str]
    belief: Curve
    considered: Curve | None
    tick: Tick | None
    verdict: str
    measured: bool


def strips_of(worked: ClubAnswer, considered: Mapping[str, tuple[float, float]] | None = None) -> tuple[Strip, ...]:
    """Return a strip for each target that can be predicted, in the register's order.

    Args:
        worked: The job.
        considered: What the finished club would read after an action: quantity to (mean, sd).
    """
    club_state = worked.club_state
    return tuple(
        _strip(worked, goal, (considered or {}).get(goal.key))
        for goal in club_state.goals
        if club_state.can_predict(goal.key)
    )


def _strip(worked: ClubAnswer, goal: Goal, considered: tuple[float, float] | None) -> Strip:
    quantity = QUANTITIES[goal.key]
    prediction = worked.club_state.predict([goal.key])
    now = (float(prediction.mean[0, 0]), float(prediction.sd()[0, 0]))
    reach = max([_reach(goal, now)] + ([] if considered is None else [_reach(goal, considered)]))
    low, span = goal.target - reach, 2 * reach
    inspected = worked.inspected.get(goal.key)
    return Strip(
        key=goal.key,
        name=quantity.name,
        target=goal.typed,
        tolerance=goal.tolerance_typed,
        window=((goal.low - low) / span, (goal.high - low) / span),
        middle=0.5,
        ends=(render(QUANTITIES[goal.key].shown_kind, low), render(QUANTITIES[goal.key].shown_kind, low + span)),
        belief=_curve(goal, now, low, span),
        considered=None if considered is None else _curve(goal, considered, low, span),
        tick=_tick(worked, goal, low, span),
        verdict="" if inspected is None else inspected.verdict,
        measured=_is_measured(worked, goal.key),
    )


def _is_measured(worked: ClubAnswer, key: str) -> bool:
    club_state = worked.club_state
    read = any(item.taken and item.reading.quantity == key for item in club_state.present)
    return read or (key in ANGLES and club_state.ticket.club.head.entry(key) is not None)


def _reach(goal: Goal, belief: tuple[float, float]) -> float:
    mean, sd = belief
    wanted = max(WINDOWS * goal.half_width, abs(mean - goal.target) + SPREADS * sd)
    return min(wanted, MOST_WINDOWS * goal.half_width)


def _curve(goal: Goal, belief: tuple[float, float], low: float, span: float) -> Curve:
    mean, sd = belief
    sd = max(sd, span / 400)  # drawn no narrower than can be seen
    points = []
    for step in range(POINTS):
        place = step / (POINTS - 1)
        off = (low + place * span - mean) / sd
        points.append((place, math.exp(-off * off / 2)))
    beyond = "left" if mean < low else "right" if mean > low + span else ""
    text, spread = render_apart(QUANTITIES[goal.key].shown_kind, mean, belief[1])
    return Curve(points=tuple(points), text=text, spread=spread, chance=goal.chance(*belief), beyond=beyond)


def _tick(worked: ClubAnswer, goal: Goal, low: float, span: float) -> Tick | None:
    """Mark what the verdict is about; where no reading stands, the last one as it was read."""
    inspected = worked.inspected.get(goal.key)
    if inspected is not None and inspected.measured is not None and inspected.u is not None:
        return _mark(goal, inspected.measured, inspected.u, low, span)
    for item in reversed(worked.club_state.present):
        reading = item.reading
        if reading.quantity == goal.key and reading.stage.name == FINISHED.name and reading.keep is not False:
            return _mark(goal, reading.value, reading.instrument.uncertainty(reading.repeats), low, span)
    return None


def _mark(goal: Goal, value: float, u: float, low: float, span: float) -> Tick:
    place = min(max((value - low) / span, 0.0), 1.0)
    return Tick(place=place, width=u / span, text=render(QUANTITIES[goal.key].shown_kind, value))
