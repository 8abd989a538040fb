"""Bench software for the golf clubmaker: a club is a belief, advice is computed from it, the record is a journal.

From Python, with no record kept: `work(ticket)` works one ticket, `plan(ticket)` gives its steps, `sheet(ticket)`,
`tag(ticket)` and `cards(ticket)` print it, `picture(ticket)` draws its club; `words(text)` reads an order in words,
`new_ticket(words)` writes its ticket; `notation.parse` and `notation.render` read and write one value. With a record:
`Shop(folder)` does every action of the bench.

All of it is loaded when it is first asked for, so that importing a part of the package stays quick.
"""

from __future__ import annotations

import sys
from importlib import import_module
from types import ModuleType
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from clubwright import notation
    from clubwright.api.papers import cards, picture, sheet, tag
    from clubwright.api.shop import Shop
    from clubwright.api.tickets import new_ticket, plan, words, work

__version__ = "0.1.0"
__all__ = ["Shop", "__version__", "cards", "new_ticket", "notation", "picture", "plan", "sheet", "tag", "words", "work"]

_FOUND_IN = {
    "Shop": "clubwright.api.shop",
    "cards": "clubwright.api.papers",
    "new_ticket": "clubwright.api.tickets",
    "picture": "clubwright.api.papers",
    "plan": "clubwright.api.tickets",
    "sheet": "clubwright.api.papers",
    "tag": "clubwright.api.papers",
    "words": "clubwright.api.tickets",
    "work": "clubwright.api.tickets",
}
"""Where each name of the front door is, but `notation`, which is the package of that name."""


class _FrontDoor(ModuleType):
    """This module, whose names stay what they are whichever room is loaded.

    Python sets a package that was imported on the one above it. `clubwright.words` is a function, and stays one when the
    room `clubwright.words`, which makes sentences, is loaded; whoever needs that room imports from it.
    """

    def __setattr__(self, name: str, value: object) -> None:
        if not (name in _FOUND_IN and isinstance(value, ModuleType)):
            super().__setattr__(name, value)


def __getattr__(name: str) -> Any:
    """Load a name of the front door on first use."""
    if name in _FOUND_IN:
        return getattr(import_module(_FOUND_IN[name]), name)
    if name == "notation":
        return import_module("clubwright.notation")
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")


def __dir__() -> list[str]:
    """List what there is."""
    return list(__all__)


sys.modules[__name__].__class__ = _FrontDoor
