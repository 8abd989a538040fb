"""Who signed what, on the build sheet: gates, the joint, the end of the job, and what was accepted by name."""

from __future__ import annotations

from clubwright.journal.reducers.fold import Job
from clubwright.services.jobs.job_answer import JobAnswer
from clubwright.services.jobs.signatures import void_signatures
from clubwright.services.record.done_at import minute
from clubwright.services.report.as_built import as_built_rows
from clubwright.words import spoken


def signed_lines(job: Job, worked: JobAnswer) -> tuple[str, ...]:
    """Return every signature of a job, then every acceptance."""
    return (*_signatures(job, worked), *_acceptances(job, worked))


def _signatures(job: Job, worked: JobAnswer) -> tuple[str, ...]:
    void = void_signatures(job, worked)
    gone = {item.gate for item in void}
    signed = [
        (f"{spoken('sheet', 'gate')} {spoken('sheet', step)}", mark)
        for step, mark in job.gates_signed.items()
        if step not in gone
    ]
    signed += [(f"{spoken('sheet', 'void: gate')} {spoken('sheet', item.gate)}", item.signed) for item in void]
    if job.glued is not None:
        signed.append((spoken("sheet", "joint glued"), job.glued))
    if job.finished is not None:
        signed.append((spoken("sheet", "finished"), job.finished))
    return tuple(f"{what}: {mark.by}, {minute(mark.at)}" for what, mark in signed)


def _acceptances(job: Job, worked: JobAnswer) -> tuple[str, ...]:
    return tuple(
        f"{spoken('quantity', row.key)} {spoken('sheet', 'accepted')}: {row.accepted_by}, {row.accepted_because}"
        for row in as_built_rows(worked, job)
        if row.accepted_by
    )
