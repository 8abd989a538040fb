"""The JSON interface of clubs that outlive their jobs: which jobs were on one."""

from __future__ import annotations

from clubwright.services.actions.orders.clubs import jobs_of_club
from clubwright.services.report.club_part import club_part
from clubwright.services.told.club import ClubJobsAnswer
from clubwright.web.api.refusals import group, refusals
from clubwright.web.api.routes import Job
from clubwright.web.sessions import AtSession

router = group()


@router.get("/jobs/{job}/club", responses=refusals(404))
def club(session: AtSession, job: Job) -> ClubJobsAnswer:
    """Give the club of a job: which it is, and the jobs on it."""
    return club_part(jobs_of_club(session, job))
