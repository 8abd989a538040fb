"""The JSON interface to the order of an open job: what is changed of it, who said so, and why."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from clubwright.services.actions import bench
from clubwright.web.api import models as m
from clubwright.web.api.base import Taken, Text
from clubwright.web.api.refusals import group, refusals
from clubwright.web.api.routes import Job, Key, Ours, fact_out
from clubwright.web.sessions import AtSession

router = group()


class OrderIn(Taken):
    """Another order for an open job: figures by their paths, such as `target.swing_weight`; an empty text takes one out."""

    values: Annotated[
        dict[str, Annotated[str, Field(max_length=1000)]],
        Field(max_length=60, examples=[{"target.swing_weight": "D1.5"}]),
    ]
    said_by: Annotated[Text, Field(description="Who said so: the player or the clubmaker.")]
    reason: Annotated[str, Field(min_length=1, max_length=1000)]


class PulledIn(Taken):
    """A head that was glued on was pulled again."""

    said_by: Annotated[Text, Field(description="Who said so: the player or the clubmaker.")]
    reason: Annotated[str, Field(min_length=1, max_length=1000)]
    heat: Annotated[bool, Field(description="Whether heat was used.")]


@router.post("/jobs/{job}/pulled", status_code=201, responses=refusals(403, 404, 409, 413, 415))
def pull_head(session: AtSession, job: Job, sent: PulledIn, key: Key, _: Ours) -> m.FactOut:
    """Record that the head was pulled again: the joint is to be made anew."""
    return fact_out(bench.pull_head(session, job, said_by=sent.said_by, reason=sent.reason, heat=sent.heat, key=key))


@router.post("/jobs/{job}/order", status_code=201, responses=refusals(403, 404, 409, 413, 415))
def change_order(session: AtSession, job: Job, sent: OrderIn, key: Key, _: Ours) -> m.FactOut:
    """Change the order of an open job; the role must be sign off."""
    return fact_out(bench.change_order(session, job, sent.values, said_by=sent.said_by, reason=sent.reason, key=key))
