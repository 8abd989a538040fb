"""The shaft of one club: stiffness and cuts, its set, its trims. Only looked at: cutting is the bench's own step."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query, Request
from fastapi.responses import Response

from clubwright.services.job_work import work_job
from clubwright.web.desks import AtDesk
from clubwright.web.rendering import page
from clubwright.web.views.shaft_view import shaft_view

router = APIRouter(include_in_schema=False)


@router.get("/bench/{job}/shaft")
def show(request: Request, desk: AtDesk, job: str, trim: Annotated[int | None, Query(ge=0, le=99)] = None) -> Response:
    """Show one shaft; `trim` is the place of the trim that is looked at."""
    shop = desk.shop()
    state = shop.job(job)
    return page(
        request,
        "bench/shaft.html",
        view=shaft_view(work_job(state, desk.now()), state, shop.jobs.values(), trim=trim),
    )
