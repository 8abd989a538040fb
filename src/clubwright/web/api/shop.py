"""The JSON interface on what the workshop says once: its settings, and a ticket from words that counts on them."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter
from pydantic import Field

from clubwright.services.actions.orders.new_ticket import new_ticket
from clubwright.services.actions.orders.renumbering import free_at
from clubwright.services.answer.answer import findings_part
from clubwright.services.jobs.minutes import job_times_part, open_times, open_times_part, times_now
from clubwright.ticket.shorthand.reader import LONGEST
from clubwright.web.api import models as m
from clubwright.web.api.base import Given, Taken
from clubwright.web.api.refusals import refusals
from clubwright.web.api.routes import Ours
from clubwright.web.sessions import AtSession

router = APIRouter(prefix="/api", responses=refusals(401, 421, 422, 429))


class WordsIn(Taken):
    """What somebody asked for, in the words it was said in."""

    words: Annotated[str, Field(max_length=LONGEST, examples=["54 mid bounce, 35 1/4 to the cap, D4"])]


class NewOut(Given):
    """A ticket from words; its text is a ticket file, with a comment that names what must be filled in."""

    document: dict[str, Any]
    text: str
    findings: list[m.FindingOut]


class ShopOut(Given):
    """The shop's settings as they are now: what can be taken of them, and what is wrong; no source where there are none."""

    source: str
    tables: dict[str, Any]
    findings: list[m.FindingOut]


@router.get("/shop")
def settings(session: AtSession) -> ShopOut:
    """Give the shop's settings as they are now."""
    found = session.settings()
    findings = [m.FindingOut.model_validate(item.plain()) for item in findings_part(found.findings)]
    return ShopOut(source=found.source, tables=found.tables, findings=findings)


class TimesOut(Given):
    """Two sums of time in s: hands at work, and waiting for the cure."""

    hands_on_s: float
    waiting_s: float


class StepTimeOut(Given):
    """How long one step takes, and whether the club only waits at it."""

    key: str
    time_s: float
    waits: bool
    done: bool


class JobTimesOut(Given):
    """How long a job takes by the shop's minutes, and what of it is left."""

    steps: list[StepTimeOut]
    whole: TimesOut
    left: TimesOut


class OpenJobOut(Given):
    """What is left on one open job; null where it cannot be worked."""

    job: str
    title: str
    left: TimesOut | None


class OpenTimesOut(Given):
    """What is left on every open job, the most urgent first, and on all together."""

    jobs: list[OpenJobOut]
    left: TimesOut


@router.get("/minutes")
def all_minutes(session: AtSession) -> OpenTimesOut:
    """Give how long the work takes that is left on every open job, by the shop's minutes."""
    return OpenTimesOut.model_validate(open_times_part(open_times(session)))


@router.get("/jobs/{job}/minutes", responses=refusals(404))
def minutes(session: AtSession, job: str) -> JobTimesOut:
    """Give how long each step of a job takes by the shop's minutes, and what is left."""
    return JobTimesOut.model_validate(job_times_part(times_now(session, job)))


@router.post("/new", responses=refusals(403, 413, 415))
def new(session: AtSession, sent: WordsIn, _: Ours) -> NewOut:
    """Write a ticket from words, under the next free number; nothing is kept."""
    made = new_ticket(sent.words, free_at(session), session.settings())
    findings = [m.FindingOut.model_validate(item.plain()) for item in findings_part(made.findings)]
    return NewOut(document=made.document, text=made.text, findings=findings)
