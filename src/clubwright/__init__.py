"""Bench software for the golf clubmaker: a club is a belief, advice is computed from it, the record is a journal.

`clubwright.work(ticket)` works one ticket, `clubwright.words(text)` reads an order in words; they are loaded when they are
first asked for, so that importing a part of the package stays quick. See `clubwright.api`.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from clubwright.api import words, work

__version__ = "0.1.0"
__all__ = ["__version__", "words", "work"]


def __getattr__(name: str) -> Any:
    """Load `work` or `words` on first use."""
    if name in ("words", "work"):
        return getattr(import_module("clubwright.api"), name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
