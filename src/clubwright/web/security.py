"""The first gate of every request: who is there, and what the answer may load."""

from __future__ import annotations

from collections.abc import Awaitable, Callable

from fastapi import FastAPI, Request
from fastapi.responses import Response

from clubwright.web.session import THEMES, Visitor
from clubwright.web.settings import WebSettings

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; "
    "connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)


def secure(app: FastAPI, settings: WebSettings) -> None:
    """Put the visitor on every request and strict headers on every answer."""

    @app.middleware("http")
    async def guard(request: Request, call_next: Callable[[Request], Awaitable[Response]]) -> Response:
        theme = request.cookies.get("theme", "")
        request.state.visitor = Visitor(name="bench", role="sign off", theme=theme if theme in THEMES else "")
        answer = await call_next(request)
        answer.headers["Content-Security-Policy"] = POLICY
        answer.headers["X-Content-Type-Options"] = "nosniff"
        answer.headers["Referrer-Policy"] = "same-origin"
        if not request.url.path.startswith("/static/"):
            answer.headers.setdefault("Cache-Control", "no-store")
        return answer
