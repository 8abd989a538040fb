"""The JSON interface by which a player is forgotten: what would be erased."""

from __future__ import annotations

from typing import Annotated

from msgspec import Meta

from clubwright.services.actions.forgetting import look_before
from clubwright.services.actions.forgetting_part import look_part
from clubwright.services.told.erased import LookAnswer
from clubwright.web.api import structs
from clubwright.web.api.refusals import group, refusals
from clubwright.web.api.routes import Ours
from clubwright.web.sessions import AtSession

router = group()
WRITES = refusals(403, 409, 413, 415)


class LookIn(structs.Taken, frozen=True, kw_only=True):
    """Whose name would be erased."""

    player: Annotated[str, Meta(description="Name, as a ticket says it.", min_length=1, max_length=200)]
    also: Annotated[
        tuple[Annotated[str, Meta(min_length=1, max_length=200)], ...],
        Meta(description="More that is theirs: another name, a telephone number.", max_length=50),
    ] = ()


@router.post("/forget/look", responses=WRITES)
def look(session: AtSession, sent: LookIn, _: Ours) -> LookAnswer:
    """Say what would be erased if a player were forgotten; nothing is changed. The role must be sign off."""
    return look_part(look_before(session, sent.player, sent.also))
