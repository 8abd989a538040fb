"""Before and after of a change that is looked at: what the finished club would read, and by how much it moves."""

from __future__ import annotations

import msgspec

from clubwright.club.quantities import QUANTITIES
from clubwright.notation import render
from clubwright.planning.what_if import Figures
from clubwright.units import CPM_HZ, GRAM_KG, INCH_M, KG_CM2_KG_M2

UNITS = {
    "frequency": (CPM_HZ, "cpm", 1),
    "swing_weight": (1.0, "pt", 1),
    "total_weight": (GRAM_KG, "g", 1),
    "length": (INCH_M, "in", 2),
    "moi": (KG_CM2_KG_M2, "kg cm2", 0),
}
"""Quantity to the size of the unit in which a change of it is told, its name, and decimals; in the order shown."""


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
        for key in UNITS
        if key in before and key in after
    )


def change_text(key: str, change: float) -> str:
    """Return a change of a quantity, in SI, with its sign: ``+2.2 cpm``; one that rounds to nothing is ``none``."""
    size, unit, places = UNITS[key]
    text = f"{change / size:+.{places}f}"
    return "none" if float(text) == 0 else f"{text} {unit}"
