"""Tickets: what is waiting, promised when; one ticket, its priority and promise, its file."""

from __future__ import annotations

from typing import Annotated
from urllib.parse import quote

from fastapi import APIRouter, Query, Request
from fastapi.concurrency import run_in_threadpool
from fastapi.responses import PlainTextResponse, RedirectResponse, Response

from clubwright.errors import Finding, InputError
from clubwright.importers.ticket_file import dump_ticket
from clubwright.journal.job_ticket import ticket_file_of
from clubwright.journal.reducers.fold import Job
from clubwright.services.actions import door
from clubwright.services.actions.register.payloads import Measured
from clubwright.services.actions.register.payloads_record import Number
from clubwright.services.answer.shop_settings import changed_since
from clubwright.services.checks.job_ticket import ticket_or_none
from clubwright.services.jobs.job_list import USUAL_PRIORITY, JobStatuses, waiting
from clubwright.services.record.job_index import broken_with
from clubwright.services.record.job_lines import said
from clubwright.services.record.looking_up import name_of
from clubwright.services.record.search import Search
from clubwright.services.record.session import Session
from clubwright.ticket.fields.fields import PRIORITIES, TARGET
from clubwright.web.actions import Sent, one
from clubwright.web.pages import ticket_new
from clubwright.web.rendering import page
from clubwright.web.sent import sent_of
from clubwright.web.sessions import AtSession
from clubwright.web.views.ticket_list_view import lines_of
from clubwright.words import spoken

router = APIRouter(include_in_schema=False)
router.include_router(ticket_new.router)  # before /tickets/{job}, so that "new" is no ticket number

PER_PAGE = 40


@router.get("/tickets")
def show(
    request: Request,
    session: AtSession,
    q: Annotated[str, Query(max_length=120)] = "",
    taken: Annotated[str, Query(max_length=80)] = "",
    sheet: Annotated[int, Query(ge=1, le=10_000)] = 1,
) -> Response:
    """List the open jobs, the most urgent first."""
    now = session.now()
    (open_jobs, _), broken, damage, known = session.ask(
        lambda index: (
            index.lines(Search(words=q, state="open")),
            broken_with(index.broken(), q),
            index.findings(),
            bool(taken) and index.has_number(taken),
        )
    )
    items = waiting(open_jobs, now)
    shown = items[(sheet - 1) * PER_PAGE : sheet * PER_PAGE]
    return page(
        request,
        "tickets/list.html",
        lines=lines_of(shown, standings_of(request), now, session.job, session.settings().minutes_s()),
        q=q,
        taken=taken if known else "",
        count=len(items),
        broken=broken,
        damage=damage,
        sheet=sheet,
        more=len(items) > sheet * PER_PAGE,
    )


def standings_of(request: Request) -> JobStatuses:
    """Return this program's memory of where the jobs stand."""
    state = request.app.state
    if not hasattr(state, "standings"):
        state.standings = JobStatuses()
    found_: JobStatuses = state.standings
    return found_


@router.get("/tickets/{job}")
def one_ticket(request: Request, session: AtSession, job: str) -> Response:
    """Show one ticket: what is ordered, how soon, and what can be done with it."""
    return _ticket(request, session, session.job(job))


def _ticket(
    request: Request,
    session: Session,
    job: Job,
    *,
    sent: Sent | None = None,
    findings: tuple[Finding, ...] = (),
    status: int = 200,
) -> Response:
    standing = standings_of(request).of(job, session.now())
    ticket = ticket_or_none(job)
    ordered = () if ticket is None else ((field.key, ticket.text("target", field.key)) for field in TARGET.fields)
    rows = [(spoken("key", key), text, ticket.text("tolerance", key)) for key, text in ordered if ticket and text]
    return page(
        request,
        "tickets/one.html",
        status=status,
        job=job,
        said={
            key: said(job, key)
            for key in ("player", "label", "kind", "hand", "job", "priority", "promised", "asked", "note", "again_of")
        },
        priority=said(job, "priority") or USUAL_PRIORITY,
        priorities=PRIORITIES,
        rows=rows,
        standing=standing,
        sent={} if sent is None else sent,
        findings=findings,
        shop_changes=changed_since(job, session.settings()),
        key=session.new_key(),
        seen=session.ledger.count(),
    )


@router.post("/tickets/{job}")
async def change(request: Request, session: AtSession, job: str) -> Response:
    """Change how soon a ticket is needed, and when it is promised."""
    sent = await sent_of(request)
    return await run_in_threadpool(_change, request, session, job, sent)


def _change(request: Request, session: Session, job: str, sent: Sent) -> Response:
    state = session.job(job)
    values = {"priority": one(sent, "priority"), "promised": one(sent, "promised")}
    clash = _changed_meanwhile(state, sent, values)
    if clash:
        return _ticket(request, session, state, sent=sent, findings=clash, status=409)
    different = {key: value for key, value in values.items() if value != said(state, key)}
    if different:
        try:
            payload = Measured(job=job, section="ticket", values=different)
            door.act(session, "measure", payload, one(sent, "key") or None)
        except InputError as refused:
            return _ticket(request, session, state, sent=sent, findings=refused.findings, status=422)
    return RedirectResponse(f"/tickets/{job}", status_code=303)


@router.post("/tickets/{job}/number")
async def renumber(request: Request, session: AtSession, job: str) -> Response:
    """Give a ticket another number."""
    sent = await sent_of(request)
    return await run_in_threadpool(_renumber, request, session, job, sent)


def _renumber(request: Request, session: Session, job: str, sent: Sent) -> Response:
    try:
        payload = Number(job=job, number=one(sent, "number"))
        fact = door.act(session, "renumber", payload, one(sent, "key") or None).fact
    except InputError as refused:
        return _ticket(request, session, session.job(job), sent=sent, findings=refused.findings, status=422)
    name = session.job(name_of(fact)).id
    return RedirectResponse(f"/tickets/{quote(name, safe='@')}", status_code=303)


def _changed_meanwhile(job: Job, sent: Sent, values: dict[str, str]) -> tuple[Finding, ...]:
    """Say what somebody else set since the page was shown; the page then shows theirs, and keeps ours to be sent again."""
    found_ = []
    for key, mine in values.items():
        now = said(job, key)
        if f"was_{key}" in sent and one(sent, f"was_{key}") != now and mine != now:
            what = f'somebody set it to "{now}" meanwhile; you typed "{mine}"'
            found_.append(Finding(where=key, what=what, mend="Save again to put yours in its place, or leave it."))
    return tuple(found_)


@router.get("/tickets/{job}/ticket.toml")
def as_file(session: AtSession, job: str) -> Response:
    """Return the ticket as it stands, as a ticket file."""
    return PlainTextResponse(
        dump_ticket(ticket_file_of(session.job(job))),
        headers={"Content-Disposition": 'attachment; filename="ticket.toml"'},
    )
