"""The JSON interface, for programs: the bench actions by name, with the checks, roles and record of the page."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated

from fastapi import Header, Path

from clubwright.journal.facts import Fact, kind_of
from clubwright.services.actions import bench
from clubwright.services.answer.answer import findings_part
from clubwright.services.answer.belief_table import belief_part
from clubwright.services.answer.club_answer import work_document
from clubwright.services.answer.shop_settings import with_changes
from clubwright.services.checks.usual_gauge import by_kind
from clubwright.services.jobs.closing import closing_part, closing_points
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.job_lines import said
from clubwright.services.report.plan_part import plan_part, step_part
from clubwright.services.told.answer import Answer
from clubwright.web.api import making as making
from clubwright.web.api import models as m
from clubwright.web.api.closing import AcceptIn
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


def fact_out(fact: Fact) -> m.FactOut:
    """Give a fact as this interface tells it."""
    return m.FactOut(
        site=fact.site,
        number=fact.sequence,
        at=fact.at,
        by=fact.by,
        kind=kind_of(fact.what),
        text=fact.typed,
        key=fact.key,
    )


def _records(path: str) -> Callable[[Callable[..., m.FactOut]], Callable[..., m.FactOut]]:
    """Route an action that writes one fact."""
    told = refusals(403, 404, 409, 413, 415)
    return router.post(path, status_code=201, responses=told, response_model=m.FactOut)


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


@_records("/tickets")
def take_ticket(session: AtSession, sent: m.TicketIn, key: Key, _: Ours) -> m.FactOut:
    """Take a ticket into the record."""
    return fact_out(bench.take_ticket(session, sent.document, sent.source, key, club=sent.club))


@_records("/jobs/{job}/readings")
def note_reading(session: AtSession, job: Job, sent: m.ReadingIn, key: Key, _: Ours) -> m.FactOut:
    """Keep a reading; one that does not fit is kept aside until a person decides."""
    fact = bench.note_reading(
        session,
        job,
        sent.quantity,
        sent.value,
        stage=sent.stage,
        weights=sent.weights,
        instrument=sent.instrument,
        repeats=sent.repeats,
        key=key,
        done_at=sent.done_at,
    )
    return fact_out(fact)


@_records("/jobs/{job}/decisions")
def decide(session: AtSession, job: Job, sent: m.DecisionIn, key: Key, _: Ours) -> m.FactOut:
    """Decide about a reading that does not fit."""
    return fact_out(
        bench.decide_reading(session, job, sent.reading, keep=sent.keep, reason=sent.reason, site=sent.site, key=key)
    )


@_records("/jobs/{job}/weights")
def fit_weights(session: AtSession, job: Job, sent: m.WeightsIn, key: Key, _: Ours) -> m.FactOut:
    """Record the weights that are on now."""
    return fact_out(bench.fit_weights(session, job, sent.weights, key))


@_records("/jobs/{job}/trims")
def trim(session: AtSession, job: Job, sent: making.TrimIn, key: Key, _: Ours) -> m.FactOut:
    """Record a trim of the tip or the butt."""
    return fact_out(bench.trim_shaft(session, job, sent.end, sent.amount, key))


@_records("/jobs/{job}/cuts")
def cut(session: AtSession, job: Job, sent: making.CutIn, key: Key, _: Ours) -> m.FactOut:
    """Record the cut to length; its gate must be open and signed.

    The same length again with a mass or a balance records what was measured of the cut shaft since.
    """
    measured = {"cut_mass": sent.cut_mass or "", "cut_balance_from_tip": sent.cut_balance_from_tip or ""}
    gauges = by_kind(sent.mass_gauge, sent.balance_gauge)
    return fact_out(
        bench.cut_shaft(
            session, job, sent.cut_length, key, short=sent.short, **measured, gauge=gauges, done_at=sent.done_at
        )
    )


@_records("/jobs/{job}/bends")
def bend(session: AtSession, job: Job, sent: making.BendIn, key: Key, _: Ours) -> m.FactOut:
    """Record the angles after a bend."""
    return fact_out(
        bench.bend_head(session, job, loft=sent.loft, lie=sent.lie, bounce=sent.bounce, key=key, done_at=sent.done_at)
    )


@_records("/jobs/{job}/tape")
def lay_tape(session: AtSession, job: Job, sent: making.TapeIn, key: Key, _: Ours) -> m.FactOut:
    """Record the tape laid."""
    return fact_out(bench.lay_tape(session, job, sent.name, sent.layers, sent.mass, key, gauge=sent.gauge))


@_records("/jobs/{job}/mixes")
def mix(session: AtSession, job: Job, sent: making.MixIn, key: Key, _: Ours) -> m.FactOut:
    """Record the adhesive mixed."""
    weighed = (sent.part_a, sent.part_b, sent.temperature, sent.batch)
    return fact_out(bench.mix_adhesive(session, job, *weighed, key, done_at=sent.done_at))


@_records("/jobs/{job}/glue")
def glue(session: AtSession, job: Job, sent: making.GlueIn, key: Key, _: Ours) -> m.FactOut:
    """Record that the joint is closed; its gate must be open and signed."""
    return fact_out(bench.glue(session, job, sent.temperature, key, done_at=sent.done_at))


@_records("/jobs/{job}/grip")
def grip(session: AtSession, job: Job, key: Key, _: Ours, sent: making.GripIn | None = None) -> m.FactOut:
    """Record that the grip is on."""
    return fact_out(bench.slide_grip(session, job, key, done_at=None if sent is None else sent.done_at))


@_records("/jobs/{job}/parts")
def change_part(session: AtSession, job: Job, sent: m.PartIn, key: Key, _: Ours) -> m.FactOut:
    """Record what was measured of a part, or another part in its place."""
    return fact_out(
        bench.change_part(session, job, sent.section, sent.values, key, another=sent.another, gauge=sent.gauge)
    )


@_records("/jobs/{job}/steps")
def do_step(session: AtSession, job: Job, sent: m.StepIn, key: Key, _: Ours) -> m.FactOut:
    """Record that a step is done, or passed over."""
    return fact_out(bench.do_step(session, job, sent.step, sent.note, key, skipped=sent.skipped))


@_records("/jobs/{job}/gates")
def sign_gate(session: AtSession, job: Job, sent: m.GateIn, key: Key, _: Ours) -> m.FactOut:
    """Sign a gate; the role must be sign off."""
    return fact_out(bench.sign_gate(session, job, sent.gate, key))


@_records("/jobs/{job}/acceptances")
def accept(session: AtSession, job: Job, sent: AcceptIn, key: Key, _: Ours) -> m.FactOut:
    """Accept by name how a target stands; the role must be sign off."""
    return fact_out(bench.accept(session, job, sent.quantity, name=sent.name, reason=sent.reason, key=key))


@_records("/jobs/{job}/number")
def renumber(session: AtSession, job: Job, sent: m.NumberIn, key: Key, _: Ours) -> m.FactOut:
    """Give a ticket another number."""
    return fact_out(bench.renumber(session, job, sent.number, key))


@_records("/jobs/{job}/undo")
def undo(session: AtSession, job: Job, sent: m.UndoIn, key: Key, _: Ours) -> m.FactOut:
    """Reverse a fact by a new one; a signature, or the end of a job, by who may sign off."""
    return fact_out(bench.undo(session, job, sent.fact, sent.reason, site=sent.site, key=key))


@_records("/jobs/{job}/finish")
def finish(session: AtSession, job: Job, key: Key, _: Ours) -> m.FactOut:
    """Close the job; the role must be sign off."""
    return fact_out(bench.finish(session, job, key))
