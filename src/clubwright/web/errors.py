"""Errors as pages and as JSON: what is wrong and what to do next, never a bare 500."""

from __future__ import annotations

import logging

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse, Response
from starlette.exceptions import HTTPException

from clubwright.errors import ClubwrightError, InputError, NotAllowed, RecordError
from clubwright.services.answer import findings_part
from clubwright.web.rendering import page

log = logging.getLogger("clubwright.web")


def add_error_pages(app: FastAPI) -> None:
    """Answer our own errors, wrong addresses and wrong parameters in plain words."""
    app.add_exception_handler(ClubwrightError, _refused)
    app.add_exception_handler(HTTPException, _http)
    app.add_exception_handler(RequestValidationError, _invalid)


def _status(refused: Exception) -> int:
    if isinstance(refused, InputError):
        return 422
    if isinstance(refused, NotAllowed):
        return 403
    return 404 if isinstance(refused, RecordError) else 409


async def _refused(request: Request, refused: Exception) -> Response:
    findings = refused.findings if isinstance(refused, InputError) else ()
    return _answer(request, _status(refused), str(refused), findings_part(findings))


async def _http(request: Request, refused: Exception) -> Response:
    status = refused.status_code if isinstance(refused, HTTPException) else 500
    said = {404: "There is no such page.", 405: "This page takes no such request.", 403: "This is not allowed."}
    return _answer(request, status, said.get(status, str(getattr(refused, "detail", "Something is wrong."))), [])


async def _invalid(request: Request, refused: Exception) -> Response:
    errors = refused.errors() if isinstance(refused, RequestValidationError) else []
    findings = [
        {
            "mend": "Use the page's own links and buttons.",
            "severity": "error",
            "what": str(error.get("msg", "")),
            "where": ".".join(str(part) for part in error.get("loc", ())),
        }
        for error in errors
    ]
    return _answer(request, 422, "The request cannot be understood.", findings)


def _answer(request: Request, status: int, message: str, findings: list[dict[str, str]]) -> Response:
    if request.url.path.startswith("/api/"):
        return JSONResponse({"error": message, "findings": findings}, status_code=status)
    template = "_error.html" if request.headers.get("HX-Request") == "true" else "error.html"
    return page(request, template, status=status, message=message, findings=findings)
