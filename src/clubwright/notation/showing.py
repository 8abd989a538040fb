"""Numbers as text: decimals rounded by what was meant, and quantities in one unit.

Rounding goes to the nearest, ties to even (the rounding method of ISO 80000-1 annex B; from memory).
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import TypeAlias

Text: TypeAlias = Callable[[Fraction, "Fraction | None", int], str]
"""Shows a value and its standard uncertainty; the last argument is how many more decimals an echo may need."""


def exact_of(value: float) -> Fraction:
    """Return the shortest decimal that names this float, exactly.

    1.905 is meant where the float holds 1.90500000000000002665: rounding then goes by what was meant. Every 1/64 in
    is a finite decimal of a metre, so a length typed in 64ths comes back without loss.
    """
    return Fraction(repr(float(value)))


def decimal_text(value: Fraction, places: int, *, keep: int | None = None) -> str:
    """Return a value with that many decimals; trailing zeros go until ``keep`` decimals are left."""
    scaled = round(value * 10**places)
    sign = "-" if scaled < 0 else ""
    digits = str(abs(scaled)).rjust(places + 1, "0")
    whole, part = (digits[:-places], digits[-places:]) if places else (digits, "")
    if keep is not None:
        part = part[:keep] + part[keep:].rstrip("0")
    return f"{sign}{whole}.{part}" if part else f"{sign}{whole}"


def spread_text(sd: Fraction, places: int, more: int = 0, *, keep: int | None = None) -> str:
    """Return a standard uncertainty with the decimals of its value, or as many more as its first digit needs."""
    least = places if keep is None else keep
    places += more
    while places < 12 and round(sd * 10**places) == 0:
        places += 1
    return decimal_text(sd, places, keep=least)


def in_unit(size: Fraction, unit: str, places: int, *, keep: int | None = None, zero: Fraction = Fraction(0)) -> Text:
    """Return what shows a quantity in one unit.

    Args:
        size: Size of the unit in the kind's own unit.
        unit: How the unit is written.
        places: Decimals.
        keep: Decimals that stay although they are zero; all by default.
        zero: The own-unit value at which the unit starts (temperatures).
    """
    least = places if keep is None else keep
    behind = f" {unit}" if unit else ""

    def text(value: Fraction, sd: Fraction | None, more: int) -> str:
        shown = f"{decimal_text((value - zero) / size, places + more, keep=least)}{behind}"
        return shown if sd is None else f"{shown} ± {spread_text(sd / size, places, more, keep=least)}{behind}"

    return text
