"""Records: what was built, its sheet and its label."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import Response

from clubwright.labels.from_work import sheet_data, tag_data
from clubwright.labels.sheet import build_sheet
from clubwright.labels.tag import tag_label
from clubwright.services.job_work import work_job
from clubwright.web.desks import AtDesk
from clubwright.web.rendering import page

router = APIRouter(include_in_schema=False)


@router.get("/records")
def built(request: Request, desk: AtDesk) -> Response:
    """List the closed jobs."""
    jobs = [job for job in desk.shop().jobs.values() if job.finished is not None]
    return page(request, "records/list.html", jobs=jobs)


@router.get("/records/{job}/sheet.pdf")
def sheet(desk: AtDesk, job: str) -> Response:
    """Return the build sheet."""
    state, now = desk.job(job), desk.now()
    data = sheet_data(work_job(state, now), state, now.date().isoformat(), desk.ledger.facts()[-1].hash)
    return Response(build_sheet(data), media_type="application/pdf")


@router.get("/records/{job}/tag.pdf")
def tag(desk: AtDesk, job: str) -> Response:
    """Return the tag label."""
    state, now = desk.job(job), desk.now()
    data = tag_data(work_job(state, now), state, now.date().isoformat())
    return Response(tag_label(data), media_type="application/pdf")
