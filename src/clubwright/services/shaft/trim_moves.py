"""Before and after of a change that is looked at: what the finished club would read, and by how much it moves."""

from __future__ import annotations

import msgspec

from clubwright.club.quantities import CHANGES, QUANTITIES
from clubwright.notation import render
from clubwright.planning.what_if import Figures


class Move(msgspec.Struct, frozen=True, kw_only=True):
    """One quantity before and after, in trade notation, with the change between."""

    name: str
    before: str
    after: str
    by: str


def moves(before: Figures, after: Figures) -> tuple[Move, ...]:
    """Return what a change moves, each quantity of the finished club that both know."""
    return tuple(
        Move(
            name=QUANTITIES[key].name,
            before=render(QUANTITIES[key].kind, *before[key]),
            after=render(QUANTITIES[key].kind, *after[key]),
            by=change_text(key, after[key][0] - before[key][0]),
        )
        for key in CHANGES
        if key in before and key in after
    )


def change_text(key: str, change: float) -> str:
    """Return a change of a quantity, in SI, with its sign: ``+2.2 cpm``; one that rounds to nothing is ``none``."""
    return f"{'+' if change > 0 else '-'}{size_text(key, change)}" if is_told(key, change) else "none"


def is_told(key: str, change: float) -> bool:
    """True for a change that does not round to nothing."""
    told = CHANGES[key]
    return round(abs(change) / told.size, told.decimals) != 0


def size_text(key: str, change: float) -> str:
    """Return a change without its sign: ``2.2 cpm``."""
    told = CHANGES[key]
    return f"{abs(change) / told.size:.{told.decimals}f} {told.unit}"
