"""Sign in with name and PIN, and sign out; only where the network is open."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Form, Query, Request
from fastapi.responses import RedirectResponse, Response

from clubwright.web.guard.access import SESSION, Access
from clubwright.web.guard.people import LONGEST, LONGEST_NAME, pin_is_right
from clubwright.web.rendering import page
from clubwright.web.security import address_of, cookie_text
from clubwright.web.session import inside, visitor_of

router = APIRouter(include_in_schema=False)


@router.get("/sign-in")
def ask(request: Request, back: Annotated[str, Query(max_length=500)] = "/") -> Response:
    """Ask for name and PIN."""
    access: Access = request.app.state.access
    if not access.open_network or visitor_of(request).signed_in:
        return RedirectResponse(inside(back), status_code=303)
    return page(request, "sign_in.html", back=inside(back), name="", message="")


@router.post("/sign-in")
def sign_in(
    request: Request,
    name: Annotated[str, Form(max_length=LONGEST_NAME)] = "",
    pin: Annotated[str, Form(max_length=4 * LONGEST)] = "",
    back: Annotated[str, Form(max_length=500)] = "/",
) -> Response:
    """Check name and PIN; wrong ones make the next try wait, for this person and for this device."""
    access: Access = request.app.state.access
    if not access.open_network:
        return RedirectResponse("/", status_code=303)
    now, name = request.app.state.session.now(), name.strip()
    counted = (f"person {name.casefold()}", f"device {address_of(request)}")
    wait = access.wrong_pins.begin(counted, now)
    if wait:
        message = f"Too many wrong PINs. Wait {wait} s, then try again."
        refused = page(request, "sign_in.html", status=429, back=inside(back), name=name, message=message)
        refused.headers["Retry-After"] = str(wait)
        return refused
    person = access.person(name)
    if not pin_is_right(person, pin.strip()) or person is None:
        message = "Name or PIN is wrong. Look at both, and try again."
        return page(request, "sign_in.html", status=403, back=inside(back), name=name, message=message)
    access.wrong_pins.right(counted)
    answer = RedirectResponse(inside(back), status_code=303)
    cookie = access.new_session(name, person, now)
    _set(request, answer, cookie, int(SESSION.total_seconds()))
    return answer


@router.post("/sign-out")
def sign_out(request: Request) -> Response:
    """End the session."""
    access: Access = request.app.state.access
    access.sign_out(request.cookies.get(access.session_cookie, ""), request.app.state.session.now())
    answer = RedirectResponse("/sign-in" if access.open_network else "/", status_code=303)
    _set(request, answer, "", 0)
    return answer


def _set(request: Request, answer: Response, cookie: str, seconds: int) -> None:
    access: Access = request.app.state.access
    secure_only = request.app.state.settings.secure_cookies
    text = cookie_text(access.session_cookie, cookie, secure_only=secure_only, max_age=seconds)
    answer.headers.append("Set-Cookie", text)
