"""What is waiting: open jobs by priority and promise, each with the step it stands at and what that waits for."""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterable
from datetime import datetime, timedelta

import msgspec

from clubwright.errors import ClubwrightError, InputError
from clubwright.journal.reducers.fold import Job
from clubwright.notation import units_shown
from clubwright.planning.steps.minutes import left_of
from clubwright.planning.steps.types import StepKey
from clubwright.services.jobs.clocks import cure_left_s
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.jobs.signatures import void_signatures
from clubwright.services.record.job_lines import JobLine, runs, said
from clubwright.services.record.session import moment_of
from clubwright.ticket.fields.fields import PRIORITIES
from clubwright.ticket.shorthand.promised import promised_moment
from clubwright.words.say import say

log = logging.getLogger("clubwright.services")
USUAL_PRIORITY = PRIORITIES[-1]
_FRESH = timedelta(minutes=1)
"""How long a standing that a running clock may change, of a cup or a cure, is taken as it was."""


class JobStatus(msgspec.Struct, frozen=True, kw_only=True):
    """Where a job stands.

    Attributes:
        step: The next step's title; empty when every step is done.
        number: Its number.
        of: How many steps there are.
        gates: Each gate with ``open``, ``signed`` or ``closed``.
        waits: Why the next closed gate is closed; empty when none is.
        left: Steps that are not done.
        cure_left_s: How long its joint still has to cure, s; None where that is not known.
    """

    step: str
    number: int
    of: int
    gates: tuple[tuple[str, str], ...]
    waits: str
    left: tuple[StepKey, ...] = ()
    cure_left_s: float | None = None


class JobRow(msgspec.Struct, frozen=True, kw_only=True):
    """One open job in the order of the list."""

    job: Job | JobLine
    priority: str
    promised: str
    due: datetime | None
    late: bool


def taken_at(job: Job | JobLine) -> datetime:
    """Return when the ticket came in."""
    return moment_of(job.trail[0].at)


def waiting(jobs: Iterable[Job | JobLine], now: datetime) -> list[JobRow]:
    """Return the open jobs: the most urgent first, then the earliest promise, then those that came first.

    A promise that cannot be read comes after those that can. It is counted from when it was made, in the bench's own time.
    """
    found = [_waiting(job, now) for job in jobs if job.finished is None]
    never = datetime.max.replace(tzinfo=now.tzinfo)
    return sorted(
        found,
        key=lambda item: (PRIORITIES.index(item.priority), item.due or never, taken_at(item.job), item.job.id),
    )


def _waiting(job: Job | JobLine, now: datetime) -> JobRow:
    promised, priority = said(job, "promised"), said(job, "priority")
    due = promised_moment(promised, _promise_made(job).astimezone(now.tzinfo)) if promised else None
    return JobRow(
        job=job,
        priority=priority if priority in PRIORITIES else USUAL_PRIORITY,
        promised=promised,
        due=due,
        late=due is not None and due < now,
    )


def _promise_made(job: Job | JobLine) -> datetime:
    """Return when the promise that stands was made: with the ticket, or with the change that set it last."""
    return taken_at(job) if job.promised_at is None else moment_of(job.promised_at)


class JobStatuses:
    """Where each job stands, worked once for each of its facts: a list of forty jobs would else be worked anew each time."""

    def __init__(self) -> None:
        self._found: dict[str, tuple[tuple[object, ...], datetime, JobStatus]] = {}

    def of(self, job: Job | JobLine, now: datetime, whole: Callable[[str], Job] | None = None) -> JobStatus:
        """Return where a job stands; one that cannot be worked says why instead.

        Args:
            job: The job, or its line.
            now: The moment.
            whole: Reads the job of a line by its name, where it has to be worked.
        """
        last = job.trail[-1]
        if isinstance(job, JobLine) and job.linked and whole is not None:
            # other jobs on its club change where it stands, and write nothing on it
            try:
                job = whole(job.id)
            except ClubwrightError as refused:
                return _cannot(refused)
        if isinstance(job, JobLine):
            mark: tuple[object, ...] = (units_shown(), last.site, last.sequence, last.at, job.facts)
        else:
            mark = (units_shown(), last.site, last.sequence, last.at, len(job.trail), job.also_open)
        there = self._found.get(job.id)
        if there is not None and there[0] == mark and (not runs(job) or timedelta(0) <= now - there[1] < _FRESH):
            return there[2]
        standing = _standing(job, now, whole)
        self._found[job.id] = (mark, now, standing)
        return standing


def _standing(listed: Job | JobLine, now: datetime, whole: Callable[[str], Job] | None) -> JobStatus:
    try:
        job = _whole(listed, whole)
        worked = answer_job(job, now)
    except ClubwrightError as refused:
        return _cannot(refused)
    except Exception as fault:  # of one job: the list of all the others goes on
        log.exception("job %s cannot be worked", listed.id)
        why = f"a fault of this program ({type(fault).__name__}): see this job on its own page"
        return JobStatus(step="cannot be worked", number=0, of=0, gates=(), waits=why)
    upcoming = next((step for step in worked.steps if not step.done), None)
    void = {item.gate for item in void_signatures(job, worked)}
    gates = tuple(
        (
            gate.step,
            "signed"
            if gate.step in job.gates_signed and gate.open and gate.step not in void
            else "open"
            if gate.open
            else "closed",
        )
        for gate in worked.gates
    )
    waits = next(
        (say(gate.why, units_shown()) for gate in worked.gates if not gate.open and gate.step not in job.gates_signed),
        "",
    )
    return JobStatus(
        step="" if upcoming is None else say(upcoming.title, units_shown()),
        number=len(worked.steps) if upcoming is None else upcoming.number,
        of=len(worked.steps),
        gates=gates,
        waits=waits,
        left=() if job.finished is not None else left_of(worked.steps),
        cure_left_s=cure_left_s(job, worked.club_state.ticket, now),
    )


def _cannot(refused: ClubwrightError) -> JobStatus:
    """Say where a job stands that cannot be worked, and the first reason why."""
    why = refused.findings[0].sentence() if isinstance(refused, InputError) else str(refused)
    return JobStatus(step="cannot be worked", number=0, of=0, gates=(), waits=why)


def _whole(job: Job | JobLine, whole: Callable[[str], Job] | None) -> Job:
    if isinstance(job, Job):
        return job
    if whole is None:
        raise TypeError("the line of a job is not worked: say how its job is read")
    return whole(job.id)
