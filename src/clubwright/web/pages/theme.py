"""The theme: paper-white, night, or as the device has it."""

from __future__ import annotations

from fastapi import APIRouter, Form
from fastapi.responses import RedirectResponse, Response

from clubwright.web.session import THEMES, inside

router = APIRouter(include_in_schema=False)


@router.post("/theme")
def choose(theme: str = Form(default="", max_length=10), back: str = Form(default="/")) -> Response:
    """Keep the theme in a cookie and go back."""
    answer = RedirectResponse(inside(back), status_code=303)
    if theme in THEMES:
        answer.set_cookie("theme", theme, max_age=365 * 86400, samesite="strict", httponly=True)
    else:
        answer.delete_cookie("theme")
    return answer
