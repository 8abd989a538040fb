"""A player's name that stands without the word `player`: taken behind ``for`` as a phrase of its own, else asked about.

A name is two or more words that begin with capitals and mean nothing else at the bench. Nothing is guessed from capitals
alone: ``Mara Oldfield`` is listed with the way to write it, and ``Balance Point 30 in`` is no person.
"""

from __future__ import annotations

import re

from clubwright.club.quantities import QUANTITIES
from clubwright.ticket.shorthand.say import NUMBER, UNIT, Doubt, Found, Say, fits
from clubwright.ticket.shorthand.words import NO_NAME, PARTICLE, is_filler

_CAPITALISED = re.compile(r"[^\W\d_a-z]\.|(?:[^\W\d_]['\N{RIGHT SINGLE QUOTATION MARK}])?[^\W\d_]+(?:-[^\W\d_]+)*")
_OF_THE_QUANTITIES = frozenset(word.lower() for quantity in QUANTITIES.values() for word in quantity.name.split())
_OF_THE_SHOP = frozenset(
    [
        "angle",
        "ball",
        "blade",
        "butt",
        "carry",
        "club",
        "clubs",
        "cure",
        "date",
        "distance",
        "epoxy",
        "face",
        "ferrule",
        "fitting",
        "flex",
        "flight",
        "frame",
        "glue",
        "heel",
        "height",
        "hosel",
        "hybrid",
        "insert",
        "iron",
        "irons",
        "job",
        "kick",
        "launch",
        "lead",
        "left",
        "mass",
        "month",
        "next",
        "offset",
        "old",
        "order",
        "plus",
        "point",
        "putter",
        "rack",
        "range",
        "regular",
        "right",
        "rush",
        "season",
        "set",
        "sets",
        "sole",
        "speed",
        "spin",
        "stiff",
        "stock",
        "stroke",
        "swing",
        "toe",
        "torque",
        "tour",
        "tube",
        "week",
        "wedge",
        "wedges",
        "woods",
        "year",
        "new",
        "other",
        "same",
        "for",
        "from",
        "by",
        "at",
        "on",
        "to",
        "was",
        "now",
        "see",
        "ask",
        "call",
    ]
)


def name_in(words: str) -> str | None:
    """Return the words when they look like a name of two or more parts, else None; `for` before them is left off."""
    match = re.fullmatch(r"(?:for )?(\S+(?: \S+)+)", words, re.IGNORECASE)
    parts = match[1].split(" ") if match else []
    names = [part for part in parts if not PARTICLE.fullmatch(part)]
    if len(names) < 2 or PARTICLE.fullmatch(parts[-1]):
        return None
    return None if any(not _may_be_a_name(part) for part in names) else " ".join(parts)


def _may_be_a_name(word: str) -> bool:
    if not _CAPITALISED.fullmatch(word) or not word[0].isupper() or (len(word) > 2 and word.isupper()):
        return False
    known = is_filler(word) or NO_NAME.fullmatch(word) or word.lower() in _OF_THE_QUANTITIES | _OF_THE_SHOP
    return not known


def named_after_for(words: str) -> Found:
    """``for Mara Oldfield``, when nothing else stands in the phrase."""
    name = name_in(words) if words.lower().startswith("for ") else None
    return None if name is None else [Say("ticket.player", name, f"player {name}")]


def name_alone(words: str) -> Doubt | None:
    """``Mara Oldfield``: asked about, with the way to write it."""
    name = name_in(words)
    if name is None:
        return None
    return Doubt(f"{words} may be the player's name", f"Write player {name}, or leave it out knowingly.")


def may_measure(words: str) -> bool:
    """True of a bare figure: behind words that may be a name it may as well be a figure of theirs (``Head Tempo 54``)."""
    return fits(rf"[+-]?{NUMBER} ?(?:{UNIT}|g|deg|degrees?|°)?", words) is not None
