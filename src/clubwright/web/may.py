"""Whether a page offers an action to the person who looks at it. The services refuse it in any case; this spares the try."""

from __future__ import annotations

from clubwright.services.actions.register.actions import ACTIONS
from clubwright.services.actions.register.facets import role_of
from clubwright.services.checks.roles import Role, covers
from clubwright.web.actions import KEY_OF
from clubwright.web.session import Visitor

WITHDRAWS = "withdraw"
"""Button that takes back what was signed: an undo, which needs the role of what it reverses."""


def may(visitor: Visitor, action: str) -> bool:
    """True when this person's role covers an action of the page; what is no action of the register needs "work"."""
    entry = ACTIONS.get(KEY_OF.get(action, action))
    needed: Role = "sign off" if action == WITHDRAWS else "work" if entry is None else role_of(entry)
    return covers(visitor.role, needed)


def why_not(visitor: Visitor) -> str:
    """Return what a page says in place of a button that this person may not use."""
    if visitor.role == "look":
        return "You may look. To work on this club, ask for the role."
    return "This needs somebody who may sign off."
