"""The ticket of a job as it stands, read but not worked: enough to take in a reading."""

from __future__ import annotations

from clubwright.errors import InputError
from clubwright.journal.fold import Job
from clubwright.ticket.model import Ticket
from clubwright.ticket.read import read_ticket


def ticket_of(job: Job) -> Ticket:
    """Return a job's ticket.

    Raises:
        InputError: with every finding, when its document cannot be taken.
    """
    ticket, findings = read_ticket(job.document, f"ticket {job.id}")
    if ticket is None:
        raise InputError(findings)
    return ticket
