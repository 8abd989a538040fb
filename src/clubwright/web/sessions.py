"""The record behind the pages: one engine for the whole program, one session for each request."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated

import msgspec
from fastapi import Depends, Request

from clubwright.services.record.session import Session
from clubwright.web.session import visitor_of

SessionMaker = Callable[[], Session]


def session_of(request: Request) -> Session:
    """Return a session for the visitor of this request."""
    session: Session = request.app.state.session
    visitor = visitor_of(request)
    return msgspec.structs.replace(session, by=visitor.name, role=visitor.role, own=visitor.own)


AtSession = Annotated[Session, Depends(session_of)]
