"""How a person writes numbers, and the canonical text of what they typed: made where it is typed, before anything is kept.

With a decimal comma ``35,5 in`` becomes ``35.5 in``; a point is a decimal point as ever. What may be a thousand as well as a
decimal, such as ``1,000 g``, keeps its comma, and so is refused wherever it is read, with how to write it; where that cannot
be, as with ``34,275 in``, it is a decimal. A comma before a space parts a list, as ever.
"""

from __future__ import annotations

import re
from typing import Literal

import msgspec

from clubwright.errors import InputError
from clubwright.notation.quantity import read_difference
from clubwright.notation.reader import parse, squeezed
from clubwright.notation.refusal import Refusal
from clubwright.notation.register import KINDS, REGISTER
from clubwright.notation.thousands import may_be_thousands
from clubwright.notation.units_shown import DecimalMark

BareLength = Literal["refused", "mm"]
BARE_LENGTHS: tuple[BareLength, ...] = ("refused", "mm")

_OF_LENGTH = ("length", "diameter")
_BARE = re.compile(r"[+-]?[0-9]*\.?[0-9]+", re.ASCII)
_COMMA_NUMBER = re.compile(r"(?<![0-9.,])([0-9]+),([0-9]+)(?![0-9.,]*[0-9])", re.ASCII)
_LEADING_COMMA = re.compile(r"(?<![^\s+±−-]),(?=[0-9]+(?![0-9.,]*[0-9]))", re.ASCII)


class Typist(msgspec.Struct, frozen=True, kw_only=True):
    """How numbers are typed.

    Attributes:
        decimal: What stands for the decimal point; a point always does.
        bare_length: Unit of a length or diameter typed without one; a fraction without one is inches, always.
    """

    decimal: DecimalMark = "point"
    bare_length: BareLength = "refused"


CANONICAL = Typist()
"""Types as the notation reads."""


def canonical(text: str, typist: Typist, kind: str = "") -> str:
    """Return a typed number, or words with numbers in them, as the notation reads it; of the same length but for a unit.

    Args:
        text: As typed.
        typist: How this person writes numbers.
        kind: Kind of notation of a single value; empty for words and for what is of no one kind.
    """
    if typist.decimal == "comma":
        surely = _is_decimal(text, typist, kind)
        return _with_unit(_with_points(text, thousands_too=surely), typist, kind)
    return _with_unit(text, typist, kind)


def _with_unit(text: str, typist: Typist, kind: str) -> str:
    bare = typist.bare_length != "refused" and kind in _OF_LENGTH and _BARE.fullmatch(text.strip())
    return f"{text.strip()} {typist.bare_length}" if bare else text


def is_bare(text: str) -> bool:
    """True for a plain number without a unit."""
    return _BARE.fullmatch(text.strip()) is not None


def with_unit_like(text: str, like: str, kind: str) -> str:
    """Return a bare number with the unit that another text was typed in; anything else stays as it is.

    Args:
        text: As typed; a number that can be read without a unit gets none.
        like: Another text of that kind, such as the resolution of the gauge: ``0.1 g``.
        kind: Kind of notation of both.
    """
    if kind not in KINDS or not is_bare(text) or _is_read(text, kind):
        return text
    try:
        unit = read_difference(REGISTER[kind], squeezed(like), None).unit
    except Refusal:
        return text
    completed = f"{text.strip()} {unit}"
    return completed if unit and _is_read(completed, kind) else text


def _with_points(text: str, *, thousands_too: bool) -> str:
    def pointed(match: re.Match[str]) -> str:
        return match[0] if may_be_thousands(match[0]) and not thousands_too else f"{match[1]}.{match[2]}"

    return _LEADING_COMMA.sub(".", _COMMA_NUMBER.sub(pointed, text))


def _is_decimal(text: str, typist: Typist, kind: str) -> bool:
    """True where what may be thousands is a value of that kind with a decimal point alone."""
    if kind not in KINDS or not may_be_thousands(text):
        return False
    decimal, thousands = _with_points(text, thousands_too=True), text.replace(",", "")
    return _is_read(_with_unit(decimal, typist, kind), kind) and not _is_read(_with_unit(thousands, typist, kind), kind)


def _is_read(text: str, kind: str) -> bool:
    try:
        parse(kind, text)
    except InputError:
        return False
    return True
