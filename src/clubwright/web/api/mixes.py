"""The JSON interface to mixes of adhesive that serve several joints."""

from __future__ import annotations

from typing import Annotated

import msgspec
from fastapi import APIRouter, Query
from pydantic import Field

from clubwright.services.actions import bench
from clubwright.services.actions.making.mix_list import MOST_DAYS, mixes
from clubwright.web.api import models as m
from clubwright.web.api.base import DoneAt, Given, Note, Taken, Text
from clubwright.web.api.refusals import refusals
from clubwright.web.api.routes import Job, Key, Ours, fact_out
from clubwright.web.sessions import AtSession

router = APIRouter(prefix="/api", responses=refusals(401, 421, 422, 429))
Days = Annotated[
    int | None,
    Query(ge=1, le=MOST_DAYS, description="Only those mixed in so many days until now; every one without it."),
]
WRITES = refusals(403, 404, 409, 413, 415)


class MixFromIn(Taken):
    """The joint is glued from a mix that was made for another one."""

    mix: Annotated[Text, Field(description="SITE/NUMBER of the mix, or the job that it was made on.")]
    done_at: DoneAt = None


class BadMixIn(Taken):
    """A mix is bad."""

    reason: Note
    mix: Annotated[str | None, Field(max_length=200, description="Which one, where the job had several.")] = None


class BadOut(Given):
    """Why a mix is bad, and who says so."""

    reason: str
    by: str
    at: str


class MixJointOut(Given):
    """A job whose joint is glued from a mix, or to be."""

    job: str
    glued: bool
    finished: bool


class MixOut(Given):
    """A mix of the record, with every joint that is glued from it."""

    mix: str
    made_on: str
    weighed: str
    batch: str
    mixed_at: str
    bad: BadOut | None
    joints: list[MixJointOut]


class MixesOut(Given):
    """Every mix that stands, newest first."""

    mixes: list[MixOut]


@router.get("/mixes")
def all_mixes(session: AtSession, days: Days = None) -> MixesOut:
    """List the mixes of adhesive with their joints on all jobs."""
    return MixesOut(mixes=[MixOut.model_validate(msgspec.to_builtins(row)) for row in mixes(session, days)])


@router.post("/jobs/{job}/mixes/from", status_code=201, responses=WRITES)
def take_from(session: AtSession, job: Job, sent: MixFromIn, key: Key, _: Ours) -> m.FactOut:
    """Record that a joint is glued from a mix that was made for another one."""
    return fact_out(bench.take_from_mix(session, job, sent.mix, key, done_at=sent.done_at))


@router.post("/jobs/{job}/mixes/bad", status_code=201, responses=WRITES)
def call_bad(session: AtSession, job: Job, sent: BadMixIn, key: Key, _: Ours) -> m.FactOut:
    """Record that a mix is bad."""
    return fact_out(bench.call_mix_bad(session, job, sent.reason, sent.mix, key))
