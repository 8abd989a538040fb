"""The order of an open job: what is changed of it, who said so, and why."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.concurrency import run_in_threadpool
from fastapi.responses import RedirectResponse, Response

from clubwright.errors import ClubwrightError, Finding, NotAllowed
from clubwright.services.actions import door
from clubwright.services.actions.making.pulling import pull_cautions
from clubwright.services.actions.register.payloads_record import HeadOff, Order
from clubwright.services.checks.job_ticket import ticket_of
from clubwright.services.checks.order_findings import WHO, WHY, said_now
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.jobs.signatures import void_signatures
from clubwright.services.record.session import Session
from clubwright.ticket.order_paths import ADHESIVE_NAME, is_of_the_sheet
from clubwright.web.actions import Sent, one
from clubwright.web.errors import findings_of, status_of
from clubwright.web.rendering import page
from clubwright.web.sent import going_on, sent_of
from clubwright.web.sessions import AtSession
from clubwright.web.views.order_view import order_groups

router = APIRouter(include_in_schema=False)
WAS = "was:"
"""Begins the name of what a field's figure was when the form was made."""


@router.get("/bench/{job}/order")
def show(request: Request, session: AtSession, job: str) -> Response:
    """Show the order of a job, to be changed."""
    return _page(request, session, job, {})


@router.post("/bench/{job}/order")
async def change(request: Request, session: AtSession, job: str) -> Response:
    """Change the order, all or nothing; another adhesive is first asked for its own data sheet."""
    sent = await sent_of(request)
    return await run_in_threadpool(_change, request, session, job, sent)


def _change(request: Request, session: Session, job: str, sent: Sent) -> Response:
    if one(sent, "do") == "pull":
        return _pull(request, session, job, sent)
    session.require("sign off")
    state = session.job(job)
    values = {name: text for name in going_on(sent, WAS) if (text := one(sent, name)) != one(sent, WAS + name)}
    another = values.get(ADHESIVE_NAME, said_now(state, ADHESIVE_NAME)) != said_now(state, ADHESIVE_NAME)
    if another and one(sent, "sheet") != values[ADHESIVE_NAME]:
        asked = {name: list(texts) for name, texts in sent.items() if not is_of_the_sheet(name)}
        return _page(request, session, job, asked, another=values[ADHESIVE_NAME])
    named = values[ADHESIVE_NAME] if another else ""
    clash = tuple(
        _changed_meanwhile(path, said_now(state, path), text)
        for path, text in values.items()
        if not (another and is_of_the_sheet(path)) and one(sent, WAS + path) != said_now(state, path) != text
    )
    if clash:
        return _page(request, session, job, sent, another=named, findings=clash, status=409)
    try:
        order = Order(job=job, values=values, said_by=one(sent, "said_by"), reason=one(sent, "reason"))
        door.act(session, "order", order, one(sent, "key") or None)
    except NotAllowed:
        raise
    except ClubwrightError as refused:
        findings, status = findings_of(refused), status_of(refused)
        return _page(request, session, job, sent, another=named, findings=findings, status=status)
    return RedirectResponse(f"/bench/{job}", status_code=303)


def _pull(request: Request, session: Session, job: str, sent: Sent) -> Response:
    who, why, heat = one(sent, "said_by"), one(sent, "reason"), one(sent, "heat") != "no"
    try:
        payload = HeadOff(job=job, said_by=who, reason=why, heat=heat)
        door.act(session, "pull-again", payload, one(sent, "key") or None)
    except NotAllowed:
        raise
    except ClubwrightError as refused:
        return _page(request, session, job, {}, findings=findings_of(refused), status=status_of(refused))
    return RedirectResponse(f"/bench/{job}", status_code=303)


def _changed_meanwhile(path: str, now: str, mine: str) -> Finding:
    what = f'somebody set it to "{now}" meanwhile; you typed "{mine}"'
    return Finding(where=path, what=what, mend="Save again to put yours in its place, or leave it.")


def _page(
    request: Request,
    session: Session,
    job: str,
    sent: Sent,
    *,
    another: str = "",
    findings: tuple[Finding, ...] = (),
    status: int = 200,
) -> Response:
    state = session.job(job)
    typed = {name: one(sent, name) for name in going_on(sent, WAS) if name in sent}
    return page(
        request,
        "bench/order.html",
        status=status,
        job=job,
        title=state.title,
        finished=state.finished is not None,
        groups=order_groups(state, ticket_of(state), typed, new_sheet=bool(another)),
        another=another,
        shop_has=another in session.settings().table("adhesive"),
        void=[item.sentence for item in void_signatures(state, answer_job(state, session.now()))],
        said_by=one(sent, "said_by"),
        reason=one(sent, "reason"),
        asked=(WHO, WHY),
        glued=state.glued_at is not None and state.finished is None,
        cautions=pull_cautions(state),
        findings=findings,
        key=one(sent, "key") or session.new_key(),
    )
