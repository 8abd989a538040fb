"""The JSON interface on what the workshop says once: its settings, and a ticket from words that counts on them."""

from __future__ import annotations

from typing import Annotated, Any

from msgspec import Meta

from clubwright.services.actions.orders.new_ticket import new_ticket
from clubwright.services.actions.orders.renumbering import free_at
from clubwright.services.answer.answer import findings_part
from clubwright.services.jobs.minutes import job_times_part, open_times, open_times_part, times_now
from clubwright.services.told.answer import FindingAnswer
from clubwright.services.told.base import Told, says
from clubwright.services.told.times import JobTimesAnswer, OpenTimesAnswer
from clubwright.services.told.words import NewTicketAnswer
from clubwright.ticket.shorthand.reader import LONGEST
from clubwright.web.api import structs
from clubwright.web.api.refusals import group, refusals
from clubwright.web.api.routes import Ours
from clubwright.web.sessions import AtSession

router = group()


class WordsIn(structs.Taken, frozen=True, kw_only=True):
    """What somebody asked for."""

    words: Annotated[
        str,
        Meta(
            description="The words it was said in.",
            max_length=LONGEST,
            examples=["54 mid bounce, 35 1/4 to the cap, D4"],
        ),
    ]


class ShopOut(Told, frozen=True, kw_only=True):
    """The shop's settings as they are now."""

    source: Annotated[str, says("Name of their file; empty where there is none.")]
    tables: Annotated[dict[str, Any], says("What can be taken of them, as the tables of that file.")]
    findings: Annotated[tuple[FindingAnswer, ...], says("What is wrong with them.")]


@router.get("/shop")
def settings(session: AtSession) -> ShopOut:
    """Give the shop's settings as they are now."""
    found = session.settings()
    return ShopOut(source=found.source, tables=found.tables, findings=findings_part(found.findings))


@router.get("/minutes")
def all_minutes(session: AtSession) -> OpenTimesAnswer:
    """Give how long the work takes that is left on every open job, by the shop's minutes."""
    return open_times_part(open_times(session))


@router.get("/jobs/{job}/minutes", responses=refusals(404))
def minutes(session: AtSession, job: str) -> JobTimesAnswer:
    """Give how long each step of a job takes by the shop's minutes, and what is left."""
    return job_times_part(times_now(session, job))


@router.post("/new", responses=refusals(403, 413, 415))
def new(session: AtSession, sent: WordsIn, _: Ours) -> NewTicketAnswer:
    """Write a ticket from words, under the next free number; nothing is kept."""
    return new_ticket(sent.words, free_at(session), session.settings()).answer()
