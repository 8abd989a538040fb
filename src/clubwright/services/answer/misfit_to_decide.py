"""Readings kept aside, for the person who has to decide: how far off, and what could have gone wrong, likeliest first."""

from __future__ import annotations

import msgspec

from clubwright.services.answer.club_answer import ClubAnswer

LIKELIEST = ", and is kept aside. Likeliest first: "
OR = "; or "


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
    waiting = {entry.where: entry for entry in worked.club_state.ticket.readings if entry.keep is None}
    found = []
    for finding in worked.findings:
        entry = waiting.get(finding.where)
        off, told, causes = finding.what.partition(LIKELIEST)
        if entry is not None and entry.fact is not None and told:
            what = f"{entry.quantity.replace('_', ' ').replace('.', ' ')} {entry.entry.typed} ({entry.stage})"
            found.append(MisfitToDecide(fact=entry.fact, what=what, off=off, causes=tuple(causes.split(OR))))
    return tuple(found)
