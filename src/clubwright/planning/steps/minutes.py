"""How long the steps of a plan take: hands at work, and waiting for the cure. A plan of the day, never a release."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

import msgspec

from clubwright.errors import InputError, NotPossible
from clubwright.planning.joint.cure import release_time
from clubwright.planning.steps.types import Step, StepKey
from clubwright.state.particulars import in_si
from clubwright.state.steps import WAITING
from clubwright.state.ticket import Ticket


class Times(msgspec.Struct, frozen=True, kw_only=True):
    """Two sums of time.

    Attributes:
        hands_on_s: Hands at work, s.
        waiting_s: JobRow for the cure, s.
    """

    hands_on_s: float = 0.0
    waiting_s: float = 0.0

    def __add__(self, other: Times) -> Times:
        """Return both together."""
        return Times(hands_on_s=self.hands_on_s + other.hands_on_s, waiting_s=self.waiting_s + other.waiting_s)


def times_of(keys: Iterable[StepKey], minutes_s: Mapping[str, float], cure_s: float | None = None) -> Times:
    """Return how long steps take together.

    Args:
        keys: The steps.
        minutes_s: How long each step takes, s.
        cure_s: How long the joint cures by its sheet, or still has to, s; None where that is not known.
    """
    total = Times()
    for key in keys:
        waits = key in WAITING
        time_s = cure_s if waits and cure_s is not None else minutes_s[key]
        total += Times(waiting_s=time_s) if waits else Times(hands_on_s=time_s)
    return total


def left_of(steps: Iterable[Step]) -> tuple[StepKey, ...]:
    """Return the steps that are not done."""
    return tuple(step.key for step in steps if not step.done)


def sheet_cure_s(ticket: Ticket) -> float | None:
    """Return the release time of the adhesive's sheet at the temperature of the bench, s; None where it gives none."""
    warm = in_si(ticket.club.adhesive.temperature)
    table = [(in_si(row.temperature) or 0.0, in_si(row.time) or 0.0) for row in ticket.club.release]
    if warm is None or not table:
        return None
    try:
        return release_time(table, warm, shaft_material=ticket.material).time_s
    except (InputError, NotPossible):
        return None
