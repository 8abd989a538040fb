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
    told = CHANGES[key]
    text = f"{change / told.size:+.{told.decimals}f}"
    return "none" if float(text) == 0 else f"{text} {told.unit}"
