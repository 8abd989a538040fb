"""Swing weight on the letter scale: ten points to a letter from A0, written below A0 as ``A0 - 2.5``, and on past G9.

The scale ends at G9 in print; here the letter G runs on (G12 is 72 points). ``D4+`` is half a point above D4.
"""

from __future__ import annotations

import re
from fractions import Fraction

from clubwright.notation.number import leading_number
from clubwright.notation.quantity import Kind, Reading
from clubwright.notation.refusal import Refusal, shown
from clubwright.notation.showing import decimal_text, in_unit, spread_text

PLUS_POINTS = Fraction(1, 2)
"""What the plus of ``D4+`` adds, in points. Common practice, no source."""

LETTERS = "ABCDEFG"
POINT_UNITS = dict.fromkeys(("pt", "pts", "point", "points"), Fraction(1))
_ADVICE = "Write letter and points, such as D4, D4.5 or D4 1/4; below A0 write A0 - 2.5."
_LETTERED = re.compile(r"([A-Ga-g]) ?([0-9].*)")
_BELOW = re.compile(r"a0 ?- ?(.+)", re.IGNORECASE | re.ASCII)


def _own(text: str, base: Fraction | None) -> Reading | None:
    if below := _BELOW.fullmatch(text):
        read = leading_number(below[1])
        if read is None or read[2]:
            raise Refusal(f"{shown(text)} cannot be read", _ADVICE)
        return Reading(value=-read[0], unit="pt")
    match = _LETTERED.fullmatch(text)
    if match is None:
        if text[:1].isalpha() and not text.lower().startswith("std"):
            raise Refusal(f"{shown(text)} is no swing weight", _ADVICE)
        if text[:1] not in {"+", "-"} and not text.lower().startswith("std"):
            raise Refusal(f"{shown(text)} has no letter", _ADVICE)
        if text[:1] == "-" and base is None:
            raise Refusal(f"{shown(text)} is counted from a base that is not stated", f"State the base. {_ADVICE}")
        return None
    letter, typed = match[1].upper(), match[2]
    plus = typed.endswith("+")
    points = _points(text, letter, typed.removesuffix("+").rstrip())
    if plus:
        if points.denominator != 1:
            raise Refusal(f"{shown(text)} has a fraction and a plus", _ADVICE)
        points += PLUS_POINTS
    value = LETTERS.index(letter) * 10 + points
    return Reading(value=value, unit="pt", meant=f"the plus is {PLUS_POINTS} point" if plus else "")


def _points(text: str, letter: str, typed: str) -> Fraction:
    read = leading_number(typed)
    if read is None or read[2] or re.match(r"[0-9]+-", typed) or "e" in typed.lower():
        raise Refusal(f"{shown(text)} cannot be read as a swing weight", _ADVICE)
    if read[0] >= 10 and letter != "G":
        if re.fullmatch(r"[0-9]{2}", typed):
            meant = f"Write {letter}{typed[0]}.{typed[1]} if that is meant"
        else:
            meant = "Write the letter it belongs to"
        raise Refusal(
            f"{shown(text)} has more than ten points under one letter", f"{meant}; the letter rolls at ten, D10 is E0."
        )
    return read[0]


def letters(points: Fraction, places: int = 1, *, keep: int = 0) -> str:
    """Return the letter form of a number of points above A0, to that many decimals."""
    shown_points = Fraction(decimal_text(points, places))
    if shown_points < 0:
        return f"A0 - {decimal_text(-shown_points, places, keep=keep)}"
    index = min(int(shown_points // 10), len(LETTERS) - 1)
    return f"{LETTERS[index]}{decimal_text(shown_points - 10 * index, places, keep=keep)}"


def _text(value: Fraction, sd: Fraction | None, more: int) -> str:
    if sd is None:
        return letters(value, 1 + more)
    return f"{letters(value, 1 + more, keep=1)} ± {spread_text(sd, 1, more)}"


SWING_WEIGHT = Kind(
    name="swing_weight", units=POINT_UNITS, advice=_ADVICE, implied="pt", relative=True, own=_own, text=_text
)
POINTS = Kind(
    name="points",
    units=POINT_UNITS,
    advice="Write points, such as 1/4 pt or 0.5 pt.",
    implied="pt",
    text=in_unit(Fraction(1), "pt", 2, keep=0),
)
