"""Templates: one environment, autoescaped, with the few helpers a page needs."""

from __future__ import annotations

import hashlib
from functools import cache
from pathlib import Path
from typing import Any

from fastapi import Request
from fastapi.responses import HTMLResponse
from jinja2 import Environment, PackageLoader, StrictUndefined, select_autoescape

from clubwright.journal.times import day_of
from clubwright.labels.printable import letters_without_sign
from clubwright.services.record.done_at import minute
from clubwright.web.may import may, why_not
from clubwright.web.second_tap import HOLD_S, REST_S
from clubwright.web.session import Visitor, visitor_of
from clubwright.web.theory_html import slug
from clubwright.words import on_page, spoken

PAGES = (("tickets", "/tickets"), ("records", "/records"))
"""The pages every page links to; Players, Stock and Instruments slot in here when they come."""

STATIC = Path(__file__).parent / "static"


@cache
def environment() -> Environment:
    """Return the template environment."""
    found = Environment(
        loader=PackageLoader("clubwright.web"),
        autoescape=select_autoescape(),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    found.globals["asset"] = asset
    found.filters["day"], found.filters["minute"] = day_of, minute
    found.filters["anchor"] = slug
    found.globals["pages"] = PAGES
    found.globals["script_words"] = _script_words
    found.globals["spoken"], found.globals["t"] = spoken, on_page
    found.globals["rest_ms"] = round(REST_S * 1000)
    found.globals["hold_ms"] = round(HOLD_S * 1000)
    found.globals["may"] = may
    found.globals["why_not"] = why_not
    found.globals["letters_without_sign"] = letters_without_sign
    return found


SCRIPT_WORDS = ("hold", "more", "back", "keep", "take", "live", "lost", "left", "over")
"""What the page's scripts say, by their names for it."""


LINK_WORDS = ("live", "lost")
"""What they say on a page where nothing is read and nothing runs out."""


def _script_words(path: str) -> dict[str, str]:
    names = LINK_WORDS if path.startswith("/tickets") else SCRIPT_WORDS
    return {name: on_page(f"script {name}") for name in names}


@cache
def asset(name: str) -> str:
    """Return the address of a static file with its content's hash, so that it can be kept for ever."""
    digest = hashlib.sha256((STATIC / name).read_bytes()).hexdigest()[:12]
    return f"/static/{name}?v={digest}"


def is_fragment(request: Request) -> bool:
    """True when htmx asks for a part of a page; false for a plain form or link."""
    return request.headers.get("HX-Request") == "true"


def page(request: Request, template: str, /, status: int = 200, **values: Any) -> HTMLResponse:
    """Render a template for this visitor."""
    visitor: Visitor = visitor_of(request)
    text = environment().get_template(template).render(visitor=visitor, path=request.url.path, **values)
    return HTMLResponse(text, status_code=status)
