"""The step of the plan that an action completes: ticked in the transaction that keeps what it writes, or not at all."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import msgspec

from clubwright.errors import Finding, InputError
from clubwright.journal.facts import StepDone, What
from clubwright.journal.reducers.fold import Job
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.jobs.step_needs import lacking
from clubwright.services.record.session import Session


def with_step(session: Session, step: str, *, named: bool, once: Callable[[Job], bool] = lambda _: True) -> Session:
    """Return a session whose action ticks a step together with what it writes, once nothing that the step needs is missing.

    Args:
        session: Who and where.
        step: Key of the step.
        named: Whether a person named it: then a job that has no such step refuses the action, with all that it would write.
        once: Whether the action was the last of those that complete it, by the job as it is after.
    """

    def along(before: Job | None, after: Job) -> Sequence[tuple[What, str]]:
        if not once(after):
            return ()
        worked = answer_job(after, session.now())
        chosen = next((item.key for item in worked.steps if item.key == step), None)
        if chosen is None:
            if named and before is not None and (findings := not_planned(session, before, step)):
                raise InputError(findings)
            return ()
        if step in after.steps_done or lacking(chosen, worked, after):
            return ()
        return ((StepDone(job=after.id, step=step), f"done: {step}"),)

    return msgspec.structs.replace(session, along=along)


def not_planned(session: Session, job: Job, step: str) -> tuple[Finding, ...]:
    """Return what is wrong with the name of a step that the plan of a job has not; nothing where it has it."""
    keys = sorted(item.key for item in answer_job(job, session.now()).steps)
    mend = "Steps of this job: " + ", ".join(keys) + "."
    return () if step in keys else (Finding(where="step", what=f'no step is called "{step}"', mend=mend),)


def still_lacking(session: Session, job: Job, step: str) -> tuple[Finding, ...]:
    """Return what a step that is not done yet needs still; nothing of one that the plan has not."""
    worked = answer_job(job, session.now())
    chosen = next((item.key for item in worked.steps if item.key == step), None)
    return () if chosen is None or step in job.steps_done else lacking(chosen, worked, job)
