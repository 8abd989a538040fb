"""Errors as pages and as JSON: what is wrong and what to do next, never a bare 500."""

from __future__ import annotations

import logging
from collections.abc import Sequence

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import Response
from starlette.exceptions import HTTPException

from clubwright.errors import ClubwrightError, Finding, GateClosed, InputError, NotAllowed, NotInRecord, StepNotReady
from clubwright.services.answer.answer import findings_part
from clubwright.services.told.answer import FindingAnswer
from clubwright.web.api.models import Refused
from clubwright.web.guard.headers import ALWAYS
from clubwright.web.rendering import page

log = logging.getLogger("clubwright.web")


def add_error_pages(app: FastAPI) -> None:
    """Answer our own errors, wrong addresses and wrong parameters in plain words."""
    app.add_exception_handler(ClubwrightError, _refused)
    app.add_exception_handler(HTTPException, _http)
    app.add_exception_handler(RequestValidationError, _invalid)
    app.add_exception_handler(Exception, _broken)


def status_of(refused: Exception) -> int:
    """Return the HTTP status of an error of ours."""
    if isinstance(refused, InputError):
        return 422
    if isinstance(refused, NotAllowed):
        return 403
    return 404 if isinstance(refused, NotInRecord) else 409


def findings_of(refused: ClubwrightError) -> tuple[Finding, ...]:
    """Return an error of ours as findings, for a page that shows them beside its form."""
    if isinstance(refused, InputError | StepNotReady):
        return tuple(refused.findings)
    if isinstance(refused, GateClosed):
        return tuple(Finding(where=refused.step, what=reason, mend="") for reason in refused.reasons)
    return (Finding(where="record", what=str(refused), mend=""),)


async def _refused(request: Request, refused: Exception) -> Response:
    findings = findings_of(refused) if isinstance(refused, InputError | GateClosed | StepNotReady) else ()
    return answer(request, status_of(refused), str(refused), findings_part(findings))


async def _http(request: Request, refused: Exception) -> Response:
    status = refused.status_code if isinstance(refused, HTTPException) else 500
    said = {404: "There is no such page.", 405: "This page takes no such request.", 403: "This is not allowed."}
    found = answer(request, status, said.get(status, str(getattr(refused, "detail", "Something is wrong."))), [])
    found.headers.update(getattr(refused, "headers", None) or {})
    return found


async def _broken(request: Request, broken: Exception) -> Response:
    """Answer for a fault of ours; it is logged with its trace by the server, and the page stays usable."""
    log.error("%s %s: %s", request.method, request.url.path, type(broken).__name__)
    message = "A fault of this program, not of yours. Look at the trail before doing it again: it may be kept already."
    found = answer(request, 500, message, [])
    found.headers.update({**ALWAYS, "Cache-Control": "no-store"})  # the gate's own do not reach this far out
    return found


async def _invalid(request: Request, refused: Exception) -> Response:
    errors = refused.errors() if isinstance(refused, RequestValidationError) else []
    findings = [
        FindingAnswer(
            mend="Use the page's own links and buttons.",
            severity="error",
            what=str(error.get("msg", "")),
            where=".".join(str(part) for part in error.get("loc", ())),
        )
        for error in errors
    ]
    return answer(request, 422, "The request cannot be understood.", findings)


def answer(request: Request, status: int, message: str, findings: Sequence[FindingAnswer]) -> Response:
    """Answer with an error: JSON under /api, else a page, or the part of one that htmx asked for."""
    if request.url.path.startswith("/api/"):
        told = Refused(error=message, findings=tuple(findings))
        return Response(told.json(), status_code=status, media_type="application/json")
    template = "_error.html" if request.headers.get("HX-Request") == "true" else "error.html"
    return page(request, template, status=status, message=message, findings=findings)
