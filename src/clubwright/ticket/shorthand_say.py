"""What every rule of the shorthand shares: what it may say, what it may doubt, and how a number looks."""

from __future__ import annotations

import re
from collections.abc import Callable

import msgspec

from clubwright.errors import InputError
from clubwright.notation import parse


class Say(msgspec.Struct, frozen=True):
    """One thing said: the field, its value, and what was understood."""

    field: str
    value: str
    meaning: str


class Doubt(msgspec.Struct, frozen=True):
    """Words that cannot be taken: why, and how to say it plainly."""

    what: str
    mend: str


Found = list[Say] | Doubt | None
Rule = Callable[[str], Found]
"""A rule takes words with single spaces and returns what they say, a doubt, or None when they are not its own."""

NUMBER = r"(?:[0-9]+[ -][0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]+ ?[½¼¾⅛⅜⅝⅞]|[½¼¾⅛⅜⅝⅞]|[0-9]+(?:\.[0-9]+)?|\.[0-9]+)"
COUNTED = ", counted from the base"
"""Ends the meaning of a relative target: it needs a base, which shorthand hardly ever names."""


def fits(pattern: str, words: str) -> re.Match[str] | None:
    """Match the whole words, whatever their case; NUMBER stands for a number as the trade writes it."""
    return re.fullmatch(pattern.replace("NUMBER", NUMBER), words, re.IGNORECASE | re.ASCII)


def refusal(refused: InputError) -> Doubt:
    """Turn what the notation refuses into a doubt."""
    return Doubt(refused.findings[0].what, refused.findings[0].mend)


def absolute(field: str, kind: str, text: str) -> Found:
    """Take a value that the notation reads; its refusal is the doubt."""
    try:
        return [Say(field, text, parse(kind, text).echo)]
    except InputError as refused:
        return refusal(refused)
