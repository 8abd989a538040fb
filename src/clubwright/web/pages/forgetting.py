"""The page on which a player is forgotten: look at what would be erased, then erase it by a held button."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.concurrency import run_in_threadpool
from fastapi.responses import Response

from clubwright.errors import ClubwrightError, Finding, InputError, NotAllowed
from clubwright.services.actions import door
from clubwright.services.actions.forgetting import FORGETS, UNREACHED, look_before
from clubwright.services.actions.forgetting_part import forgotten_part, look_part
from clubwright.services.actions.register.payloads_record import Forgetting
from clubwright.services.checks.roles import covers
from clubwright.services.record.session import Session
from clubwright.services.told.erased import ForgottenAnswer, LookAnswer
from clubwright.web.actions import Sent, one
from clubwright.web.rendering import page
from clubwright.web.sent import lines, sent_of
from clubwright.web.sessions import AtSession

router = APIRouter(include_in_schema=False)

MEND = "Look at it, and try again."


@router.get("/forget")
def ask(request: Request, session: AtSession) -> Response:
    """Ask whom to forget."""
    return _page(request, session, {})


@router.post("/forget")
async def act(request: Request, session: AtSession) -> Response:
    """Show what would be erased; or erase it, once somebody has looked and says so."""
    sent = await sent_of(request)
    return await run_in_threadpool(_act, request, session, sent)


def _act(request: Request, session: Session, sent: Sent) -> Response:
    try:
        player, also = one(sent, "player"), lines(sent, "also")
        if one(sent, "do") != "erase":
            return _page(request, session, sent, looked=look_part(look_before(session, player, also)))
        said = one(sent, "facts")
        facts = int(said) if said.isdecimal() and said.isascii() else -1
        key = one(sent, "key") or None
        if one(sent, "looked") != "yes":
            finding = Finding(
                where="looked", what="nobody said they looked", mend="Tick that you have looked, then tap."
            )
            return _page(
                request, session, sent, findings=(finding,), looked=look_part(look_before(session, player, also))
            )
        payload = Forgetting(player=player, asked_by=one(sent, "asked_by"), facts=facts, also=also)
        done = door.act(session, "forget", payload, key).forgotten
        return _page(request, session, {}, done=None if done is None else forgotten_part(done))
    except NotAllowed:
        raise
    except InputError as refused:
        return _page(request, session, sent, findings=refused.findings, looked=_looked(session, sent))
    except ClubwrightError as refused:
        return _page(request, session, sent, findings=(Finding(where="forget", what=str(refused), mend=MEND),))


def _looked(session: Session, sent: Sent) -> LookAnswer | None:
    try:
        return look_part(look_before(session, one(sent, "player"), lines(sent, "also")))
    except ClubwrightError:
        return None


def _page(
    request: Request,
    session: Session,
    sent: Sent,
    *,
    findings: tuple[Finding, ...] = (),
    looked: LookAnswer | None = None,
    done: ForgottenAnswer | None = None,
) -> Response:
    return page(
        request,
        "records/forget.html",
        status=422 if findings else 200,
        findings=findings,
        looked=looked,
        done=done,
        may_forget=covers(session.role, FORGETS),
        unreached=UNREACHED,
        typed={name: one(sent, name) for name in ("player", "also", "asked_by")},
        key=one(sent, "key") or session.new_key(),
    )
