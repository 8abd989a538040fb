"""The other jobs of a record that have something in common with one: only theirs are read whole and folded."""

from __future__ import annotations

from functools import lru_cache

from clubwright.errors import ClubwrightError
from clubwright.journal.reducers.fold import Job, fold_each
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.services.checks.job_ticket import ticket_of
from clubwright.services.record.job_index import Alike
from clubwright.services.record.session import Session
from clubwright.state.key import StateKey
from clubwright.state.ticket import Ticket

MOST = 200
"""Jobs that are folded: those that came in last."""


def other_jobs(session: Session, job: Job, kind: Alike, word: str) -> list[Job]:
    """Return the other jobs of one player, or with a shaft of one name, as they came in; the latest `MOST` of them.

    A job that does not fold is told on its own page, and passed over here.

    Args:
        session: Who and where.
        job: The one that is left out.
        kind: What is alike.
        word: As `clubwright.services.record.job_lines.compared` has it.
    """
    found = session.ask(lambda index: index.alike(kind, word, MOST))
    places, names = {place for place, _ in found}, sorted({number for _, number in found})
    if not names:
        return []
    read = session.ledger.readable(names)
    damaged = {name: [item.finding] for item in read.damage for name in item.jobs}
    others = fold_each(read.facts, damaged).jobs.values()
    return [other for other in others if other.place in places and other.place != job.place]


def known(job: Job) -> StateKey[Ticket] | None:
    """Return another job's ticket as the key of what follows from it; one that cannot be taken is told on its own page."""
    try:
        return StateKey(ticket_of(job))
    except ClubwrightError:
        return None


@lru_cache(maxsize=256)
def club_of(ticket: StateKey[Ticket]) -> ClubState | None:
    """Return another job's club as far as it is known; one that cannot be worked is told on its own page, not here."""
    try:
        return club_state_of(ticket.state)
    except ClubwrightError:
        return None
