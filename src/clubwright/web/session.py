"""Who is at the tablet: a name, a role, a theme.

On loopback that is the bench itself; over the workshop's network, a person who signed in.
"""

from __future__ import annotations

from urllib.parse import parse_qsl, urlencode

import msgspec
from fastapi import Request

from clubwright.errors import InputError
from clubwright.notation.own import AS_THE_SHOP, Own, own_of
from clubwright.services.checks.roles import Role

THEMES = ("paper", "night")
OWN_COOKIE = "own"
"""Says how whoever holds this tablet reads and types, where nobody signs in."""


class Visitor(msgspec.Struct, frozen=True, kw_only=True):
    """The person at one tablet.

    Attributes:
        name: As written into the record.
        role: What they may do.
        theme: ``paper`` or ``night``; empty leaves it to the device.
        csrf: Token that every form of this visitor carries.
        signed_in: Whether a PIN was asked for.
        own: How they read and type, where it is not as the shop says.
    """

    name: str
    role: Role
    theme: str = ""
    csrf: str = ""
    signed_in: bool = False
    own: Own = AS_THE_SHOP


def visitor_of(request: Request) -> Visitor:
    """Return the visitor that the security layer found for this request."""
    found: Visitor = request.state.visitor
    return found


def cookie_of_own(own: Own) -> str:
    """Return what the cookie of a tablet says."""
    return urlencode(own.said())


def own_of_cookie(text: str) -> Own:
    """Return what the cookie of a tablet says; what is none of the words for it is as the shop says."""
    try:
        return own_of(dict(parse_qsl(text)))
    except InputError:
        return AS_THE_SHOP


def inside(back: str) -> str:
    """Return an address to go back to: a path of this page, never another site's address."""
    good = back.startswith("/") and not back.startswith("//") and "\\" not in back and back.isprintable()
    return back if good else "/"
