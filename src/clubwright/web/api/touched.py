"""The JSON interface, asked the other way round: which jobs a gauge has read, and on which a thing is named."""

from __future__ import annotations

from typing import Annotated

import msgspec
from fastapi import APIRouter, Query
from pydantic import Field

from clubwright.services.record.touched import touched_by
from clubwright.web.api.base import Given
from clubwright.web.api.refusals import refusals
from clubwright.web.sessions import AtSession

router = APIRouter(prefix="/api", responses=refusals(401, 421, 422, 429))

Name = Annotated[str | None, Query(max_length=200)]


class TouchedOut(Given):
    """A job whose facts touch the thing: how many that stand do, and when the first and the last were written."""

    job: str
    title: str
    facts: Annotated[int, Field(ge=1)]
    first: str
    last: str


@router.get("/touched")
def touched(
    session: AtSession,
    gauge: Name = None,
    lot: Name = None,
    part: Name = None,
    person: Name = None,
    player: Name = None,
) -> list[TouchedOut]:
    """List the jobs that a gauge has read, that a lot or a part is named on, or that a person wrote on; name one thing."""
    given = {"gauge": gauge, "lot": lot, "part": part, "person": person, "player": player}
    found = touched_by(session, {kind: name for kind, name in given.items() if name is not None})
    return [TouchedOut.model_validate(msgspec.to_builtins(item)) for item in found]
