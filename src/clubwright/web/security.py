"""The gate of every request: how large, from where, how often, who, and whether our own page sent it."""

from __future__ import annotations

from datetime import datetime
from http.cookies import SimpleCookie
from urllib.parse import quote, unquote_plus

from fastapi import FastAPI, Request
from fastapi.responses import RedirectResponse, Response
from starlette.types import ASGIApp, Receive, Scope, Send

from clubwright.errors import Finding, InputError
from clubwright.notation.own import AS_THE_SHOP, own_of
from clubwright.services.answer.answer import findings_part
from clubwright.services.checks.roles import Role
from clubwright.web.errors import answer
from clubwright.web.guard import csrf
from clubwright.web.guard.access import Access, open_access
from clubwright.web.guard.headers import with_headers
from clubwright.web.guard.limits import (
    BODY_BYTES,
    FORM_TYPES,
    LeftMeanwhile,
    TooLarge,
    address_findings,
    check_json,
    read_body,
    read_form,
    replay,
)
from clubwright.web.session import OWN_COOKIE, THEMES, Visitor, own_of_cookie
from clubwright.web.settings import WebSettings

OPEN_TO_ALL = ("/sign-in", "/static/")
"""What a person needs before they have signed in."""


def secure(app: FastAPI, settings: WebSettings) -> None:
    """Put the gate before every route.

    Raises:
        NotPossible: when the network is to be opened and nobody may sign off.
    """
    access = open_access(settings)
    app.state.access = access
    app.add_middleware(Gate, access=access, settings=settings)


class Gate:
    """ASGI middleware; plain, so that streams pass through it unchanged."""

    def __init__(self, app: ASGIApp, access: Access, settings: WebSettings) -> None:
        self.app, self.access, self.settings = app, access, settings

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let a request through with its visitor, or answer why not."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        request = Request(scope, receive)
        now: datetime = request.app.state.session.now()
        cookies: list[str] = []
        sending = with_headers(send, scope["path"], scope["query_string"], cookies)
        visit = csrf.visit_of(request, self.access)
        if visit is None:
            visit = csrf.new_visit(self.access)
            cookies.append(self._cookie(self.access.visit_cookie, visit))
        request.state.visitor = self._visitor(request, visit, now)
        refused = self._at_the_door(request, now)
        if refused is None and request.method == "POST":  # no route takes another method that changes anything
            try:
                body = await read_body(receive, request.headers.get("content-length"))
            except LeftMeanwhile:
                return
            except TooLarge:
                refused = _refusal(request, 413, f"This is too large: at most {BODY_BYTES // 1024} kB are taken.")
            else:
                receive = replay(body, receive)
                refused = await self._posted(request, scope, body)
        if refused is not None:
            await refused(scope, receive, sending)
        else:
            await self.app(scope, receive, sending)

    def _visitor(self, request: Request, visit: str, now: datetime) -> Visitor:
        theme = request.cookies.get("theme", "")
        session = request.cookies.get(self.access.session_cookie, "")
        name, role = self.settings.by, _ON_LOOPBACK
        found, own = None, own_of_cookie(request.cookies.get(OWN_COOKIE, "")).over(request.app.state.session.own)
        if self.access.open_network:
            found = self.access.session(session, now)
            name, role = ("", "look") if found is None else (found[0], found[1].role)
            own = AS_THE_SHOP if found is None else own_of(found[1].said())
        return Visitor(
            name=name,
            role=role,
            theme=theme if theme in THEMES else "",
            csrf=csrf.token(self.access, visit, session if found else ""),
            signed_in=found is not None,
            own=own,
        )

    def _at_the_door(self, request: Request, now: datetime) -> Response | None:
        path = request.url.path
        if self.access.open_network:
            wait = self.access.requests.take(address_of(request), now)
            if wait:
                return _wait(request, wait, "Too many requests from this device.")
        elif not csrf.host_is_ours(request):
            return _refusal(request, 421, "On this computer the bench answers as localhost or 127.0.0.1 only.")
        findings = address_findings(request.scope["path"], unquote_plus(request.url.query))
        if findings:
            return answer(request, 422, "The address cannot be understood.", findings_part(findings))
        if not self.access.open_network or request.state.visitor.signed_in or path.startswith(OPEN_TO_ALL):
            return None
        if request.method == "GET" and _wants_page(request):
            return RedirectResponse(f"/sign-in?back={quote(path)}", status_code=303)
        return _refusal(request, 401, "Sign in first: your name and your PIN.")

    async def _posted(self, request: Request, scope: Scope, body: bytes) -> Response | None:
        """Refuse what our own page, or a program that says who it is, did not send."""
        if not csrf.comes_from_us(request):
            return _refusal(request, 403, "Another page sent this, so nothing was done. Use the bench's own page.")
        kind = request.headers.get("content-type", "").partition(";")[0].strip().lower()
        if request.url.path.startswith("/api/"):
            if request.headers.get(csrf.OUR_HEADER) != "1":
                return _refusal(request, 403, f"A program that posts here sends the header {csrf.OUR_HEADER}: 1.")
            if body and kind != "application/json":
                return _refusal(request, 415, "Send application/json.")
        elif body and kind not in FORM_TYPES:
            return _refusal(request, 415, "Send a form.")
        try:
            if request.url.path.startswith("/api/"):
                if body:
                    check_json(body)
                return None
            form = await read_form(Request(scope, replay(body, request.receive)))
        except InputError as refused:
            return answer(request, 422, "What was sent cannot be taken.", findings_part(refused.findings))
        if csrf.token_is_right(request, form, request.state.visitor.csrf):
            return None
        mend = "Load the page anew, and do it again."
        finding = Finding(where="form", what="it is not from the page as it is now, so nothing was kept", mend=mend)
        return answer(request, 403, "This form is out of date.", findings_part([finding]))

    def _cookie(self, name: str, value: str) -> str:
        return cookie_text(name, value, secure_only=self.settings.secure_cookies)


_ON_LOOPBACK: Role = "sign off"


def cookie_text(name: str, value: str, *, secure_only: bool, max_age: int | None = None) -> str:
    """Return a Set-Cookie header: not for scripts, not for other sites, for HTTPS only where that is how we are served."""
    cookie: SimpleCookie = SimpleCookie()
    cookie[name] = value
    cookie[name].update({"path": "/", "httponly": "yes", "samesite": "strict"})
    if secure_only:
        cookie[name]["secure"] = "yes"
    if max_age is not None:
        cookie[name]["max-age"] = str(max_age)
    return cookie[name].OutputString()


def address_of(request: Request) -> str:
    """Return the address of the device that asks."""
    return "" if request.client is None else request.client.host


def _wants_page(request: Request) -> bool:
    path = request.url.path
    return not path.startswith("/api/") and path not in ("/live", "/openapi.json") and not _is_htmx(request)


def _is_htmx(request: Request) -> bool:
    return request.headers.get("HX-Request") == "true"


def _refusal(request: Request, status: int, message: str) -> Response:
    return answer(request, status, message, [])


def _wait(request: Request, seconds: int, message: str) -> Response:
    refused = answer(request, 429, f"{message} Wait {seconds} s.", [])
    refused.headers["Retry-After"] = str(seconds)
    return refused
