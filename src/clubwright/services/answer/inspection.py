"""Inspection: what the readings of the finished club prove, quantity by quantity."""

from __future__ import annotations

import math
from collections.abc import Callable

import msgspec
import numpy as np

from clubwright.belief.readings import Reading
from clubwright.belief.update import Judged
from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import FINISHED
from clubwright.conformity.decision import Verdict, verdict
from clubwright.conformity.outcome import Outcome
from clubwright.conformity.risk import specific_consumer_risk
from clubwright.conformity.settling import settle, settle_text
from clubwright.notation import render
from clubwright.planning.club_state import ClubState
from clubwright.planning.goals import Goal


class Inspected(msgspec.Struct, frozen=True, kw_only=True):
    """One quantity's verdict, as answers and sheets show it.

    Attributes:
        verdict: ``within``, ``outside`` or ``cannot tell``.
        named: Name and meaning of the rule, in a sentence; empty where none was applied.
        figures: Its numbers, for ``within`` also the risk, in sentences; why there are none, where none was applied.
        settle: What would settle an open verdict.
        risk: Chance that what was found within is outside all the same, by these readings alone (docs/theory/conformity.md);
            None unless the verdict is ``within``.
        measured, u: The mean of the readings that were judged, and its standard uncertainty, in SI; None where none stands.
    """

    verdict: Outcome
    named: str
    figures: str
    settle: str
    risk: float | None = None
    measured: float | None = None
    u: float | None = None

    @property
    def rule(self) -> str:
        """The rule with its numbers."""
        return f"{self.named} {self.figures}" if self.named else self.figures


def inspect(club_state: ClubState) -> dict[str, Inspected]:
    """Return a verdict for every target that was read on the finished club."""
    found: dict[str, Inspected] = {}
    for goal in club_state.goals:
        read = [
            item
            for item in club_state.present
            if item.reading.quantity == goal.key and item.reading.stage.name == FINISHED.name
        ]
        if read:
            found[goal.key] = _inspected(club_state, goal, read)
    return found


def _inspected(club_state: ClubState, goal: Goal, read: list[Judged]) -> Inspected:
    taken = [item.reading for item in read if item.taken and item.reading.fitted == read[-1].reading.fitted]
    words = _words(goal.key)
    if not taken:
        undecided = any(item.reading.keep is None for item in read)
        settled = "Decide about the reading that does not fit." if undecided else "Read it again."
        return Inspected(verdict="cannot tell", named="", figures="no reading that stands", settle=settled)
    if _moved_by_weights(club_state, goal.key, taken[-1]):
        settled = "Read it again with the weights that are on now."
        figures = "it was read with other weights on"
        return Inspected(verdict="cannot tell", named="", figures=figures, settle=settled)
    gauge = taken[-1].instrument
    same = [reading for reading in taken if reading.instrument == gauge and reading.meter == taken[-1].meter]
    repeats = sum(reading.repeats for reading in same)
    converted = [club_state.as_the_shop_reads(reading) for reading in same]
    measured = sum(value * reading.repeats for (value, _), reading in zip(converted, same, strict=True)) / repeats
    # they are all of this club, so they share their rounding, and what a conversion from another clamp adds
    u = math.hypot(gauge.uncertainty(repeats), converted[-1][1])
    found = verdict(measured, goal.target, goal.half_width, u, club_state.ticket.rule, words)
    settling = settle(found, gauge)
    risk = _consumers_risk(found)
    figures = found.figures if risk is None else f"{found.figures} {risk_words(risk)}"
    settled = settle_text(settling, words)
    return Inspected(
        verdict=found.verdict, named=found.named, figures=figures, settle=settled, risk=risk, measured=measured, u=u
    )


def _moved_by_weights(club_state: ClubState, key: str, reading: Reading) -> bool:
    """True when the weights on at the reading are not those on now, and the quantity feels them."""
    sets = np.array([reading.fitted, club_state.fitted_now[0]], dtype=float)
    if np.array_equal(sets[0], sets[1]):
        return False
    read, now = (float(value) for value in club_state.means([key], sets)[:, 0])
    return abs(now - read) > SAME * max(abs(read), abs(now))


SAME = 1e-9
"""Two computed figures that differ by less than this share are one figure: rounding of the arithmetic."""


def _consumers_risk(found: Verdict) -> float | None:
    return specific_consumer_risk(found.measured, found.u, found.low, found.high) if found.verdict == "within" else None


def risk_words(risk: float) -> str:
    """Say the chance that a club found in spec is out of it all the same; a small one is never rounded to nothing."""
    size = f"{risk * 100:.2g} %" if risk >= LEAST_RISK else f"below {LEAST_RISK * 100:g} %"
    return f"Chance that it is out of spec all the same: {size}."


def _words(key: str) -> Callable[[float], str]:
    """Write a value of a quantity; on a scale with letters, small figures (uncertainties, guard bands) in points."""
    quantity = QUANTITIES[key]

    def words(value: float) -> str:
        if quantity.tolerance_kind == "points" and abs(value) < LEAST_READING:
            return f"{value:.2g} pt"
        if (
            quantity.kind == "swing_weight"
            and LEAST_READING <= value < LAST_POINT
            and abs(value - round(value, 1)) > 0.004
        ):
            return _hundredths(value)
        return render(quantity.kind, value)

    return words


LEAST_RISK = 1e-3
"""Risks below this are told as below it: the tails of a gauge's error are not known any better (estimate of ours)."""

LEAST_READING = 5.0
"""Below this many points a figure is a difference, never a club's swing weight."""

LAST_POINT = 69.99
"""Points above A0 up to which the scale has letters, A to G."""


def _hundredths(points: float) -> str:
    """Write a swing weight to the hundredth: a window of a quarter point ends at D3.75, which is not D3.8."""
    letter, rest = divmod(round(points, 2), 10)
    return f"{'ABCDEFG'[int(letter)]}{rest:.2f}"
