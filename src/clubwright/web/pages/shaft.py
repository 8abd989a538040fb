"""The shaft of one club: stiffness and cuts, its trims, its set, its family. Cutting is the bench's own step.

The one thing that is kept from here is what the shaft's family says of it, when a person takes it over.
"""

from __future__ import annotations

from typing import Annotated

import msgspec
from fastapi import APIRouter, Query, Request
from fastapi.concurrency import run_in_threadpool
from fastapi.responses import RedirectResponse, Response

from clubwright.errors import ClubwrightError, Finding
from clubwright.journal.job_ticket import read_whole, shaft_of
from clubwright.journal.reducers.fold import Job
from clubwright.notation import canonical
from clubwright.services.actions import door
from clubwright.services.actions.register.payloads_record import FromFamily
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session
from clubwright.services.shaft.family import family_of
from clubwright.services.shaft.set_frequencies import same_player
from clubwright.services.shaft.what_if import OtherShaft, WhatIf, Wish, what_if
from clubwright.web.actions import Sent, one
from clubwright.web.errors import findings_of, status_of
from clubwright.web.rendering import page
from clubwright.web.sent import sent_of
from clubwright.web.sessions import AtSession
from clubwright.web.views.shaft_view import shaft_view

router = APIRouter(include_in_schema=False)


class Asked(msgspec.Struct, frozen=True, kw_only=True):
    """What would be otherwise, as typed on the page."""

    butt: str = ""
    head: str = ""
    other: str = ""


NOTHING_ASKED = Asked()


@router.get("/bench/{job}/shaft")
def show(
    request: Request,
    session: AtSession,
    job: str,
    trim: Annotated[str, Query(max_length=80)] = "",
    butt: Annotated[str, Query(max_length=80)] = "",
    head: Annotated[str, Query(max_length=80)] = "",
    other: Annotated[str, Query(max_length=80)] = "",
) -> Response:
    """Show one shaft; `trim` is the trim that is looked at, in whole micrometres.

    `butt`, `head` and `other` say what would be otherwise: off the butt, mass of the head, ticket of another shaft.
    """
    typist = session.typist()
    off, mass = canonical(butt.strip(), typist, "length"), canonical(head.strip(), typist, "mass")
    return _shown(request, session, job, trim=trim, asked=Asked(butt=off, head=mass, other=other.strip()))


@router.post("/bench/{job}/shaft")
async def use(request: Request, session: AtSession, job: str) -> Response:
    """Take over what the shaft's family says of it."""
    return await run_in_threadpool(_use, request, session, job, await sent_of(request))


def _use(request: Request, session: Session, job: str, sent: Sent) -> Response:
    try:
        payload = FromFamily(job=job, factor=one(sent, "factor"))
        door.act(session, "family", payload, one(sent, "key") or None)
    except ClubwrightError as refused:
        return _shown(request, session, job, findings=findings_of(refused), status=status_of(refused))
    return RedirectResponse(f"/bench/{job}/shaft#family", status_code=303)


def _thought_of(session: Session, state: Job, asked: Asked) -> tuple[WhatIf | None, tuple[Finding, ...]]:
    """Return what the change that is asked about would move, or why it cannot be told."""
    try:
        wish = Wish(butt=asked.butt, head=asked.head, shaft=_other(session, asked.other))
        return (None if wish.is_none else what_if(read_whole(state), wish)), ()
    except ClubwrightError as refused:
        return None, findings_of(refused)


def _other(session: Session, job: str) -> OtherShaft | None:
    if not job:
        return None
    known, findings = shaft_of(session.job(job))
    return OtherShaft(name=f"of {job}", known=known, findings=findings)


def _shown(
    request: Request,
    session: Session,
    job: str,
    *,
    trim: str = "",
    asked: Asked = NOTHING_ASKED,
    findings: tuple[Finding, ...] = (),
    status: int = 200,
) -> Response:
    state = session.job(job)
    view = shaft_view(
        answer_job(state, session.now()), state, same_player(session, state), family_of(session, state), trim=trim
    )
    thought, wrong = _thought_of(session, state, asked)
    return page(
        request,
        "bench/shaft.html",
        status=422 if wrong else status,
        view=view,
        findings=findings,
        asked=asked,
        thought=thought,
        wrong=wrong,
        key=session.new_key(),
    )
