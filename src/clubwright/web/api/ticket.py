"""The JSON interface on a job's ticket as a file."""

from __future__ import annotations

from typing import Annotated, Any

from clubwright.importers.ticket_file import dump_ticket
from clubwright.journal.job_ticket import ticket_file_of
from clubwright.services.told.base import Told, says
from clubwright.web.api.refusals import group, refusals
from clubwright.web.sessions import AtSession

router = group()


class TicketOut(Told, frozen=True, kw_only=True):
    """The ticket of a job as it stands."""

    document: Annotated[dict[str, Any], says("Its tables.")]
    text: Annotated[str, says("The same as the text of a ticket file.")]


@router.get("/jobs/{job}/ticket", responses=refusals(404))
def ticket(session: AtSession, job: str) -> TicketOut:
    """Give the ticket of a job; read again it gives the same ticket."""
    document = ticket_file_of(session.job(job))
    return TicketOut(document=document, text=dump_ticket(document))
