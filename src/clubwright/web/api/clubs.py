"""The JSON interface of clubs that outlive their jobs: which jobs were on one, the next one, and that two are one club."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from clubwright.services.actions import bench
from clubwright.services.actions.orders.clubs import jobs_of_club, next_ticket
from clubwright.services.report.club_part import club_part
from clubwright.services.told.club import ClubJobsAnswer
from clubwright.web.api import models as m
from clubwright.web.api.base import Taken, Text
from clubwright.web.api.refusals import group, refusals
from clubwright.web.api.routes import Job, Key, Ours, fact_out
from clubwright.web.sessions import AtSession

router = group()


class ClubIn(Taken):
    """A job is work on the same club as an earlier one."""

    club: Annotated[Text, Field(description="Ticket of an earlier job on the club.")]
    reason: Annotated[str, Field(min_length=1, max_length=1000, description="How it is known.")]


class NextJobIn(Taken):
    """The next job on a club of the record: the same order, the club as its last job left it."""

    number: Annotated[Text, Field(description="Number of the new ticket.")]
    work: Literal["regrip", "reshaft", "loft-lie", "weight"]


@router.get("/jobs/{job}/club", responses=refusals(404))
def club(session: AtSession, job: Job) -> ClubJobsAnswer:
    """Give the club of a job: which it is, and the jobs on it."""
    return club_part(jobs_of_club(session, job))


@router.post("/jobs/{job}/club", status_code=201, responses=refusals(403, 404, 409, 413, 415))
def say_club(session: AtSession, job: Job, sent: ClubIn, key: Key, _: Ours) -> m.FactOut:
    """Say that a job is work on the same club as an earlier one."""
    return fact_out(bench.say_club(session, job, sent.club, sent.reason, key))


@router.post("/jobs/{job}/next", status_code=201, responses=refusals(403, 404, 409, 413, 415))
def work_again(session: AtSession, job: Job, sent: NextJobIn, key: Key, _: Ours) -> m.FactOut:
    """Take the next job on a club: the same order, the club as its last job left it."""
    return fact_out(
        bench.take_ticket(session, next_ticket(session.job(job), sent.number, sent.work), f"record {job}", key)
    )
