"""Pages are laid out as whoever asks for them reads: as they said themselves, else as the shop says; `/api` never is."""

from __future__ import annotations

from fastapi import Request
from starlette.types import ASGIApp, Receive, Scope, Send

from clubwright.notation import shown_in
from clubwright.web.sessions import session_of


class UnitsFirst:
    """ASGI middleware; plain, so that what a page is laid out in reaches whatever lays it out.

    Only what is fetched is laid out so: what is sent is kept, and what is kept is canonical.
    """

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Lay a page out as whoever asks for it reads."""
        if scope["type"] != "http" or scope["method"] not in ("GET", "HEAD") or _is_plain(scope["path"]):
            await self.app(scope, receive, send)
            return
        with shown_in(session_of(Request(scope)).units()):
            await self.app(scope, receive, send)


def _is_plain(path: str) -> bool:
    return path.startswith(("/api/", "/static/", "/openapi"))
