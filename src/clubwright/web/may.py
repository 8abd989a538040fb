"""Whether a page offers an action to the person who looks at it. The services refuse it in any case; this spares the try."""

from __future__ import annotations

from clubwright.services.checks.roles import Role, covers
from clubwright.web.session import Visitor

SIGNED = frozenset({"accept", "sign", "finish", "order", "reopen", "withdraw"})
"""Actions that sign for something, or take back what was signed; every other one needs "work"."""


def may(visitor: Visitor, action: str) -> bool:
    """True when this person's role covers an action of the page."""
    needed: Role = "sign off" if action in SIGNED else "work"
    return covers(visitor.role, needed)


def why_not(visitor: Visitor) -> str:
    """Return what a page says in place of a button that this person may not use."""
    if visitor.role == "look":
        return "You may look. To work on this club, ask for the role."
    return "This needs somebody who may sign off."
