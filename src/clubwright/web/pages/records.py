"""Records: what was built, its papers, and making it again with what differs today."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Annotated, Any

import msgspec
from fastapi import APIRouter, Query, Request
from fastapi.concurrency import run_in_threadpool
from fastapi.responses import RedirectResponse, Response

from clubwright.club.parts import KINDS
from clubwright.errors import ClubwrightError, Finding, InputError, NotAllowed
from clubwright.journal.reducers.fold import Job
from clubwright.labels.sheet.from_work import sheet_data
from clubwright.labels.sheet.sheet import build_sheet
from clubwright.labels.tag.data import TagData
from clubwright.labels.tag.from_work import tag_data
from clubwright.labels.tag.tag import USUAL_DPI, tag_label
from clubwright.printing import paper_of, print_paper
from clubwright.services.actions import door
from clubwright.services.actions.orders.renumbering import free_at
from clubwright.services.actions.register.payloads_record import MadeAgain
from clubwright.services.answer.club_answer import ClubAnswer, work_document
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.job_index import broken_with
from clubwright.services.record.search import STATES, Search, State
from clubwright.services.record.session import Session
from clubwright.services.report.as_built import as_built_record
from clubwright.services.report.build_again import make_again
from clubwright.ticket.again import with_typed
from clubwright.ticket.fields.fields import PRIORITIES
from clubwright.ticket.fields.printer import PAPERS
from clubwright.web.actions import Sent, one
from clubwright.web.rendering import page
from clubwright.web.sent import sent_of
from clubwright.web.sessions import AtSession
from clubwright.web.ticket_form import by_field
from clubwright.web.views.record_views import again_view, part_fields, record_view, results_of

router = APIRouter(include_in_schema=False)

PER_PAGE = 60


@router.get("/records")
def built(
    request: Request,
    session: AtSession,
    q: Annotated[str, Query(max_length=120)] = "",
    kind: Annotated[str, Query(max_length=20)] = "",
    state: Annotated[str, Query(max_length=10)] = "closed",
    since: Annotated[str, Query(max_length=10)] = "",
    until: Annotated[str, Query(max_length=10)] = "",
    sheet: Annotated[int, Query(ge=1, le=10_000)] = 1,
) -> Response:
    """Search the record."""
    findings: list[Finding] = []
    chosen: State = next((item for item in STATES if item == state), "closed")
    search = Search(
        words=q,
        kind=kind if kind in KINDS else "",
        state=chosen,
        since=_day("from", since, findings),
        until=_day("to", until, findings),
    )
    (jobs, count), broken, damage = session.ask(
        lambda index: (
            ([], 0) if findings else index.lines(search, PER_PAGE, (sheet - 1) * PER_PAGE),
            broken_with(index.broken(), q),
            index.findings(),
        )
    )
    return page(
        request,
        "records/list.html",
        status=422 if findings else 200,
        results=results_of(jobs),
        count=count,
        search={"q": q, "kind": search.kind, "state": chosen, "since": since, "until": until},
        kinds=KINDS,
        states=STATES,
        findings=findings,
        broken=broken,
        damage=damage,
        sheet=sheet,
        more=count > sheet * PER_PAGE,
    )


def _day(where: str, text: str, findings: list[Finding]) -> date | None:
    if not text.strip():
        return None
    try:
        return date.fromisoformat(text.strip())
    except ValueError:
        what, mend = f'"{text}" is no day', "Write year, month and day, such as 2026-11-25."
        findings.append(Finding(where=where, what=what, mend=mend))
        return None


@router.get("/records/{job}")
def record(request: Request, session: AtSession, job: str) -> Response:
    """Show one club as built."""
    state = session.job(job)
    again = session.ask(lambda index: index.made_again((state.id, *state.numbers)))
    return page(request, "records/one.html", view=record_view(state, answer_job(state, session.now()), again))


@router.get("/records/{job}/record.json")
def as_json(session: AtSession, job: str) -> Response:
    """Return the as-built record."""
    state = session.job(job)
    record = as_built_record(state, answer_job(state, session.now()))
    return Response(msgspec.json.format(record.json(), indent=2), media_type="application/json")


@router.get("/records/{job}/sheet.pdf")
def sheet(session: AtSession, job: str) -> Response:
    """Return the build sheet."""
    state, now = session.job(job), session.now()
    last = session.ledger.last_hash()
    data = sheet_data(answer_job(state, now, session.local), state, now.date().isoformat(), last)
    return Response(build_sheet(data), media_type="application/pdf")


@router.get("/records/{job}/tag.pdf")
def tag(session: AtSession, job: str) -> Response:
    """Return the tag label."""
    return Response(tag_label(_tag_data(session, job)), media_type="application/pdf")


@router.get("/records/{job}/tag.png")
def tag_picture(session: AtSession, job: str, dpi: int = USUAL_DPI) -> Response:
    """Return the tag label as a picture, for a label printer with so many dots an inch."""
    return Response(tag_label(_tag_data(session, job), format="png", dpi=dpi), media_type="image/png")


@router.get("/records/{job}/cards.pdf")
def cards(session: AtSession, job: str, step: Annotated[str, Query(max_length=40)] = "") -> Response:
    """Return pencil cards: of each step that is still to do, or of the one that is named."""
    return Response(paper_of(session, job, "cards", step=step), media_type="application/pdf")


@router.post("/records/{job}/print")
async def print_one(request: Request, session: AtSession, job: str) -> Response:
    """Print a paper on the workshop's printer, and say what the printer's command said."""
    sent = await sent_of(request)
    return await run_in_threadpool(_print, request, session, job, sent)


def _print(request: Request, session: Session, job: str, sent: Sent) -> Response:
    paper = next((item for item in PAPERS if item == one(sent, "paper")), None)
    if paper is None:
        mend = "Use the page's buttons."
        raise InputError([Finding(where="paper", what=f'no paper is called "{one(sent, "paper")}"', mend=mend)])
    printed = print_paper(session, job, paper, step=one(sent, "step"))
    return page(request, "records/printed.html", printed=printed)


def _tag_data(session: Session, job: str) -> TagData:
    state, now = session.job(job), session.now()
    return tag_data(answer_job(state, now, session.local), state, now.date().isoformat())


@router.get("/records/{job}/again")
def again(request: Request, session: AtSession, job: str) -> Response:
    """Show the ticket that would make this club again, beside the first."""
    return _again(request, session, session.job(job), {"id": [free_at(session)]})


@router.post("/records/{job}/again")
async def take_again(request: Request, session: AtSession, job: str) -> Response:
    """Show what differs with the parts typed, or take the new ticket."""
    sent = await sent_of(request)
    return await run_in_threadpool(_take_again, request, session, job, sent)


def _take_again(request: Request, session: Session, job: str, sent: Sent) -> Response:
    state = session.job(job)
    if one(sent, "do") != "take":
        return _again(request, session, state, sent)
    values = _typed(answer_job(state, session.now()), sent)
    try:
        payload = MadeAgain(job=job, number=one(sent, "id"), values=values)
        fact = door.act(session, "make-again", payload, one(sent, "key") or None).fact
    except NotAllowed:
        raise
    except InputError as refused:
        return _again(request, session, state, sent, findings=refused.findings)
    except (ClubwrightError, ValueError) as refused:
        mend = f"The next free number is {free_at(session)}."
        return _again(request, session, state, sent, findings=(Finding(where="number", what=str(refused), mend=mend),))
    return RedirectResponse(f"/tickets?taken={fact.what.job}", status_code=303)


def _new_document(state: Job, worked: ClubAnswer, sent: Sent) -> dict[str, Any]:
    """Return the new ticket: the first club as built, with what was typed of the new parts and of the promise."""
    return with_typed(make_again(state, worked, one(sent, "id")), _typed(worked, sent))


def _typed(worked: ClubAnswer, sent: Sent) -> dict[str, str]:
    order = {f"ticket.{key}": one(sent, key) for key in ("promised", "priority")}
    return order | {name: text for name, _ in part_fields(worked.club_state.ticket) if (text := one(sent, name))}


def _again(
    request: Request, session: Session, state: Job, sent: Sent, *, findings: tuple[Finding, ...] = ()
) -> Response:
    worked = answer_job(state, session.now())
    document = _new_document(state, worked, sent)
    new: ClubAnswer | None = None
    try:
        new = work_document(document, "new ticket", settings=session.settings())
    except InputError as refused:
        findings = (*findings, *(item for item in refused.findings if item not in findings))
    except ClubwrightError as refused:
        findings = (*findings, Finding(where="new ticket", what=str(refused), mend="Check the figures."))
    wrong = tuple(item for item in findings if item.severity == "error")
    beside: Mapping[str, tuple[str, ...]] = {
        name: tuple(f"{item.what}. {item.mend}" for item in items) for name, items in by_field(wrong).items() if name
    }
    typed = {name: one(sent, name) for name, _ in part_fields(worked.club_state.ticket)}
    return page(
        request,
        "records/again.html",
        status=422 if wrong else 200,
        view=again_view(state, worked, document, new, typed, beside),
        findings=wrong,
        beside=beside,
        gates=() if new is None else new.gates,
        promised=one(sent, "promised"),
        priority=one(sent, "priority"),
        priorities=PRIORITIES,
        key=one(sent, "key") or session.new_key(),
        seen=session.ledger.count(),
    )
