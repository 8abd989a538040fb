"""Pages show figures in the unit that the shop's settings put first; the interface for programs never does."""

from __future__ import annotations

from typing import Any

from starlette.types import ASGIApp, Receive, Scope, Send

from clubwright.notation import shown_in


class UnitsFirst:
    """ASGI middleware; plain, so that what a page is laid out in reaches whatever lays it out.

    Only what is fetched is laid out so: what is sent is kept, and what is kept is canonical.
    """

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Lay a page out in the shop's units."""
        if scope["type"] != "http" or scope["method"] not in ("GET", "HEAD") or _is_plain(scope["path"]):
            await self.app(scope, receive, send)
            return
        state: Any = scope["app"].state
        with shown_in(state.session.settings().units()):
            await self.app(scope, receive, send)


def _is_plain(path: str) -> bool:
    return path.startswith(("/api/", "/static/", "/openapi"))
