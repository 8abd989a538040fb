"""Only our own page may post: what a browser says about where a request comes from, and a token that no other page knows.

Cookies alone do not do: other programs on the same computer are, for a browser, the same site on another port.
"""

from __future__ import annotations

import secrets
from urllib.parse import urlsplit

from starlette.datastructures import FormData
from starlette.requests import Request

from clubwright.web.guard.access import Access

OUR_HEADER = "X-Clubwright"
"""Programs that use /api send this header with the value 1: no other site's page can, unless we allowed it to."""

LOOPBACK = ("localhost", "127.0.0.1", "[::1]")


def host_is_ours(request: Request) -> bool:
    """True when the request asks for this computer by one of its loopback names.

    A foreign name that is made to lead here (DNS rebinding) is thereby refused.
    """
    return _without_port(request.headers.get("host", "")) in LOOPBACK


def _without_port(host: str) -> str:
    name, colon, port = host.rpartition(":")
    return (name if colon and port.isdecimal() else host).lower()


def comes_from_us(request: Request) -> bool:
    """True unless the browser says that another page sent this."""
    site = request.headers.get("sec-fetch-site")
    if site not in (None, "same-origin", "none"):
        return False
    origin = request.headers.get("origin")
    if origin is None:
        return True
    try:
        parts = urlsplit(origin)
    except ValueError:
        return False
    return parts.scheme in ("http", "https") and parts.netloc.lower() == request.headers.get("host", "").lower()


def new_visit(access: Access) -> str:
    """Return a fresh visit cookie: a random number, sealed so that nobody else can set one."""
    number = secrets.token_hex(16)
    return f"{number}.{access.seal(f'visit {number}')}"


def visit_of(request: Request, access: Access) -> str | None:
    """Return this browser's visit cookie, if it is one of ours."""
    cookie = request.cookies.get(access.visit_cookie, "")
    number, _, mark = cookie.partition(".")
    return cookie if number and access.sealed(f"visit {number}", mark) else None


def token(access: Access, visit: str, session: str) -> str:
    """Return what every form of this visitor carries: bound to the browser, and to who is signed in."""
    return access.seal(f"form {visit} {session}")


def token_is_right(request: Request, form: FormData, expected: str) -> bool:
    """True when the form, or the header of a script of ours, carries the token."""
    sent = form.get("csrf")
    found = sent if isinstance(sent, str) and sent else request.headers.get("X-CSRF", "")
    return secrets.compare_digest(found.encode("utf-8"), expected.encode("utf-8"))
