"""Readings kept aside, for the person who has to decide: how far off, and what could have gone wrong, likeliest first."""

from __future__ import annotations

import msgspec

from clubwright.notation import units_shown
from clubwright.services.answer.club_answer import ClubAnswer
from clubwright.words.misfit import say_causes, say_off, say_reading


class MisfitToDecide(msgspec.Struct, frozen=True, kw_only=True):
    """One reading that does not fit and waits for a decision.

    Attributes:
        fact: Number of its fact, which a decision names.
        what: What was read, at which stage.
        off: How far off it is.
        causes: What could have gone wrong, likeliest first.
    """

    fact: int
    what: str
    off: str
    causes: tuple[str, ...]


def misfits_to_decide(worked: ClubAnswer) -> tuple[MisfitToDecide, ...]:
    """Return the readings of the record that wait for a decision."""
    style = units_shown()
    return tuple(
        MisfitToDecide(
            fact=item.fact,
            what=say_reading(item.reading, style),
            off=say_off(item, style),
            causes=say_causes(item, style),
        )
        for item in worked.misfits
        if item.fact is not None and not item.left_out
    )
