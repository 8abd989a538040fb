"""The JSON interface to what stands behind a number."""

from __future__ import annotations

from typing import Annotated

import msgspec
from fastapi import Path

from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.jobs.minutes import times_now
from clubwright.services.why.find import why_keys, why_of
from clubwright.services.why.told import Why
from clubwright.web.api.refusals import group, refusals
from clubwright.web.api.routes import Job
from clubwright.web.sessions import AtSession

router = group()
Key = Annotated[
    str,
    Path(
        max_length=200,
        description="Which number, by its place in the answer, such as `finished/swing_weight`; `why` lists them.",
        examples=["finished/swing_weight"],
    ),
]


class WhyKeys(msgspec.Struct, frozen=True, kw_only=True):
    """The key of every number that is shown of a job."""

    keys: tuple[str, ...]


@router.get("/jobs/{job}/why", responses=refusals(404))
def keys(session: AtSession, job: Job) -> WhyKeys:
    """List the key of every number of a job."""
    return WhyKeys(keys=why_keys(answer_job(session.job(job), session.now(), session.local)))


@router.get("/jobs/{job}/why/{key:path}", responses=refusals(404))
def why(session: AtSession, job: Job, key: Key) -> Why:
    """Give the budget, the readings, the equation, the theory page, the source and the tests behind a number."""
    state = session.job(job)
    return why_of(answer_job(state, session.now(), session.local), key, state, times_now(session, job))
