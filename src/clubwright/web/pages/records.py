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
from clubwright.journal.fold import Job
from clubwright.labels.from_work import sheet_data
from clubwright.labels.sheet import build_sheet
from clubwright.labels.tag import USUAL_DPI, tag_label
from clubwright.labels.tag_data import TagData
from clubwright.labels.tag_from_work import tag_data
from clubwright.services import bench
from clubwright.services.again import make_again
from clubwright.services.built import as_built_record
from clubwright.services.desk import Desk
from clubwright.services.job_index import broken_with
from clubwright.services.job_work import work_job
from clubwright.services.renumbering import free_at
from clubwright.services.search import STATES, Search, State
from clubwright.services.work import Worked, work_document
from clubwright.ticket.again import with_typed
from clubwright.ticket.fields import PRIORITIES
from clubwright.web.actions import Sent, one
from clubwright.web.desks import AtDesk
from clubwright.web.rendering import page
from clubwright.web.sent import sent_of
from clubwright.web.ticket_form import by_field
from clubwright.web.views.record_views import again_view, part_fields, record_view, results_of

router = APIRouter(include_in_schema=False)

PER_PAGE = 60


@router.get("/records")
def built(
    request: Request,
    desk: AtDesk,
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
    (jobs, count), broken, damage = desk.ask(
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
def record(request: Request, desk: AtDesk, job: str) -> Response:
    """Show one club as built."""
    state = desk.job(job)
    again = desk.ask(lambda index: index.made_again((state.id, *state.numbers)))
    return page(request, "records/one.html", view=record_view(state, work_job(state, desk.now()), again))


@router.get("/records/{job}/record.json")
def as_json(desk: AtDesk, job: str) -> Response:
    """Return the as-built record."""
    state = desk.job(job)
    plain = as_built_record(state, work_job(state, desk.now()))
    return Response(msgspec.json.format(msgspec.json.encode(plain), indent=2), media_type="application/json")


@router.get("/records/{job}/sheet.pdf")
def sheet(desk: AtDesk, job: str) -> Response:
    """Return the build sheet."""
    state, now = desk.job(job), desk.now()
    last = desk.ledger.last_hash()
    data = sheet_data(work_job(state, now, desk.local), state, now.date().isoformat(), last)
    return Response(build_sheet(data), media_type="application/pdf")


@router.get("/records/{job}/tag.pdf")
def tag(desk: AtDesk, job: str) -> Response:
    """Return the tag label."""
    return Response(tag_label(_tag_data(desk, job)), media_type="application/pdf")


@router.get("/records/{job}/tag.png")
def tag_picture(desk: AtDesk, job: str, dpi: int = USUAL_DPI) -> Response:
    """Return the tag label as a picture, for a label printer with so many dots an inch."""
    return Response(tag_label(_tag_data(desk, job), format="png", dpi=dpi), media_type="image/png")


def _tag_data(desk: Desk, job: str) -> TagData:
    state, now = desk.job(job), desk.now()
    return tag_data(work_job(state, now, desk.local), state, now.date().isoformat())


@router.get("/records/{job}/again")
def again(request: Request, desk: AtDesk, job: str) -> Response:
    """Show the ticket that would make this club again, beside the first."""
    return _again(request, desk, desk.job(job), {"id": [free_at(desk)]})


@router.post("/records/{job}/again")
async def take_again(request: Request, desk: AtDesk, job: str) -> Response:
    """Show what differs with the parts typed, or take the new ticket."""
    sent = await sent_of(request)
    return await run_in_threadpool(_take_again, request, desk, job, sent)


def _take_again(request: Request, desk: Desk, job: str, sent: Sent) -> Response:
    state = desk.job(job)
    if one(sent, "do") != "take":
        return _again(request, desk, state, sent)
    new = _new_document(state, work_job(state, desk.now()), sent)
    try:
        fact = bench.take_ticket(desk, new, f"record {job}", key=one(sent, "key") or None)
    except NotAllowed:
        raise
    except InputError as refused:
        return _again(request, desk, state, sent, findings=refused.findings)
    except (ClubwrightError, ValueError) as refused:
        mend = f"The next free number is {free_at(desk)}."
        return _again(request, desk, state, sent, findings=(Finding(where="number", what=str(refused), mend=mend),))
    return RedirectResponse(f"/tickets?taken={fact.what.job}", status_code=303)


def _new_document(state: Job, worked: Worked, sent: Sent) -> dict[str, Any]:
    """Return the new ticket: the first club as built, with what was typed of the new parts and of the promise."""
    order = {f"ticket.{key}": one(sent, key) for key in ("promised", "priority")}
    parts = {name: text for name, _ in part_fields(worked.situation.ticket) if (text := one(sent, name))}
    return with_typed(make_again(state, worked, one(sent, "id")), order | parts)


def _again(request: Request, desk: Desk, state: Job, sent: Sent, *, findings: tuple[Finding, ...] = ()) -> Response:
    worked = work_job(state, desk.now())
    document = _new_document(state, worked, sent)
    new: Worked | None = None
    try:
        new = work_document(document, "new ticket", settings=desk.settings())
    except InputError as refused:
        findings = (*findings, *(item for item in refused.findings if item not in findings))
    except ClubwrightError as refused:
        findings = (*findings, Finding(where="new ticket", what=str(refused), mend="Check the figures."))
    wrong = tuple(item for item in findings if item.severity == "error")
    beside: Mapping[str, tuple[str, ...]] = {
        name: tuple(f"{item.what}. {item.mend}" for item in items) for name, items in by_field(wrong).items() if name
    }
    typed = {name: one(sent, name) for name, _ in part_fields(worked.situation.ticket)}
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
        key=one(sent, "key") or desk.new_key(),
        seen=desk.ledger.count(),
    )
