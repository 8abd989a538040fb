"""The record behind the pages: one engine for the whole program, one desk for each request."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated

import msgspec
from fastapi import Depends, Request

from clubwright.services.desk import Desk
from clubwright.web.session import visitor_of

DeskMaker = Callable[[], Desk]


def desk_of(request: Request) -> Desk:
    """Return a desk for the visitor of this request."""
    desk: Desk = request.app.state.desk
    visitor = visitor_of(request)
    return msgspec.structs.replace(desk, by=visitor.name, role=visitor.role)


AtDesk = Annotated[Desk, Depends(desk_of)]
