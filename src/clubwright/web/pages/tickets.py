"""Tickets: what is waiting, promised when."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import Response

from clubwright.web.desks import AtDesk
from clubwright.web.rendering import page

router = APIRouter(include_in_schema=False)


@router.get("/tickets")
def waiting(request: Request, desk: AtDesk) -> Response:
    """List the open jobs."""
    jobs = [job for job in desk.shop().jobs.values() if job.finished is None]
    return page(request, "tickets/list.html", jobs=jobs)
