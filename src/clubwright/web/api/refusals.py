"""What the JSON interface refuses with, for its own document."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter

from clubwright.web.api.models import Refused
from clubwright.web.api.structs import JSON, StructRoute, schema_of

SAID = {
    401: "Nobody is signed in (only where the network is open).",
    403: "The role does not cover it, or another page sent it.",
    404: "The record has no such ticket.",
    409: "The job stands otherwise: a gate is closed, a step lacks something, it is finished, or the key was used before.",
    413: "More than 256 kB.",
    415: "Not JSON.",
    421: "Asked for under a foreign name.",
    422: "What was sent cannot be taken; every finding at once.",
    429: "Too many requests.",
}
"""What each refusal means."""


def refusals(*statuses: int) -> dict[int | str, dict[str, Any]]:
    """Describe refusals for the interface's own document."""
    content = {JSON: {"schema": schema_of(Refused)}}
    return {status: {"description": SAID[status], "content": content} for status in statuses}


def group() -> APIRouter:
    """Return a group of routes of the interface."""
    return APIRouter(prefix="/api", responses=refusals(401, 421, 422, 429), route_class=StructRoute)
