"""How long a job takes and what of it is left, by the minutes of the shop's settings; and the same for all open jobs."""

from __future__ import annotations

import math
from datetime import datetime

import msgspec

from clubwright.journal.job import Job
from clubwright.notation import render, units_shown
from clubwright.planning.steps.minutes import Times, left_of, sheet_cure_s, times_of
from clubwright.planning.steps.types import Step, StepKey
from clubwright.services.jobs.clocks import cure_left_s
from clubwright.services.jobs.job_answer import JobAnswer, answer_job
from clubwright.services.jobs.job_list import JobStatuses, waiting
from clubwright.services.record.job_lines import JobLine, said
from clubwright.services.record.search import Search
from clubwright.services.record.session import Session
from clubwright.services.told.times import (
    JobTimesAnswer,
    OpenJobAnswer,
    OpenTimesAnswer,
    StepTimeAnswer,
    TimesAnswer,
)
from clubwright.state.steps import WAITING
from clubwright.ticket.shop.settings import ShopSettings
from clubwright.words import on_page
from clubwright.words.say import say


class StepTime(msgspec.Struct, frozen=True, kw_only=True):
    """How long one step takes: its key, its title, the time, and whether it is done."""

    key: StepKey
    title: str
    time_s: float
    done: bool

    @property
    def waits(self) -> bool:
        """True where the club waits and the hands are free."""
        return self.key in WAITING


class JobTimes(msgspec.Struct, frozen=True, kw_only=True):
    """How long a job takes.

    Attributes:
        steps: Each step.
        whole: All steps together.
        left: Those that are not done.
    """

    steps: tuple[StepTime, ...]
    whole: Times
    left: Times


class OpenTimes(msgspec.Struct, frozen=True, kw_only=True):
    """What is left on all open jobs: each with its number, its club and its time, and the hands-on time together."""

    jobs: tuple[tuple[str, str, Times | None], ...]
    left: Times


def job_times(
    worked: JobAnswer, settings: ShopSettings, job: Job | None = None, now: datetime | None = None
) -> JobTimes:
    """Return how long a job takes, and what of it is left.

    Args:
        worked: Its plan.
        settings: The shop's, with its minutes.
        job: As the record has it, whose joint may be curing.
        now: The moment; needed with a job.
    """
    minutes, ticket = settings.minutes_s(), worked.club_state.ticket
    sheet = sheet_cure_s(ticket)
    left = cure_left_s(job, ticket, now) if job is not None and now is not None else sheet
    return JobTimes(
        steps=tuple(_step_time(step, minutes, sheet) for step in worked.steps),
        whole=times_of((step.key for step in worked.steps), minutes, sheet),
        left=times_of(left_of(worked.steps), minutes, left),
    )


def _step_time(step: Step, minutes: dict[str, float], cure_s: float | None) -> StepTime:
    times = times_of([step.key], minutes, cure_s)
    return StepTime(
        key=step.key, title=say(step.title, units_shown()), time_s=times.hands_on_s + times.waiting_s, done=step.done
    )


def open_times(session: Session, standings: JobStatuses | None = None) -> OpenTimes:
    """Return what is left on every open job, the most urgent first; one that cannot be worked has no time.

    Args:
        session: Whose record, and settings.
        standings: Where the jobs stood when they were asked for last.
    """
    now, minutes = session.now(), session.settings().minutes_s()
    known = JobStatuses() if standings is None else standings
    open_jobs, _ = session.ask(lambda index: index.lines(Search(state="open")))
    found: list[tuple[str, str, Times | None]] = []
    for item in waiting(open_jobs, now):
        standing = known.of(item.job, now, session.job)
        left = times_of(standing.left, minutes, standing.cure_left_s) if standing.of else None
        found.append((item.job.id, _title(item.job), left))
    return OpenTimes(jobs=tuple(found), left=sum((times for _, _, times in found if times is not None), Times()))


def _title(job: Job | JobLine) -> str:
    return ", ".join(filter(None, (said(job, "label") or said(job, "kind"), said(job, "player"))))


def times_text(times: Times) -> str:
    """Return both sums in words: ``1 h 20 min of work, 12 h waiting``."""
    work = on_page("time work", time=_whole_minutes(round(times.hands_on_s / 60.0)))
    return f"{work}, {_waiting(times.waiting_s)}" if times.waiting_s > 0 else work


def step_time_text(time: StepTime) -> str:
    """Return how long a step takes in words."""
    return _waiting(time.time_s) if time.waits else _whole_minutes(round(time.time_s / 60.0))


def _waiting(time_s: float) -> str:
    """Write a waiting time, rounded up as the step itself says it: a joint is never called ready early."""
    return on_page("time waiting", time=_whole_minutes(math.ceil(time_s / 60.0 - 1e-6)))


def _whole_minutes(minutes: int) -> str:
    return render("duration", 60.0 * minutes) if minutes > 0 else "0 min"


def times_part(times: Times) -> TimesAnswer:
    """Return both sums for programs."""
    return TimesAnswer(hands_on_s=times.hands_on_s, waiting_s=times.waiting_s)


def job_times_part(found: JobTimes) -> JobTimesAnswer:
    """Return how long a job takes for programs."""
    return JobTimesAnswer(
        left=times_part(found.left),
        steps=tuple(
            StepTimeAnswer(done=item.done, key=item.key, time_s=item.time_s, waits=item.waits) for item in found.steps
        ),
        whole=times_part(found.whole),
    )


def open_times_part(found: OpenTimes) -> OpenTimesAnswer:
    """Return what is left on the open jobs for programs."""
    return OpenTimesAnswer(
        jobs=tuple(
            OpenJobAnswer(job=job, left=None if times is None else times_part(times), title=title)
            for job, title, times in found.jobs
        ),
        left=times_part(found.left),
    )


def times_now(session: Session, job: str) -> JobTimes:
    """Return how long a job of the record takes, and what of it is left now.

    Raises:
        RecordError: when the record has no such job.
    """
    state, now = session.job(job), session.now()
    return job_times(answer_job(state, now, session.local), session.settings(), state, now)
