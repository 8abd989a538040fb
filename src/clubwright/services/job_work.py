"""Work a job of the record: its document as folded, with what the journal knows of its progress."""

from __future__ import annotations

from datetime import datetime

import msgspec

from clubwright.journal.fold import Job
from clubwright.notation import parse
from clubwright.planning.gates import Progress
from clubwright.planning.steps import Step, plan_of
from clubwright.planning.weights import choices
from clubwright.services.cup import cup_findings
from clubwright.services.desk import moment_of
from clubwright.services.job_gates import gates_with_record
from clubwright.services.work import Worked, work_document


class WorkedJob(Worked, frozen=True, kw_only=True):
    """A worked ticket with its plan, some of whose steps are done."""

    steps: tuple[Step, ...]


def work_job(job: Job, now: datetime) -> WorkedJob:
    """Work a job as it stands at a moment.

    Raises:
        InputError: when its document no longer can be taken.
    """
    worked = work_document(job.document, f"ticket {job.id}", progress_of(job, now))
    cup = cup_findings(job, worked.situation.ticket, now)
    gates = gates_with_record(worked.gates, job, worked.situation.ticket, worked.cut, now)
    worked = msgspec.structs.replace(worked, findings=(*cup, *worked.findings), gates=gates)
    return with_plan(worked, frozenset(job.steps_done))


def with_plan(worked: Worked, done: frozenset[str] = frozenset()) -> WorkedJob:
    """Add the plan to a worked ticket."""
    best = choices(worked.situation)[0]
    steps = plan_of(worked.situation, worked.cut, best, worked.gates, done)
    fields = {name: getattr(worked, name) for name in Worked.__struct_fields__}
    return WorkedJob(steps=steps, **fields)


def progress_of(job: Job, now: datetime) -> Progress:
    """Say what the journal knows: glued or not, and how long the joint has been at which temperature."""
    if job.glued_at is None or job.glued_temperature is None:
        return Progress()
    kelvin = parse("temperature", job.glued_temperature, where="glued").value
    seconds = max((now - moment_of(job.glued_at)).total_seconds(), 0.0)
    return Progress(glued=True, cure=((seconds, kelvin),))
