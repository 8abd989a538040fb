"""The JSON interface on a job's ticket as a file."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter

from clubwright.importers.ticket_file import dump_ticket
from clubwright.journal.job_ticket import ticket_file_of
from clubwright.web.api.base import Given
from clubwright.web.api.refusals import refusals
from clubwright.web.sessions import AtSession

router = APIRouter(prefix="/api", responses=refusals(401, 421, 422, 429))


class TicketOut(Given):
    """The ticket of a job as it stands: its tables, and the same as the text of a ticket file."""

    document: dict[str, Any]
    text: str


@router.get("/jobs/{job}/ticket", responses=refusals(404))
def ticket(session: AtSession, job: str) -> TicketOut:
    """Give the ticket of a job; read again it gives the same ticket."""
    document = ticket_file_of(session.job(job))
    return TicketOut(document=document, text=dump_ticket(document))
