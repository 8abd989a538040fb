"""The ticket of a job as it stands, read but not worked: enough to take in a reading."""

from __future__ import annotations

from clubwright.errors import Finding, InputError
from clubwright.journal.job_ticket import read_whole
from clubwright.journal.reducers.fold import Job
from clubwright.state.ticket import Ticket


def ticket_of(job: Job) -> Ticket:
    """Return a job's ticket.

    Raises:
        InputError: with every finding, when it cannot be taken.
    """
    return read_job(job)[0]


def ticket_or_none(job: Job) -> Ticket | None:
    """Return a job's ticket; None while it cannot be taken, which is said where the job is worked."""
    try:
        return ticket_of(job)
    except InputError:
        return None


def read_job(job: Job) -> tuple[Ticket, tuple[Finding, ...]]:
    """Return a job's ticket, and what was found about it.

    Raises:
        InputError: likewise.
    """
    ticket, findings = read_whole(job)
    if ticket is None:
        raise InputError(findings)
    return ticket, findings
