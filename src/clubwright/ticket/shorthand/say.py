"""What every rule of the shorthand shares: what it may say, what it may doubt, and how a number looks."""

from __future__ import annotations

import re
from collections.abc import Callable

import msgspec

from clubwright.club.quantities import QUANTITIES
from clubwright.errors import InputError
from clubwright.notation import parse


class Say(msgspec.Struct, frozen=True):
    """One thing said: the field, its value, and what was understood."""

    field: str
    value: str
    meaning: str
    counted: bool = False
    """True of a relative target: it needs a base, which shorthand hardly ever names."""
    implied: bool = False
    """True of what only follows from other words, such as the name of a wedge by its loft: it gives way to what is said."""


class Doubt(msgspec.Struct, frozen=True):
    """Words that cannot be taken: why, and how to say it plainly."""

    what: str
    mend: str


Found = list[Say] | Doubt | None
Rule = Callable[[str], Found]
"""A rule takes words with single spaces and returns what they say, a doubt, or None when they are not its own."""

NUMBER = r"(?:[0-9]+[ -][0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]+ ?[½¼¾⅛⅜⅝⅞]|[½¼¾⅛⅜⅝⅞]|[0-9]+(?:\.[0-9]+)?|\.[0-9]+)"
UNIT = "(?:in|inch|inches|\"|''|\u2033|\u201d|mm|cm)"
"""How a length's unit is written."""


def fits(pattern: str, words: str) -> re.Match[str] | None:
    """Match the whole words, whatever their case; NUMBER stands for a number as the trade writes it."""
    return re.fullmatch(pattern.replace("NUMBER", NUMBER), words, re.IGNORECASE | re.ASCII)


def metres(number: str, unit: str | None) -> float | None:
    """Return a typed length in m; None when it is none, or on no rule. Without a unit it is in inches."""
    try:
        return parse("length", f"{number} {spelled(unit)}").value
    except InputError:
        return None


def spelled(unit: str | None) -> str:
    """Return a unit of length as the notation writes it; inches when none is said."""
    return unit.lower() if unit is not None and unit.lower() in ("mm", "cm") else "in"


def counted(key: str, text: str) -> Say:
    """Return a relative target: as typed, with a note of what it is counted from."""
    return Say(f"target.{key}", text, f"{QUANTITIES[key].name}: {text}, counted from the base", counted=True)


def refusal(refused: InputError) -> Doubt:
    """Turn what the notation refuses into a doubt."""
    return Doubt(refused.findings[0].what, refused.findings[0].mend)


def absolute(field: str, kind: str, text: str) -> Found:
    """Take a value that the notation reads; its refusal is the doubt."""
    try:
        return [Say(field, text, parse(kind, text).echo)]
    except InputError as refused:
        return refusal(refused)
