"""What follows from the facts that an action writes: the role and the gate it needs, and the step that it completes."""

from __future__ import annotations

from typing import get_args

from clubwright.errors import Finding, InputError
from clubwright.journal.facts import Undone, What
from clubwright.journal.reducers.completion import COMPLETED_BY
from clubwright.services.actions.register.action import Action
from clubwright.services.actions.register.actions import ACTIONS
from clubwright.services.checks.roles import ROLES, Role, role_of_kind
from clubwright.services.recording.possible import GATE_OF

KINDS: dict[str, type[What]] = {str(kind.__struct_config__.tag): kind for kind in get_args(What)}
"""Every kind of fact, by the word that is stored."""


def action_of(key: str) -> Action:
    """Return an action of the register.

    Raises:
        InputError: when there is none of that name.
    """
    found = ACTIONS.get(key)
    if found is None:
        mend = f"There are: {', '.join(ACTIONS)}."
        raise InputError([Finding(where="action", what=f'no action is called "{key}"', mend=mend)])
    return found


def written_by(action: Action) -> tuple[type[What], ...]:
    """Return the kinds of facts that an action writes."""
    return tuple(KINDS[tag] for tag in action.writes)


def role_of(action: Action) -> Role:
    """Return the role that an action needs at least; what an undo needs is said by what it reverses."""
    kinds = [*written_by(action), *(KINDS[tag] for tag in action.undoes)]
    return max((role_of_kind(kind) for kind in kinds), key=ROLES.index)


def role_depends(action: Action) -> bool:
    """True where the role is that of whatever is reversed."""
    return Undone in written_by(action) and not action.undoes


def gate_of(action: Action) -> str:
    """Return the gate of a build or re-shaft that must be open and signed before; empty where none."""
    return next((GATE_OF[kind] for kind in written_by(action) if kind in GATE_OF), "")


def steps_of(action: Action) -> tuple[str, ...]:
    """Return the steps of the plan that an action completes: by its fact, or because it ticks them."""
    written = set(written_by(action))
    by_fact = [step for step, kinds in COMPLETED_BY.items() if written.intersection(_as_tuple(kinds))]
    return (*by_fact, *([action.completes] if action.completes else ()))


def _as_tuple(kinds: object) -> tuple[object, ...]:
    return kinds if isinstance(kinds, tuple) else (kinds,)
