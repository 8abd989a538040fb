"""The JSON interface, asked the other way round: which jobs a gauge has read, and on which a thing is named."""

from __future__ import annotations

from typing import Annotated

from fastapi import Query

from clubwright.services.record.job_index import TouchedJob
from clubwright.services.record.touched import touched_by
from clubwright.web.api.refusals import group
from clubwright.web.sessions import AtSession

router = group()

Name = Annotated[str | None, Query(max_length=200)]


@router.get("/touched")
def touched(
    session: AtSession,
    gauge: Name = None,
    lot: Name = None,
    part: Name = None,
    person: Name = None,
    player: Name = None,
) -> list[TouchedJob]:
    """List the jobs that a gauge has read, that a lot or a part is named on, or that a person wrote on; name one thing."""
    given = {"gauge": gauge, "lot": lot, "part": part, "person": person, "player": player}
    return touched_by(session, {kind: name for kind, name in given.items() if name is not None})
