"""A new ticket, three ways: words as they were said, a ticket file, or the form. Words always end in the form to confirm."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query, Request
from fastapi.concurrency import run_in_threadpool
from fastapi.responses import RedirectResponse, Response
from starlette.datastructures import UploadFile

from clubwright.errors import ClubwrightError, DocumentPlace, Finding, InputError, NotAllowed, NumberTaken
from clubwright.importers.ticket_file import parse_ticket
from clubwright.services.actions import door
from clubwright.services.actions.orders.renumbering import free_at
from clubwright.services.actions.register.payloads_record import Taken
from clubwright.services.answer.shop_settings import read_completed
from clubwright.services.record.session import Session
from clubwright.ticket.duplicate import same_order
from clubwright.ticket.shorthand.document import document_of
from clubwright.ticket.shorthand.reader import LONGEST, Shorthand, read_shorthand
from clubwright.web.actions import Sent, one
from clubwright.web.rendering import page
from clubwright.web.sent import sent_of
from clubwright.web.sessions import AtSession
from clubwright.web.ticket_form import Document, Filled, of_document, of_sent
from clubwright.web.ticket_form_fields import LISTS
from clubwright.web.views.ticket_form_view import form_view

router = APIRouter(include_in_schema=False)


@router.get("/tickets/new")
def ways(request: Request, session: AtSession) -> Response:
    """Offer the three ways."""
    return _ways(request, session)


def _ways(
    request: Request,
    session: Session,
    *,
    text: str = "",
    findings: tuple[Finding, ...] = (),
    key: str = "",
    status: int = 200,
) -> Response:
    return page(
        request,
        "tickets/new.html",
        status=status,
        text=text,
        findings=findings,
        longest=LONGEST,
        number=free_at(session),
        key=key or session.new_key(),
        seen=session.ledger.count(),
    )


@router.post("/tickets/new/file")
async def from_file(request: Request, session: AtSession) -> Response:
    """Take a ticket file, pasted or uploaded."""
    async with request.form() as form:
        chosen, pasted, key = form.get("file"), form.get("text"), form.get("key")
        text, name = (pasted if isinstance(pasted, str) else ""), "pasted text"
        findings: list[Finding] = []
        if isinstance(chosen, UploadFile) and chosen.filename:
            if text.strip():
                what, mend = "a file was chosen and text was pasted too", "Send one of them."
                findings.append(Finding(where="ticket", what=what, mend=mend))
            name = chosen.filename
            try:
                text = (await chosen.read()).decode("utf-8-sig")
            except UnicodeDecodeError:
                findings.append(Finding(where=name, what="not a text file", mend="Save it as plain text (UTF-8)."))
    if not text.strip() and not findings:
        mend = "Paste the ticket's text, or choose its file."
        findings.append(Finding(where="ticket", what="nothing was sent", mend=mend))
    return await run_in_threadpool(
        _take_text, request, session, text, name, key if isinstance(key, str) else "", findings
    )


def _take_text(request: Request, session: Session, text: str, name: str, key: str, findings: list[Finding]) -> Response:
    if not findings:
        try:
            document = parse_ticket(text, name)
            fact = door.act(session, "take", Taken(document=document, source=name), key or None).fact
        except (ClubwrightError, ValueError) as refused:
            findings += _findings(refused, session)
        else:
            return RedirectResponse(f"/tickets?taken={fact.what.job}", status_code=303)
    return _ways(request, session, text=text, findings=tuple(findings), key=key, status=422)


@router.get("/tickets/new/form")
def form(
    request: Request,
    session: AtSession,
    words: Annotated[str, Query(max_length=LONGEST)] = "",
    like: Annotated[str, Query(max_length=80)] = "",
) -> Response:
    """Show the form: empty, from words, or from another ticket's order."""
    shorthand = None
    document: Document = {"ticket": {}}
    if like:
        document = same_order(session.job(like).document, "")
    elif words.strip():
        shorthand = read_shorthand(words, session.typist())
        document = document_of(shorthand)
    document["ticket"]["id"] = free_at(session)
    findings = () if shorthand is None else shorthand.notes
    return _form(request, session, of_document(document), shorthand=shorthand, findings=findings, like=like)


def _form(
    request: Request,
    session: Session,
    filled: Filled,
    *,
    shorthand: Shorthand | None = None,
    findings: tuple[Finding, ...] = (),
    key: str = "",
    like: str = "",
    more: str = "",
    checked: bool = False,
    left_out: bool = False,
    status: int = 200,
) -> Response:
    view = form_view(
        filled,
        key=key or session.new_key(),
        seen=session.ledger.count(),
        findings=findings,
        shorthand=shorthand,
        more=more,
        left_out=left_out,
    )
    return page(request, "tickets/form.html", status=status, view=view, like=like, checked=checked, longest=LONGEST)


@router.post("/tickets/new/form")
async def send(request: Request, session: AtSession) -> Response:
    """Add a line, check, or take the ticket; nothing is kept before it is taken."""
    sent = await sent_of(request)
    return await run_in_threadpool(_send, request, session, sent)


def _send(request: Request, session: Session, sent: Sent) -> Response:
    filled, asked, key, like = of_sent(sent), one(sent, "asked"), one(sent, "key"), one(sent, "like")
    shorthand = read_shorthand(asked, session.typist()) if asked and one(sent, "from_words") else None
    left_out = one(sent, "left_out") == "yes"
    more = one(sent, "add")
    if more in LISTS:
        return _form(request, session, filled, shorthand=shorthand, key=key, like=like, more=more, left_out=left_out)
    key_used = _kept_before(session, filled, key)
    findings = _unread(shorthand, left_out=left_out)
    findings += read_completed(filled.document, "form", session.settings())[1]
    findings += [] if key_used else _number_findings(session, filled)
    if one(sent, "do") == "take" and not _has_error(findings):
        try:
            payload = Taken(document=filled.document, source="words" if shorthand else "form")
            fact = door.act(session, "take", payload, key or None).fact
            return RedirectResponse(f"/tickets?taken={fact.what.job}", status_code=303)
        except (ClubwrightError, ValueError) as refused:
            findings += [item for item in _findings(refused, session) if item not in findings]
    failed = _has_error(findings)
    return _form(
        request,
        session,
        filled,
        shorthand=shorthand,
        findings=tuple(findings),
        key=key,
        like=like,
        checked=not failed,
        left_out=left_out,
        status=422 if failed else 200,
    )


def _has_error(findings: list[Finding]) -> bool:
    return any(item.severity == "error" for item in findings)


def _kept_before(session: Session, filled: Filled, key: str) -> bool:
    """True when this very form was taken already: a second tap gets the same answer, not a number that is gone."""
    number = str(filled.document["ticket"].get("id", ""))
    return bool(key) and any(fact.key == key for fact in session.ledger.facts(number))


def _unread(shorthand: Shorthand | None, *, left_out: bool) -> list[Finding]:
    """Ask for a decision about the words that were not understood."""
    if shorthand is None or not shorthand.left or left_out:
        return []
    words = ", ".join(f'"{item.words}"' for item in shorthand.left)
    mend = "Say them in other words, or tick that they are left out knowingly; the note may keep them."
    return [Finding(where="words", what=f"not understood: {words}", mend=mend)]


def _number_findings(session: Session, filled: Filled) -> list[Finding]:
    number = str(filled.document["ticket"].get("id", ""))
    if not number or not session.ask(lambda index: index.has_number(number)):
        return []
    mend = f"The next free number is {free_at(session)}."
    return [
        Finding(
            where=DocumentPlace("ticket", ("id",), source="form"), what=f"{number} is already in the record", mend=mend
        )
    ]


def _findings(refused: Exception, session: Session) -> list[Finding]:
    """Turn any refusal into findings; a number that is taken stands beside its field."""
    if isinstance(refused, NotAllowed):
        raise refused
    if isinstance(refused, InputError):
        return list(refused.findings)
    text = str(refused).strip()
    if isinstance(refused, NumberTaken):
        mend = f"The next free number is {free_at(session)}."
        return [
            Finding(
                where=DocumentPlace("ticket", ("id",), source="form"),
                what="this number is already in the record",
                mend=mend,
            )
        ]
    return [Finding(where="ticket", what=text, mend="Put it right and send it again.")]
