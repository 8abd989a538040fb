"""The JSON interface by which a player is forgotten: what would be erased, and erasing it."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter
from pydantic import Field

from clubwright.services.actions import bench
from clubwright.services.actions.forgetting import look_before
from clubwright.services.actions.forgetting_part import forgotten_part, look_part
from clubwright.web.api.base import Given, Note, Taken, Text
from clubwright.web.api.refusals import refusals
from clubwright.web.api.routes import Key, Ours
from clubwright.web.sessions import AtSession

router = APIRouter(prefix="/api", responses=refusals(401, 421, 422, 429))
WRITES = refusals(403, 409, 413, 415)

Also = Annotated[list[Text], Field(max_length=50, description="More that is theirs: another name, a telephone number.")]


class LookIn(Taken):
    """Whose name would be erased."""

    player: Text
    also: Also = Field(default_factory=list)


class ForgetIn(LookIn):
    """Whose name is erased, for good."""

    asked_by: Annotated[Note, Field(description="Who asked for it, in words without the name; it is kept.")]
    facts: Annotated[int, Field(ge=0, le=2**31 - 1, description="How many facts hold the name, as looked at.")]


class RemainingOut(Given):
    """A text that may still say who it is; a person looks at it."""

    place: str
    job: str
    path: str
    text: str


class LookOut(Given):
    """What would be erased, what remains to be looked at, and what is not reached."""

    facts: int
    texts: int
    jobs: list[str]
    remaining: list[RemainingOut]
    unreached: list[str]


class ForgottenOut(LookOut):
    """What was erased; the mark of the person, and the facts that say so."""

    person: str
    written: list[str]


@router.post("/forget/look", responses=WRITES)
def look(session: AtSession, sent: LookIn, _: Ours) -> LookOut:
    """Say what would be erased if a player were forgotten; nothing is changed. The role must be sign off."""
    return LookOut.model_validate(look_part(look_before(session, sent.player, sent.also)))


@router.post("/forget", status_code=201, responses=WRITES)
def forget(session: AtSession, sent: ForgetIn, key: Key, _: Ours) -> ForgottenOut:
    """Erase a player's name from the record, for good; the role must be sign off."""
    done = bench.forget(session, sent.player, asked_by=sent.asked_by, facts=sent.facts, also=sent.also, key=key)
    return ForgottenOut.model_validate(forgotten_part(done))
