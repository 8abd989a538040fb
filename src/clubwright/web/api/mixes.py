"""The JSON interface to mixes of adhesive that serve several joints."""

from __future__ import annotations

from typing import Annotated

from fastapi import Query

from clubwright.services.actions.making.mix_list import MOST_DAYS, MixRow, mixes
from clubwright.services.told.base import Told, says
from clubwright.web.api.refusals import group
from clubwright.web.sessions import AtSession

router = group()
Days = Annotated[
    int | None,
    Query(ge=1, le=MOST_DAYS, description="Only those mixed in so many days until now; every one without it."),
]


class MixesOut(Told, frozen=True, kw_only=True):
    """Every mix that stands, newest first."""

    mixes: Annotated[tuple[MixRow, ...], says("Each with every joint that is glued from it.")]


@router.get("/mixes")
def all_mixes(session: AtSession, days: Days = None) -> MixesOut:
    """List the mixes of adhesive with their joints on all jobs."""
    return MixesOut(mixes=mixes(session, days))
