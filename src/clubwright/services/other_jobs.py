"""The other jobs of a record that have something in common with one: only theirs are read whole and folded."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import lru_cache
from typing import Any

from clubwright.errors import ClubwrightError
from clubwright.journal.facts import PartChanged, TicketTaken, What
from clubwright.journal.fold import Job, fold_each
from clubwright.planning.situation import Situation, situation_of
from clubwright.services.desk import Desk
from clubwright.ticket.document_key import DocumentKey
from clubwright.ticket.read import read_ticket

SAYING = ("ticket taken", "part changed")
"""Kinds of facts by which a ticket comes to say what it says of its player and its parts."""

MOST = 200
"""Jobs that are folded: those that came in last."""

Says = Callable[[Mapping[str, Any]], bool]


def other_jobs(desk: Desk, job: Job, says: Says) -> list[Job]:
    """Return the other jobs whose ticket says something, in the order in which they came in; the latest `MOST` of them.

    A job that does not fold is told on its own page, and passed over here.

    Args:
        desk: Who and where.
        job: The one that is left out.
        says: Asked of a ticket, and of each table of it that was changed, standing alone.
    """
    saying = [fact.what for fact in desk.ledger.readable(kinds=SAYING).facts]
    names = list(dict.fromkeys(what.job for what in saying if says(_table(what))))[-MOST:]
    if not names:
        return []
    read = desk.ledger.readable(names)
    damaged = {name: [item.finding] for item in read.damage for name in item.jobs}
    others = fold_each(read.facts, damaged).jobs.values()
    return [other for other in others if other.place != job.place and says(other.document)]


@lru_cache(maxsize=256)
def club_of(document: DocumentKey, job: str) -> Situation | None:
    """Return another job's club as far as it is known; one that cannot be worked is told on its own page, not here."""
    try:
        ticket, _ = read_ticket(document.document, f"ticket {job}")
        return None if ticket is None else situation_of(ticket)
    except ClubwrightError:
        return None


def word_of(document: Mapping[str, Any], section: str, key: str) -> str:
    """Return one word of a ticket as it is compared: without outer spaces, small letters; empty where it is not said."""
    table = document.get(section)
    found = table.get(key) if isinstance(table, Mapping) else None
    return found.strip().casefold() if isinstance(found, str) else ""


def _table(what: What) -> Mapping[str, Any]:
    if isinstance(what, TicketTaken):
        return what.document
    return {what.section: what.values} if isinstance(what, PartChanged) else {}
