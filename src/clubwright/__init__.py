"""Bench software for the golf clubmaker: a club is a belief, advice is computed from it, the record is a journal.

`clubwright.work(ticket)` works one ticket, `clubwright.words(text)` reads an order in words, `clubwright.new_ticket(words)`
writes its ticket; they are loaded when they are first asked for, so that importing a part of the package stays quick. See
`clubwright.api`.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from clubwright.api import new_ticket, words, work

__version__ = "0.1.0"
__all__ = ["__version__", "new_ticket", "words", "work"]


def __getattr__(name: str) -> Any:
    """Load a function of the front door on first use."""
    if name in ("new_ticket", "words", "work"):
        return getattr(import_module("clubwright.api"), name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
