"""Bench software for the golf clubmaker: a club is a belief, advice is computed from it, the record is a journal.

`clubwright.work(ticket)` works one ticket; it is loaded when it is first asked for, so that importing a part of the
package stays quick. See `clubwright.api`.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from clubwright.api import work

__version__ = "0.1.0"
__all__ = ["__version__", "work"]


def __getattr__(name: str) -> Any:
    """Load `work` on first use."""
    if name == "work":
        return import_module("clubwright.api").work
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
