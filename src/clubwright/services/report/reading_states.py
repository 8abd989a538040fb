"""What became of each reading of a ticket: it counts, it was set aside, or there is nothing yet to hold it against."""

from __future__ import annotations

from typing import Literal

import msgspec

from clubwright.errors import Where
from clubwright.services.answer.club_answer import ClubAnswer
from clubwright.ticket.gauges import entry_lacks


class ReadingState(msgspec.Struct, frozen=True, kw_only=True):
    """What became of one reading.

    Attributes:
        state: ``counts``; ``counts then``, of the club before a change that moved it; ``kept`` by a person's decision;
            ``left out`` by one; ``aside`` until a person decides;
            ``not used`` while the ticket lacks what it is held against.
        why: What the ticket lacks; empty for the others.
    """

    state: Literal["counts", "counts then", "kept", "left out", "aside", "not used"]
    why: str = ""

    @property
    def counts(self) -> bool:
        """Whether the belief takes it in."""
        return self.state in ("counts", "counts then", "kept")

    @property
    def words(self) -> str:
        """Say it."""
        return _WORDS[self.state] + (f": it {self.why}" if self.why else "")


_WORDS = {
    "counts": "counts",
    "counts then": "counts for the club as it was then; a later change moved what was read",
    "kept": "counts, by a person's decision",
    "left out": "left out by a person",
    "aside": "set aside: it does not fit, nobody has decided",
    "not used": "kept, not used",
}


def reading_states(worked: ClubAnswer) -> dict[Where, ReadingState]:
    """Return the state of every reading of the ticket, by its place in the input."""
    taken = {item.reading.where: item.taken for item in worked.club_state.learned.judged}
    present = {item.reading.where for item in worked.club_state.present}
    found: dict[Where, ReadingState] = {}
    for entry in worked.club_state.ticket.readings:
        if entry.where not in taken:
            why = entry_lacks(worked.club_state.ticket, entry)
            found[entry.where] = ReadingState(state="not used", why=why)
        elif entry.keep is False:
            found[entry.where] = ReadingState(state="left out")
        elif not taken[entry.where]:
            found[entry.where] = ReadingState(state="aside")
        elif entry.where not in present:
            found[entry.where] = ReadingState(state="counts then")
        else:
            found[entry.where] = ReadingState(state="counts" if entry.keep is None else "kept")
    return found
