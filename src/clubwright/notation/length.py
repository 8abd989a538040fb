"""Lengths and diameters: inches with vulgar fractions, decimal inches, millimetres; and a length split on a rule.

A vulgar fraction without a unit is in inches, always: millimetres are never written in vulgar fractions. A decimal or
a whole number without a unit is refused, because 37 can be inches or centimetres. Inch: 25.4 mm exactly.
"""

from __future__ import annotations

from fractions import Fraction

import msgspec

from clubwright.notation.quantity import Kind
from clubwright.notation.showing import Text, decimal_text, exact_of, in_unit, spread_text
from clubwright.notation.units_shown import LengthUnit, decimal_marked, units_shown
from clubwright.units import INCH_EXACT_M

_MILLIMETRE_M = Fraction(1, 1000)
UNITS = (
    dict.fromkeys(("in", "inch", "inches", '"', "″", "”", "''"), INCH_EXACT_M)
    | dict.fromkeys(("mm",), _MILLIMETRE_M)
    | dict.fromkeys(("cm",), Fraction(1, 100))
    | dict.fromkeys(("m",), Fraction(1))
)
FEET = dict.fromkeys(("ft", "foot", "feet"), INCH_EXACT_M * 12)


class FractionalLength(msgspec.Struct, frozen=True, kw_only=True):
    """A length as it is found on a rule.

    Attributes:
        whole: Whole inches, without sign.
        numerator: Above the line, in lowest terms; 0 when there is no fraction.
        denominator: Below the line, in lowest terms; 1 when there is no fraction.
        remainder_m: What the length has beyond the nearest mark, in metres; negative when it falls short of it.
        negative: Whether the length lies below zero.
        text: The nearest mark, ``"35 31/64 in"``.
        decimal_in: The whole length in inches.
        millimetres: The whole length in millimetres.
    """

    whole: int
    numerator: int
    denominator: int
    remainder_m: float
    negative: bool
    text: str
    decimal_in: float
    millimetres: float


def length_parts(value_m: float, denominator: int = 64) -> FractionalLength:
    """Split a length (m) into the nearest mark of a rule divided in that many parts of an inch, and what is left.

    Ties go to the even mark. The fraction is in lowest terms.
    """
    exact_in = exact_of(value_m) / INCH_EXACT_M
    mark = Fraction(round(exact_in * denominator), denominator)
    whole, part = divmod(abs(mark), 1)
    return FractionalLength(
        whole=int(whole),
        numerator=part.numerator,
        denominator=part.denominator,
        remainder_m=float((exact_in - mark) * INCH_EXACT_M),
        negative=mark < 0,
        text=f"{_mark_text(mark)} in",
        decimal_in=float(exact_in),
        millimetres=float(exact_in * INCH_EXACT_M / _MILLIMETRE_M),
    )


def length_in_full(value_m: float) -> str:
    """Show a length (m) as mark, decimal inches and millimetres, with what is left beyond the mark.

    ``"34 1/64 in (34.016 in, 864.00 mm)"``, or ``"34 1/64 in - 0.006 in (34.010 in, 863.85 mm)"`` when the length
    lies 0.006 in short of the mark. What is less than half a thousandth of an inch is not shown. The unit that comes first
    stands before the others (`clubwright.notation.units_shown`).
    """
    first = length_at_mark(value_m)
    others = [text for text in (_marked(value_m), *_decimals(value_m)) if text != first]
    return f"{first} ({', '.join(others)})"


def length_at_mark(value_m: float) -> str:
    """Show a length (m) in the unit that comes first: as the rule is read, the nearest mark and what is left beyond it.

    ``"34 1/64 in - 0.006 in"``; for a person at the bench ``"34 1/64 in less 0.006 in"``, or decimals where they come first.
    """
    units = units_shown()
    inches, millimetres = _decimals(value_m)
    if units is not None and units.length != "fractional inches":
        return millimetres if units.length == "mm" else inches
    return _marked(value_m)


def length_on_rule(value_m: float) -> str:
    """Show a length (m) as it is set out on a rule, in the unit that comes first: one fraction, decimal or millimetres.

    A fraction is the nearest 64th of an inch, so at most 0.2 mm away; `length_in_full` says what lies beyond it.
    """
    units = units_shown()
    if units is not None and units.length != "fractional inches":
        return length_at_mark(value_m)
    return length_parts(value_m).text


def _is_spoken() -> bool:
    """True where a remainder is said in words, so that nobody takes its sign for a dash; the words are English."""
    units = units_shown()
    return units is not None and units.language == "en"


def _decimals(value_m: float) -> tuple[str, str]:
    exact_in = exact_of(value_m) / INCH_EXACT_M
    return (
        decimal_marked(f"{decimal_text(exact_in, 3)} in"),
        decimal_marked(f"{decimal_text(exact_in * 254 / 10, 2)} mm"),
    )


def _marked(value_m: float) -> str:
    parts = length_parts(value_m)
    less, more = ("less", "plus") if _is_spoken() else ("-", "+")
    left = decimal_text(exact_of(parts.remainder_m) / INCH_EXACT_M, 3)
    beyond = "" if Fraction(left) == 0 else f" {less if left.startswith('-') else more} {left.lstrip('-')} in"
    return f"{parts.text}{decimal_marked(beyond)}"


def _mark_text(mark_in: Fraction) -> str:
    sign = "-" if mark_in < 0 else ""
    whole, part = divmod(abs(mark_in), 1)
    if not part:
        return f"{sign}{whole}"
    return f"{sign}{whole} {part}" if whole else f"{sign}{part}"


def _length_text(value_m: Fraction, sd_m: Fraction | None, more: int) -> str:
    exact_in = value_m / INCH_EXACT_M
    mark = Fraction(round(exact_in * 64), 64)
    # A 64th is shown as the fraction where thousandths could not tell it apart; an echo wants it exact.
    on_the_mark = exact_in == mark if more else decimal_text(exact_in, 3) == decimal_text(mark, 3)
    text = f"{_mark_text(mark) if on_the_mark else decimal_text(exact_in, 3 + more, keep=3)} in"
    return text if sd_m is None else f"{text} ± {spread_text(sd_m / INCH_EXACT_M, 3, more)} in"


def _millimetres(value_m: Fraction) -> str:
    return f"{decimal_text(value_m / _MILLIMETRE_M, 2)} mm"


FIRST: dict[LengthUnit, Text] = {
    "decimal inches": in_unit(INCH_EXACT_M, "in", 3),
    "mm": in_unit(_MILLIMETRE_M, "mm", 2),
}
"""What shows a length where another unit than a fraction of an inch comes first."""

LENGTH = Kind(
    name="length",
    units=UNITS | FEET,
    advice="Write it with its unit, such as 35 1/2 in, 35.5 in or 901.7 mm.",
    fraction_unit="in",
    composites=("ft", "in"),
    relative=True,
    less=True,
    text=_length_text,
    beside=_millimetres,
)
DIAMETER = Kind(
    name="diameter",
    units=UNITS,
    advice="Write it with its unit, such as .600 in or 15.24 mm.",
    fraction_unit="in",
    relative=True,
    text=in_unit(INCH_EXACT_M, "in", 3),
    beside=_millimetres,
)
