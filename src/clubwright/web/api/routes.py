"""The JSON interface, for programs: the jobs of the record, their plans, and a ticket that is worked and not kept."""

from __future__ import annotations

from typing import Annotated

from fastapi import Header, Path

from clubwright.services.answer.answer import findings_part
from clubwright.services.answer.belief_table import belief_part
from clubwright.services.answer.club_answer import work_document
from clubwright.services.answer.shop_settings import with_changes
from clubwright.services.jobs.closing import closing_part, closing_points
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.job_lines import said
from clubwright.services.report.plan_part import plan_part, step_part
from clubwright.services.told.answer import Answer
from clubwright.web.api import models as m
from clubwright.web.api.refusals import group, refusals
from clubwright.web.guard.csrf import OUR_HEADER
from clubwright.web.sessions import AtSession

router = group()

Job = Annotated[
    str, Path(pattern=m.JOB, description="Ticket number; NUMBER@BENCH where two gave it.", examples=["T-0054"])
]
Key = Annotated[
    str, Header(alias="Idempotency-Key", pattern=m.KEY, description="The same key again never records twice.")
]
Ours = Annotated[
    str, Header(alias=OUR_HEADER, pattern="^1$", description="Always 1: no other site's page can send it.")
]


@router.get("/jobs")
def jobs(session: AtSession) -> m.JobsOut:
    """List the jobs."""
    rows = []
    lines, broken_jobs, unknown = session.ask(lambda index: (index.every(), index.broken(), index.findings()))
    for job in lines:
        words = {name: said(job, name) for name in ("label", "player", "promised")}
        rows.append(m.JobRow(id=job.id, finished=job.finished is not None, **words))
    broken = [
        m.BrokenRow(id=job.id, label=job.label, player=job.player, findings=findings_part(job.findings))
        for job in broken_jobs
    ]
    return m.JobsOut(jobs=tuple(rows), broken=tuple(broken), findings=findings_part(unknown))


@router.get("/jobs/{job}", responses=refusals(404))
def one_job(session: AtSession, job: Job) -> m.JobOut:
    """Give the answer, the next step and the belief of a job."""
    state = session.job(job)
    worked = answer_job(state, session.now(), session.local)
    following = next((step for step in worked.steps if not step.done), None)
    return m.JobOut(
        id=state.id,
        finished=state.finished is not None,
        steps_done=tuple(state.steps_done),
        next_step=None if following is None else step_part(following),
        belief=belief_part(worked.club_state),
        answer=with_changes(worked.answer(), state, session.settings()),
        closing=closing_part(closing_points(state, worked)),
    )


@router.get("/jobs/{job}/plan", responses=refusals(404))
def plan(session: AtSession, job: Job) -> m.PlanOut:
    """Give every step of a job, with its figures and cautions."""
    worked = answer_job(session.job(job), session.now(), session.local)
    return m.PlanOut(steps=plan_part(worked.steps))


@router.post("/work", responses=refusals(403, 413, 415))
def work(session: AtSession, sent: m.WorkIn, _: Ours) -> Answer:
    """Work a ticket, with the shop's settings where it is silent, to its answer (`clubwright schema answer`)."""
    return work_document(sent.document, settings=session.settings()).answer()
