"""The JSON interface to mixes of adhesive that serve several joints."""

from __future__ import annotations

from typing import Annotated

from fastapi import Query

from clubwright.services.actions.making.mix_list import MOST_DAYS, mixes_answer
from clubwright.services.told.club import MixesAnswer
from clubwright.web.api.refusals import group
from clubwright.web.sessions import AtSession

router = group()
Days = Annotated[
    int | None,
    Query(ge=1, le=MOST_DAYS, description="Only those mixed in so many days until now; every one without it."),
]


@router.get("/mixes")
def all_mixes(session: AtSession, days: Days = None) -> MixesAnswer:
    """List the mixes of adhesive with their joints on all jobs."""
    return mixes_answer(session, days)
