"""Clubs outlive their jobs: how the last job on one left it, the next job, and that two jobs were on one club.

A job says which club it works on by naming an earlier job of it (`[ticket] club`), or a person says so later. A job that
names none is a club of its own.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import msgspec

from clubwright.errors import DocumentPlace, Finding, InputError
from clubwright.journal.facts import ClubCameBack, ClubSaid, Fact, Place, What
from clubwright.journal.reducers.fold import Job
from clubwright.journal.reducers.next_job import document_as_left, holds_its_club, next_document
from clubwright.planning.club_state import ClubState
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.club_jobs import came_in, club_jobs
from clubwright.services.record.job_lines import said
from clubwright.services.record.looking_up import look_up
from clubwright.services.record.session import Session
from clubwright.services.recording.recording import keep, require_open
from clubwright.ticket.fields.fields import JOBS
from clubwright.ticket.rows.typed import order_of

ON_A_CLUB = tuple(job for job in JOBS if job != "build")
"""Work on a club that is there already."""


class Left(msgspec.Struct, frozen=True, kw_only=True):
    """A job that another one on its club comes after.

    Attributes:
        job: Number that it was taken under.
        place: The fact that took it in.
        name: Name that it goes by.
        as_left: Its document as it has left the club; None for a ticket that holds all of that itself.
    """

    job: str
    place: Place
    name: str
    as_left: dict[str, Any] | None


def jobs_of_club(session: Session, job: str) -> tuple[Job, ...]:
    """Return all jobs on the club of one job, the first one first; that job alone when it names no club and none names it.

    Raises:
        NotInRecord: when the record has no such ticket.
    """
    return club_jobs(session.ledger, session.job(job))


def as_left(job: Job, club_state: ClubState) -> dict[str, Any]:
    """Return the document of a job as it leaves the club: what is not decided is left out, the weights on it are said.

    Args:
        job: The job.
        club_state: What is believed of its club.
    """
    aside = {item.reading.where for item in club_state.learned.set_aside}
    places = {place for place, entry in enumerate(club_state.ticket.readings) if entry.where in aside}
    return document_as_left(job, places, [float(count) for count in club_state.fitted_now[0]])


def club_of_ticket(session: Session, document: Mapping[str, Any]) -> Left | None:
    """Return how the last job left the club that a ticket is work on; None for a ticket that names no club.

    A file that holds the club's own readings and changes (written from a job of the record) is taken as it stands.

    Raises:
        InputError: when the record has no such club, or the work is a new build.
    """
    order = order_of(document)
    club = order.club.strip()
    if not club:
        return None
    whole = holds_its_club(document)
    if not whole:
        _require_work(order.job or "build")
    first = look_up(session.ledger, club).job()
    if first is None:
        if whole:
            return None
        mend = "Name an earlier job on the club, or leave club out: then it is a club that the record has not."
        raise InputError(
            [Finding(where=DocumentPlace("ticket", ("club",)), what=f'the record has no ticket "{club}"', mend=mend)]
        )
    jobs = club_jobs(session.ledger, first)
    # the same ticket sent again finds itself among them
    others = [job for job in jobs if job.numbers[0] != order.id] or list(jobs)
    return _left(session, others[-1], whole=whole)


def next_ticket(job: Job, new_id: str, work: str) -> dict[str, Any]:
    """Return the ticket of the next job on a job's club: the same order, its parts not typed again.

    Args:
        job: A closed job on the club.
        new_id: Number of the new ticket.
        work: The work asked for.

    Raises:
        InputError: for work that makes a new club.
    """
    _require_work(work)
    return next_document(job, new_id.strip(), work)


def say_club(session: Session, job: str, club: str, reason: str, key: str | None = None) -> Fact:
    """Record that a job is work on the same club as an earlier one: what was read then counts for this job's belief too.

    Said again of a job that is on the club already, it begins from the club as the job before it has left it by now.

    Args:
        session: Who and where.
        job: The later job; open or closed.
        club: An earlier job.
        reason: How it is known.
        key: Idempotency key.

    Raises:
        InputError: without a reason, or where the two cannot be one club in this order.
        NotInRecord: when the record has not both.
    """
    places = {each.place for each in jobs_of_club(session, club)}

    def make(state: Job | None) -> What:
        standing = require_open(state, job)
        left = _before(session, standing, club, reason)
        assert left.as_left is not None  # of a job that is there
        return ClubSaid(
            job=job,
            earlier=left.place,
            earlier_job=left.job,
            as_left=left.as_left,
            reason=reason.strip(),
        )

    def beside(what: What) -> Sequence[What]:
        assert isinstance(what, ClubSaid)  # what is made above
        return [ClubCameBack(job=what.earlier_job, subject=what.earlier, later_job=what.job)]

    def same(what: What) -> bool:
        return isinstance(what, ClubSaid) and what.reason == reason.strip() and what.earlier in places

    def typed(what: What) -> str:
        return f"the club of {club}: {reason.strip()}" if isinstance(what, ClubSaid) else f"the club came back: {job}"

    return keep(session, job, make, typed=typed, same=same, key=key, beside=beside)


def _left(session: Session, job: Job, *, whole: bool = False) -> Left:
    leaves = None if whole else as_left(job, answer_job(job, session.now()).club_state)
    return Left(job=job.numbers[0], place=job.place, name=job.id, as_left=leaves)


def _before(session: Session, job: Job, club: str, reason: str) -> Left:
    """Return the last job on a club that came in before a job, as it has left the club by now."""
    findings = []
    if not reason.strip():
        mend = "Write it, such as: its serial."
        findings.append(Finding(where="reason", what="nobody says how it is known", mend=mend))
    jobs = jobs_of_club(session, club)
    came = came_in(session.ledger, (*jobs, job))
    before = [each for each in jobs if came.index(each.place) < came.index(job.place)]
    on_it = any(each.place == job.place for each in jobs)
    if job.earlier is not None and not on_it:
        mend = "Undo what said so first, where it is wrong."
        findings.append(Finding(where="club", what=f"job {job.id} is on the club of {job.earlier_job}", mend=mend))
    elif on_it and (not before or (before[-1].place == job.earlier and not job.worked_since)):
        mend = "There is nothing to say."
        findings.append(Finding(where="club", what=f"job {job.id} is on that club already", mend=mend))
    elif not before:
        mend = "Say it of the later job."
        findings.append(Finding(where="club", what=f"job {jobs[0].id} came in later than {job.id}", mend=mend))
    if findings:
        raise InputError(findings)
    _require_work(said(job, "job") or "build")
    return _left(session, before[-1])


def _require_work(work: object) -> None:
    if work not in ON_A_CLUB:
        mend = "Write the work on it: " + ", ".join(ON_A_CLUB) + "."
        raise InputError(
            [
                Finding(
                    where=DocumentPlace("ticket", ("job",)),
                    what=f'"{work}" is no work on a club that is there',
                    mend=mend,
                )
            ]
        )
