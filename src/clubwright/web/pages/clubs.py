"""The club of a record: the jobs that were on it, the next one, and that another job was on the same club."""

from __future__ import annotations

from typing import Any, cast

from fastapi import APIRouter, Request
from fastapi.concurrency import run_in_threadpool
from fastapi.responses import RedirectResponse, Response

from clubwright.errors import ClubwrightError, Finding, InputError, NotAllowed
from clubwright.services.actions import door
from clubwright.services.actions.orders.clubs import ON_A_CLUB, jobs_of_club
from clubwright.services.actions.orders.renumbering import free_at
from clubwright.services.actions.register.payloads_record import NextJob, SameClub
from clubwright.services.record.job_lines import said
from clubwright.services.record.session import Session
from clubwright.services.report.club_part import club_part
from clubwright.web.actions import Sent, one
from clubwright.web.rendering import page
from clubwright.web.sent import sent_of
from clubwright.web.sessions import AtSession

router = APIRouter(include_in_schema=False)


@router.get("/records/{job}/club")
def club(request: Request, session: AtSession, job: str) -> Response:
    """Show the jobs on the club of a record, and what can be done with it next."""
    return _page(request, session, job, {})


@router.post("/records/{job}/club")
async def act(request: Request, session: AtSession, job: str) -> Response:
    """Take the next job on the club, or keep that this job is on the club of an earlier one."""
    sent = await sent_of(request)
    return await run_in_threadpool(_act, request, session, job, sent)


def _act(request: Request, session: Session, job: str, sent: Sent) -> Response:
    key = one(sent, "key") or None
    try:
        if one(sent, "do") == "say":
            payload = SameClub(job=job, club=one(sent, "club"), reason=one(sent, "reason"))
            door.act(session, "same-club", payload, key)
            return RedirectResponse(f"/records/{job}/club", status_code=303)
        following = NextJob(job=job, number=one(sent, "id"), work=cast("Any", one(sent, "work")))
        fact = door.act(session, "work-again", following, key).fact
    except NotAllowed:
        raise
    except InputError as refused:
        return _page(request, session, job, sent, tuple(item for item in refused.findings if item.severity == "error"))
    except (ClubwrightError, ValueError) as refused:
        mend = "Look at the jobs on this club."
        return _page(request, session, job, sent, (Finding(where="club", what=str(refused), mend=mend),))
    return RedirectResponse(f"/tickets?taken={fact.what.job}", status_code=303)


def _page(request: Request, session: Session, job: str, sent: Sent, findings: tuple[Finding, ...] = ()) -> Response:
    state, jobs = session.job(job), jobs_of_club(session, job)
    return page(
        request,
        "records/club.html",
        status=422 if findings else 200,
        job=job,
        label=said(state, "label") or said(state, "kind"),
        club=club_part(jobs),
        opened=[item.id for item in jobs if item.finished is None],
        sayable=(said(state, "job") or "build") in ON_A_CLUB and (len(jobs) == 1 or bool(state.worked_since)),
        since=state.worked_since,
        works=ON_A_CLUB,
        typed={name: one(sent, name) for name in ("id", "work", "club", "reason")},
        new_id=one(sent, "id") or free_at(session),
        findings=findings,
        key=one(sent, "key") or session.new_key(),
        seen=session.ledger.count(),
    )
