"""Exact numbers as they are typed: decimals, mixed fractions, vulgar fraction signs; and rounding by what is meant."""

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
        Refusal: If the fraction is none (a zero below the line, or more than one whole beside a whole number).
    """
    match = _LEADING_NUMBER.match(text)
    if match is None:
        return None
    rest = text[match.end() :]
    if match["decimal"] is not None:
        return Fraction(match["decimal"]), False, rest
    if match["whole"] is not None:
        return int(match["whole"]) + _vulgar(match["above"], match["below"], beside_whole=True), True, rest
    if match["whole_sign"] is not None:
        return int(match["whole_sign"]) + VULGAR[match["sign"]], True, rest
    if match["alone_sign"] is not None:
        return VULGAR[match["alone_sign"]], True, rest
    return _vulgar(match["alone_above"], match["alone_below"], beside_whole=False), True, rest


def _vulgar(above: str, below: str, *, beside_whole: bool) -> Fraction:
    if int(below) == 0:
        raise Refusal(f"the fraction {above}/{below} divides by zero", "Write a fraction such as 1/2 or 11/16.")
    if beside_whole and int(above) >= int(below):
        raise Refusal(
            f"the fraction {above}/{below} beside a whole number is one whole or more",
            "Write whole number and fraction so that the fraction is less than one, such as 35 1/2.",
        )
    return Fraction(int(above), int(below))


def exact_of(value: float) -> Fraction:
    """Return the shortest decimal that names this float, exactly.

    1.905 is meant where the float holds 1.90500000000000002665: rounding then goes by what was meant. Every 1/64 in
    is a finite decimal of a metre, so a length typed in 64ths comes back without loss.
    """
    return Fraction(repr(float(value)))


def rounded(value: Fraction, step: Fraction) -> Fraction:
    """Round to a multiple of the step, ties to even (the rounding method of ISO 80000-1 annex B; from memory)."""
    return round(value / step) * step


def decimal_text(value: Fraction, places: int, *, keep: int | None = None) -> str:
    """Return a value with that many decimals, ties to even; trailing zeros go until ``keep`` decimals are left."""
    scaled = round(value * 10**places)
    sign = "-" if scaled < 0 else ""
    digits = str(abs(scaled)).rjust(places + 1, "0")
    whole, part = (digits[:-places], digits[-places:]) if places else (digits, "")
    if keep is not None:
        part = part[:keep] + part[keep:].rstrip("0")
    return f"{sign}{whole}.{part}" if part else f"{sign}{whole}"


def spread_text(sd: Fraction, places: int, *, keep: int | None = None) -> str:
    """Return a standard uncertainty with the decimals of its value, or as many more as its first digit needs."""
    while places < 12 and round(sd * 10**places) == 0:
        places += 1
    return decimal_text(sd, places, keep=keep)
