"""The other clubs of a record that have something in common with one: only the facts of their jobs are read and folded."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

import msgspec

from clubwright.errors import ClubwrightError
from clubwright.journal.reducers.fold import Job, fold_each
from clubwright.journal.same_club import jobs_together
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.services.checks.job_ticket import ticket_of
from clubwright.services.record.job_index import Alike
from clubwright.services.record.session import Session
from clubwright.state.key import StateKey
from clubwright.state.ticket import Ticket

MOST = 200
"""Jobs that are folded: those that came in last."""


def other_jobs(session: Session, job: Job, kind: Alike, word: str) -> list[Job]:
    """Return the last job on each other club of one player, or with a shaft of one name, as these came in.

    The latest `MOST` jobs are looked at. A job that does not fold is told on its own page, and passed over here.

    Args:
        session: Who and where.
        job: The one whose club is left out.
        kind: What is alike.
        word: As `clubwright.services.record.job_lines.compared` has it.
    """
    found = session.ask(lambda index: index.alike(kind, word, MOST))
    places, names = {place for place, _ in found}, sorted({number for _, number in found})
    if not names:
        return []
    read = session.ledger.readable(names)
    damaged = {name: [item.finding] for item in read.damage for name in item.jobs}
    others = [other for other in fold_each(read.facts, damaged).jobs.values() if other.place in places]
    return _one_of_each_club(others, job, kind)


def _one_of_each_club(others: Iterable[Job], job: Job, kind: Alike) -> list[Job]:
    """Return the last job of each club that is not the one of a job: it has taken over what was read before.

    Where shafts are looked for, a club that got another one counts for each.
    """
    came = {other.place: other for other in (*others, job)}
    if kind == "shaft":
        came = {place: _apart(other) if other.order.job == "reshaft" else other for place, other in came.items()}
    clubs = [club for club in jobs_together(came) if job.place not in {each.place for each in club}]
    last = {club[-1].place for club in clubs}
    return [other for place, other in came.items() if place in last]


def _apart(job: Job) -> Job:
    return msgspec.structs.replace(job, earlier=None)


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
