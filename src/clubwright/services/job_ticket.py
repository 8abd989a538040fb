"""The ticket of a job as it stands, read but not worked: enough to take in a reading."""

from __future__ import annotations

from typing import Any

from clubwright.errors import Finding, InputError
from clubwright.journal.fold import Job
from clubwright.state.ticket import Ticket
from clubwright.ticket.exporting import document_of_ticket


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


def ticket_file_of(job: Job) -> dict[str, Any]:
    """Return the document of a job's ticket as it stands, for a ticket file; read again it gives the same ticket.

    A ticket that cannot be taken any more is written as the record has it, so that a person can mend it.
    """
    ticket = ticket_or_none(job)
    return job.document if ticket is None else document_of_ticket(ticket)


def read_job(job: Job) -> tuple[Ticket, tuple[Finding, ...]]:
    """Return a job's ticket, and what was found about it.

    Raises:
        InputError: likewise.
    """
    ticket, findings = job.read()
    if ticket is None:
        raise InputError(findings)
    return ticket, findings
