"""Who is at the tablet: a name, a role, a theme.

On loopback that is the bench itself; over the workshop's network, a person who signed in.
"""

from __future__ import annotations

import msgspec
from fastapi import Request

from clubwright.services.checks.roles import Role

THEMES = ("paper", "night")


class Visitor(msgspec.Struct, frozen=True, kw_only=True):
    """The person at one tablet.

    Attributes:
        name: As written into the record.
        role: What they may do.
        theme: ``paper`` or ``night``; empty leaves it to the device.
        csrf: Token that every form of this visitor carries.
        signed_in: Whether a PIN was asked for.
    """

    name: str
    role: Role
    theme: str = ""
    csrf: str = ""
    signed_in: bool = False


def visitor_of(request: Request) -> Visitor:
    """Return the visitor that the security layer found for this request."""
    found: Visitor = request.state.visitor
    return found


def inside(back: str) -> str:
    """Return an address to go back to: a path of this page, never another site's address."""
    good = back.startswith("/") and not back.startswith("//") and "\\" not in back and back.isprintable()
    return back if good else "/"
