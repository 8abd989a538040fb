"""The idempotency key of an action, and what its facts are called by it: written and read here and nowhere else."""

from __future__ import annotations

PART = "#"
"""Numbers the facts of one action behind its idempotency key, from the second on: ``KEY#2``."""


def fact_key(action: str, number: int) -> str:
    """Return the key of one fact of an action, the first being 1."""
    return action if number == 1 else f"{action}{PART}{number}"


def action_of(key: str) -> str:
    """Return the key of the action that wrote a fact of that key."""
    return key.partition(PART)[0]


def is_of_action(key: str, action: str) -> bool:
    """True for the key of a fact that the action of that idempotency key wrote."""
    return key == action or key.startswith(action + PART)


def end_key(action: str, site: str, number: int) -> str:
    """Return the key by which opening a job again undoes one of its ends."""
    return f"{action}-end-{site}-{number}"


def is_of_an_end(key: str, action: str) -> bool:
    """True for the key of a fact by which that action opened a job again."""
    return key.startswith(f"{action}-end-")


def is_of_form(key: str, form: str) -> bool:
    """True for the key of a fact that came of a form, whichever of its actions wrote it; false where the form has no key."""
    return bool(form) and key.startswith(form)
