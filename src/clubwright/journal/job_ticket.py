"""The ticket of a job as it stands: read from its document, and written as one for a ticket file."""

from __future__ import annotations

from typing import Any

from clubwright.errors import Finding
from clubwright.journal.job import Job
from clubwright.state.club import KnownShaft
from clubwright.state.ticket import Ticket
from clubwright.ticket.exporting import document_of_ticket
from clubwright.ticket.read import read_shaft, read_ticket


def read_whole(job: Job) -> tuple[Ticket | None, tuple[Finding, ...]]:
    """Return a job's ticket, or None while it cannot be taken; and every finding about it."""
    return read_ticket(job.document, f"ticket {job.id}")


def shaft_of(job: Job) -> tuple[KnownShaft | None, tuple[Finding, ...]]:
    """Return the shaft of a job as it stands, whatever else of its ticket cannot be taken; None where it has none."""
    return read_shaft(job.document, f"ticket {job.id}")


def ticket_file_of(job: Job) -> dict[str, Any]:
    """Return the document of a job's ticket as it stands, for a ticket file; read again it gives the same ticket.

    A ticket that cannot be taken any more is written as the record has it, so that a person can mend it.
    """
    ticket, _ = read_whole(job)
    return job.document if ticket is None else document_of_ticket(ticket)
