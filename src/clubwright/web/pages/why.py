"""Why a number is what it is: its page, the theory page behind it, and the source and tests behind that."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import Response

from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.jobs.minutes import times_now
from clubwright.services.why.find import why_keys, why_of
from clubwright.services.why.library import source_lines, theory_pages
from clubwright.web.errors import answer
from clubwright.web.rendering import page
from clubwright.web.sessions import AtSession
from clubwright.web.theory_html import theory_page
from clubwright.web.views.why_view import keys_view, why_view

router = APIRouter(include_in_schema=False)


@router.get("/bench/{job}/why")
def every(request: Request, session: AtSession, job: str) -> Response:
    """List every number of a job, each with its link."""
    worked = answer_job(session.job(job), session.now(), session.local)
    return page(request, "why/list.html", job=job, groups=keys_view(why_keys(worked)))


@router.get("/bench/{job}/why/{key:path}")
def one(request: Request, session: AtSession, job: str, key: str) -> Response:
    """Show what stands behind one number, or behind the figures of one card."""
    state = session.job(job)
    why = why_of(answer_job(state, session.now(), session.local), key, state, times_now(session, job))
    return page(request, "why/one.html", job=job, view=why_view(why, session.local))


@router.get("/theory")
def theory_list(request: Request) -> Response:
    """List the theory pages."""
    found = [found for name in theory_pages() if (found := theory_page(name)) is not None]
    return page(request, "why/theories.html", theories=found)


@router.get("/theory/{name}")
def theory(request: Request, name: str) -> Response:
    """Show a theory page."""
    found = theory_page(name)
    if found is None:
        return answer(request, 404, "There is no such theory page.", [])
    return page(request, "why/theory.html", theory=found)


@router.get("/source/{path:path}")
def source(request: Request, path: str) -> Response:
    """Show a file of the source or of the outside checks, as it is, with the numbers of its lines."""
    lines = source_lines(path)
    if lines is None:
        return answer(request, 404, "There is no such file of the source.", [])
    return page(request, "why/source.html", source=path, lines=lines)
