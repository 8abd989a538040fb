"""The ticket of a job as it stands, read but not worked: enough to take in a reading."""

from __future__ import annotations

from functools import lru_cache

from clubwright.errors import InputError
from clubwright.journal.fold import Job
from clubwright.state.ticket import Ticket
from clubwright.ticket.document_key import DocumentKey
from clubwright.ticket.read import read_ticket

KEPT = 64
"""So many tickets are kept read: one action asks for the same ticket several times."""


def ticket_of(job: Job) -> Ticket:
    """Return a job's ticket.

    Raises:
        InputError: with every finding, when its document cannot be taken.
    """
    return _read(DocumentKey(job.document), f"ticket {job.id}")


@lru_cache(maxsize=KEPT)
def _read(key: DocumentKey, source: str) -> Ticket:
    ticket, findings = read_ticket(key.document, source)
    if ticket is None:
        raise InputError(findings)
    return ticket
