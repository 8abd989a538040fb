"""The JSON interface to mixes of adhesive that serve several joints."""

from __future__ import annotations

from typing import Annotated

from fastapi import Query
from pydantic import Field

from clubwright.services.actions import bench
from clubwright.services.actions.making.mix_list import MOST_DAYS, MixRow, mixes
from clubwright.services.told.base import Told, says
from clubwright.web.api import models as m
from clubwright.web.api.base import DoneAt, Note, Taken, Text
from clubwright.web.api.refusals import group, refusals
from clubwright.web.api.routes import Job, Key, Ours, fact_out
from clubwright.web.sessions import AtSession

router = group()
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


class MixesOut(Told, frozen=True, kw_only=True):
    """Every mix that stands, newest first."""

    mixes: Annotated[tuple[MixRow, ...], says("Each with every joint that is glued from it.")]


@router.get("/mixes")
def all_mixes(session: AtSession, days: Days = None) -> MixesOut:
    """List the mixes of adhesive with their joints on all jobs."""
    return MixesOut(mixes=mixes(session, days))


@router.post("/jobs/{job}/mixes/from", status_code=201, responses=WRITES)
def take_from(session: AtSession, job: Job, sent: MixFromIn, key: Key, _: Ours) -> m.FactOut:
    """Record that a joint is glued from a mix that was made for another one."""
    return fact_out(bench.take_from_mix(session, job, sent.mix, key, done_at=sent.done_at))


@router.post("/jobs/{job}/mixes/bad", status_code=201, responses=WRITES)
def call_bad(session: AtSession, job: Job, sent: BadMixIn, key: Key, _: Ours) -> m.FactOut:
    """Record that a mix is bad."""
    return fact_out(bench.call_mix_bad(session, job, sent.reason, sent.mix, key))
