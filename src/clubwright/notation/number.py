"""Exact numbers as they are typed: decimals, mixed fractions, and vulgar fraction signs."""

from __future__ import annotations

import re
from fractions import Fraction

from clubwright.notation.refusal import Refusal

VULGAR = {
    "½": Fraction(1, 2),
    "¼": Fraction(1, 4),
    "¾": Fraction(3, 4),
    "⅛": Fraction(1, 8),
    "⅜": Fraction(3, 8),
    "⅝": Fraction(5, 8),
    "⅞": Fraction(7, 8),
}

_LEADING_NUMBER = re.compile(
    r"""
    (?P<whole>[0-9]+) (?P<joint>\ |-) (?P<above>[0-9]+) / (?P<below>[0-9]+)
  | (?P<whole_sign>[0-9]+) \ ? (?P<sign>[½¼¾⅛⅜⅝⅞])
  | (?P<alone_above>[0-9]+) / (?P<alone_below>[0-9]+)
  | (?P<alone_sign>[½¼¾⅛⅜⅝⅞])
  | (?P<decimal>(?: [0-9]+ (?: \.[0-9]+ )? | \.[0-9]+ ) (?: [eE] [+-]? [0-9]{1,2} (?![0-9]) )? )
    """,
    re.VERBOSE,
)


def leading_number(text: str) -> tuple[Fraction, bool, str] | None:
    """Read the unsigned number at the start of a text.

    Returns:
        The exact value, whether it was written as a vulgar fraction, and the rest of the text; None when the text does
        not start with a number.

    Raises:
        Refusal: If the fraction is one whole or more, or has a zero below the line.
    """
    match = _LEADING_NUMBER.match(text)
    if match is None:
        return None
    rest = text[match.end() :]
    if match["decimal"] is not None:
        return Fraction(match["decimal"]), False, rest
    if match["whole"] is not None:
        return int(match["whole"]) + _vulgar(match["above"], match["below"]), True, rest
    if match["whole_sign"] is not None:
        return int(match["whole_sign"]) + VULGAR[match["sign"]], True, rest
    if match["alone_sign"] is not None:
        return VULGAR[match["alone_sign"]], True, rest
    return _vulgar(match["alone_above"], match["alone_below"]), True, rest


def _vulgar(above: str, below: str) -> Fraction:
    if int(below) == 0:
        raise Refusal(f"the fraction {above}/{below} divides by zero", "Write a fraction such as 1/2 or 11/16.")
    if int(above) >= int(below):
        # 41/2 is far more often a 4 1/2 that lost its space than twenty and a half.
        raise Refusal(
            f"the fraction {above}/{below} is one whole or more",
            "Write whole number and fraction with a space or a hyphen between them, such as 35 1/2 or 35-1/2.",
        )
    return Fraction(int(above), int(below))
