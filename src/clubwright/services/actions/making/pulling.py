"""A head that is pulled again: the only way in which parts of a closed joint change."""

from __future__ import annotations

from clubwright.errors import InputError, RecordError
from clubwright.journal.facts import Fact, HeadPulled, What
from clubwright.journal.reducers.fold import Job
from clubwright.notation import units_shown
from clubwright.planning.cautions import cautions
from clubwright.services.checks.job_ticket import ticket_of
from clubwright.services.checks.payloads import payload_findings
from clubwright.services.record.session import Session
from clubwright.services.recording.recording import keep, require_open
from clubwright.words.say import say


def pull_head(session: Session, job: str, *, said_by: str, reason: str, heat: bool, key: str | None = None) -> Fact:
    """Record that a head that was glued on was pulled again: the steps of the joint are to do again, and it cures anew.

    Args:
        session: Who writes it down, and where.
        job: Ticket number.
        said_by: Who said so: the player or the clubmaker.
        reason: Why, in that person's words.
        heat: Whether heat was used.
        key: Idempotency key.

    Raises:
        InputError: without a name or a reason.
        RecordError: while the joint is open, or when the job is closed.
    """
    what = HeadPulled(job=job, said_by=said_by.strip(), reason=reason.strip(), heat=heat)

    def make(state: Job | None) -> What:
        standing = require_open(state, job)
        findings = payload_findings(what)
        if findings:
            raise InputError(findings)
        if standing.glued_at is None:
            raise RecordError(f"the joint of job {standing.id} is open: there is no head to pull")
        return what

    how = "by heat" if heat else "without heat"
    typed = f"head pulled again {how}; said by {what.said_by}: {what.reason}"
    return keep(session, job, make, typed=lambda _: typed, same=lambda found: found == what, key=key)


def pull_cautions(job: Job) -> tuple[str, ...]:
    """Return what can hurt, and what the heat may have spoiled."""
    shaft = ticket_of(job).club.shaft
    return (
        *AFTER_HEAT,
        *(say(text, units_shown()) for text in cautions("heat removal", shaft_material=shaft.material)),
    )


AFTER_HEAT = (
    "Heat may have weakened the tip of a graphite shaft: look at it before it is glued again; in doubt, take another shaft.",
    "Clean all old adhesive out of the bore and off the tip: what was heated no longer holds.",
)
"""Common practice, no source."""
