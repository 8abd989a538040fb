"""The JSON interface to the workshop's printer."""

from __future__ import annotations

from typing import Annotated

from msgspec import Meta

from clubwright.printing import print_paper
from clubwright.services.told.kept import SentToPrinter
from clubwright.ticket.fields.printer import PaperKind
from clubwright.web.api import structs
from clubwright.web.api.refusals import group, refusals
from clubwright.web.api.routes import Job, Ours
from clubwright.web.sessions import AtSession

router = group()


class PrintIn(structs.Taken, frozen=True, kw_only=True):
    """Which paper is printed."""

    paper: Annotated[PaperKind, Meta(description="The build sheet, the tag, or pencil cards.")]
    step: Annotated[
        str, Meta(description="Of the cards: the one step that is wanted; empty for all still to do.", max_length=40)
    ] = ""


@router.post("/jobs/{job}/print", responses=refusals(403, 404, 409, 413, 415))
def print_one(session: AtSession, job: Job, sent: PrintIn, _: Ours) -> SentToPrinter:
    """Print a paper of a job on the workshop's printer, by the command in its settings; the record keeps nothing of it."""
    return print_paper(session, job, sent.paper, step=sent.step)
