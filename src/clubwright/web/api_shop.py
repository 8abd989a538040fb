"""The JSON interface on what the workshop says once: its settings."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter

from clubwright.services.answer import findings_part
from clubwright.web import api_models as m
from clubwright.web.api import refusals
from clubwright.web.api_base import Given
from clubwright.web.desks import AtDesk

router = APIRouter(prefix="/api", responses=refusals(401, 421, 422, 429))


class ShopOut(Given):
    """The shop's settings as they are now: what can be taken of them, and what is wrong; no source where there are none."""

    source: str
    tables: dict[str, Any]
    findings: list[m.FindingOut]


@router.get("/shop")
def settings(desk: AtDesk) -> ShopOut:
    """Give the shop's settings as they are now."""
    found = desk.settings()
    findings = [m.FindingOut.model_validate(item) for item in findings_part(found.findings)]
    return ShopOut(source=found.source, tables=found.tables, findings=findings)
