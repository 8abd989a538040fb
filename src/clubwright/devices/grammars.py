"""How a gauge writes a line: one small table, a strict grammar for each kind of gauge.

The forms are plain ones of ours: an optional sign, a figure, a unit. A gauge that writes anything else needs a row here, and
lines of that very gauge in its test: nothing is guessed from a line that does not match whole.
"""

from __future__ import annotations

import re

import msgspec

from clubwright.club.quantities import QUANTITIES
from clubwright.errors import Finding, InputError
from clubwright.notation import parse


class Grammar(msgspec.Struct, frozen=True, kw_only=True):
    """How one kind of gauge writes.

    Attributes:
        gauge: Kind of gauge; also the usual name of that gauge on a ticket.
        kind: Kind of notation of its figures.
        pattern: A whole line without its end; groups ``figure`` and ``unit``, and ``moving`` where the gauge itself
            says that its figure is not steady yet.
        alike: How many equal lines in a row make a steady figure.
    """

    gauge: str
    kind: str
    pattern: str
    alike: int = 3

    @property
    def quantities(self) -> tuple[str, ...]:
        """Keys of the quantities that such a gauge reads by the register, likeliest first."""
        return tuple(key for key, quantity in QUANTITIES.items() if quantity.gauge.name == self.gauge)


FIGURE = r"(?P<figure>[+-]?\d{1,5}(?:\.\d{1,4})?)"
MOVING = r"(?P<moving>\s*[?~])?"

GRAMMARS = (
    Grammar(
        gauge="gram scale",
        kind="mass",
        pattern=rf"\s*{FIGURE}\s*(?P<unit>g|kg|oz){MOVING}\s*",
    ),
    Grammar(
        gauge="swing scale",
        kind="swing_weight",
        pattern=rf"\s*(?P<figure>[A-G]\d(?:\.\d)?)(?P<unit>){MOVING}\s*",
    ),
    Grammar(
        gauge="angle gauge",
        kind="angle",
        pattern=rf"\s*{FIGURE}\s*(?P<unit>deg){MOVING}\s*",
    ),
    Grammar(
        gauge="caliper",
        kind="diameter",
        pattern=rf"\s*{FIGURE}\s*(?P<unit>mm|in){MOVING}\s*",
    ),
    Grammar(
        gauge="rule",
        kind="length",
        pattern=rf"\s*{FIGURE}\s*(?P<unit>mm|in){MOVING}\s*",
    ),
    Grammar(
        gauge="frequency meter",
        kind="frequency",
        pattern=rf"\s*{FIGURE}\s*(?P<unit>cpm){MOVING}\s*",
    ),
)


class Figure(msgspec.Struct, frozen=True, kw_only=True):
    """One line, understood: the figure in trade notation, and whether the gauge says that it still moves."""

    text: str
    moving: bool


def grammar_of(gauge: str) -> Grammar:
    """Return the grammar of a kind of gauge.

    Raises:
        InputError: when there is none of that name.
    """
    found = next((grammar for grammar in GRAMMARS if grammar.gauge == gauge), None)
    if found is None:
        known = ", ".join(grammar.gauge for grammar in GRAMMARS)
        raise InputError([Finding(where="gauge", what=f'no gauge is called "{gauge}"', mend=f"Use one of: {known}.")])
    return found


def read_line(grammar: Grammar, line: str) -> Figure | None:
    """Return a whole line understood; None for any other text, and for a figure that trade notation would refuse."""
    match = re.fullmatch(grammar.pattern, line, re.ASCII)
    if match is None:
        return None
    text = f"{match['figure'].removeprefix('+')} {match['unit']}".strip()
    try:
        parse(grammar.kind, text, where=grammar.gauge)
    except InputError:
        return None
    return Figure(text=text, moving=bool(match["moving"]))
