"""What must stand before a grip goes on for good: the joint has cured by its table, or the old grip is off."""

from __future__ import annotations

from clubwright.errors import Finding
from clubwright.journal.job import Job
from clubwright.services.jobs.job_answer import JobAnswer
from clubwright.services.jobs.step_needs import released

OLD_GRIP = "strip grip"
"""Step of the plan that takes the old grip off; done, or passed over by a person who says so."""


def before_grip(worked: JobAnswer, job: Job) -> tuple[Finding, ...]:
    """Return everything that is missing before the grip goes on; work without a joint and an old grip asks for nothing."""
    off = all(step.key != OLD_GRIP for step in worked.steps) or OLD_GRIP in job.steps_done
    if worked.club_state.ticket.job == "regrip" and not off:
        mend = f'Take it off and measure the bare butt, then say the step "{OLD_GRIP}" done.'
        return (Finding(where=OLD_GRIP, what="the old grip is not off by the record", mend=mend),)
    return released(worked, job)
