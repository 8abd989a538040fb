"""One kind of quantity: its units, how it is shown, and the grammar that every kind with units shares.

value      = [sign] number [unit] | "std" [sign number [unit]] | composite
number     = decimal | whole fraction | whole-fraction | fraction | vulgar sign
typed text = value ["±" number [unit]]
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from fractions import Fraction

import msgspec

from clubwright.notation.number import leading_number
from clubwright.notation.refusal import Refusal, shown
from clubwright.notation.showing import Text

_LESS = re.compile(r"([0-9.][^-]*[^-0-9. ]) - ([0-9.][^-]*[^-0-9. ])", re.ASCII)
"""One value less another, blanks around the minus, each with its unit: ``35-1/2`` and ``35 - 1/2`` are one value."""

RULE_DIVISIONS = (1, 2, 4, 8, 16, 32, 64, 128)
"""Into how many parts a rule divides an inch."""


class Reading(msgspec.Struct, frozen=True, kw_only=True):
    """What one value part says: exact value in the kind's own unit, the unit it was typed in, and how it was meant."""

    value: Fraction
    unit: str | None
    relative: bool = False
    meant: str = ""


class Kind(msgspec.Struct, frozen=True, kw_only=True):
    """One kind of quantity.

    Attributes:
        name: The kind's name, as given to ``parse``.
        units: Each accepted spelling (lower case) and its exact size in the kind's own unit.
        zeros: For units that do not start at zero (temperatures): what is added before the size is multiplied.
        advice: How to write it right; the mend of most findings.
        implied: Unit of a number without one, where only one is plausible.
        fraction_unit: Unit of a vulgar fraction without one.
        composites: Units that may follow each other in one value ("1 h 30 min"), largest first.
        relative: Whether a signed value may be counted from a base.
        less: Whether a value may be written as one less another, each with its unit: what a rule shows less a test shaft.
        spread: Whether a standard uncertainty may be typed behind ``±``.
        to_si: SI size of the kind's own unit; None when the own unit is SI and values are exact in it.
        own: Further grammar of this kind: takes value part and base, returns None to let the shared grammar try.
        text: Shows value and standard uncertainty (own unit) in trade text.
        beside: The second reading in the echo (own unit), such as millimetres beside inches.
    """

    name: str
    units: Mapping[str, Fraction]
    advice: str
    text: Text
    zeros: Mapping[str, Fraction] = {}
    implied: str | None = None
    fraction_unit: str | None = None
    composites: tuple[str, ...] = ()
    relative: bool = False
    less: bool = False
    spread: bool = True
    to_si: float | None = None
    own: Callable[[str, Fraction | None], Reading | None] | None = None
    beside: Callable[[Fraction], str] | None = None


def read_value(kind: Kind, text: str, base: Fraction | None, default_unit: str | None) -> Reading:
    """Read the part before any ``±``.

    Raises:
        Refusal: If the text is not a value of this kind.
    """
    if kind.own is not None and (reading := kind.own(text, base)) is not None:
        return reading
    if kind.less and (parts := _LESS.fullmatch(text)) is not None:
        (first, unit), (second, of_second) = (_amount(kind, part, text, None) for part in parts.groups())
        return Reading(
            value=first * kind.units[unit] - second * kind.units[of_second], unit=unit, meant="the difference"
        )
    match = re.fullmatch(r"(std)? ?([+-])? ?(.*)", text, re.IGNORECASE | re.DOTALL | re.ASCII)
    assert match is not None
    standard, sign, rest = match.groups()
    if standard and not kind.relative:
        raise Refusal(f"{shown(text)}: {_spoken(kind)} has no standard to count from", kind.advice)
    if standard and base is None:
        raise Refusal(f"{shown(text)} is counted from a base that is not stated", f"State the base, or {_lower(kind)}")
    if standard and not rest:
        if sign:
            raise Refusal(f"{shown(text)} names no amount", "Write std alone, or std with an amount such as std-1/32.")
        assert base is not None
        return Reading(value=base, unit=None, relative=True, meant="the base")
    if standard and not sign:
        raise Refusal(f"{shown(text)} has something behind std", "Write std alone, or std with + or - and an amount.")
    relative = bool(sign) and base is not None and kind.relative
    if sign == "+" and not kind.relative:
        raise Refusal(f"{shown(text)} has a plus, and {_spoken(kind)} is counted from nothing", kind.advice)
    if sign == "+" and base is None:
        raise Refusal(
            f"{shown(text)} is counted from a base that is not stated",
            f"State the base, or write the whole value without the plus. {kind.advice}",
        )
    size, unit = _amount(kind, rest, text, default_unit)
    signed = -size if sign == "-" else size
    if relative and base is not None:
        return Reading(value=base + signed * kind.units[unit], unit=unit, relative=True, meant="from the base")
    return Reading(value=(signed + kind.zeros.get(unit, Fraction(0))) * kind.units[unit], unit=unit)


def read_difference(kind: Kind, text: str, default_unit: str | None) -> Reading:
    """Read an amount by which two values of the kind differ: a sign is taken, a scale's zero and a base are not."""
    sign, rest = (text[0], text[1:].lstrip(" ")) if text[:1] in {"+", "-"} else ("", text)
    size, unit = _amount(kind, rest, text, default_unit)
    return Reading(value=(-size if sign == "-" else size) * kind.units[unit], unit=unit)


def read_spread(kind: Kind, text: str, value_unit: str | None) -> Fraction:
    """Read the standard uncertainty behind ``±``, in the kind's own unit; it takes the value's unit if it has none."""
    if not kind.spread:
        raise Refusal(f"{_spoken(kind)} carries no ±", kind.advice)
    if not text:
        raise Refusal("nothing stands behind ±", "Write the standard uncertainty behind it, such as ± 0.3.")
    if text[0] in "+-":
        raise Refusal(f"the value behind ± has a sign: {shown(text)}", "Write the standard uncertainty without a sign.")
    size, unit = _amount(kind, text, text, value_unit)
    if size <= 0:
        raise Refusal(
            f"the width behind ± is zero: {shown(text)}", "Leave the ± out, or write the uncertainty there is."
        )
    return size * kind.units[unit]


def _amount(kind: Kind, text: str, whole_text: str, default_unit: str | None) -> tuple[Fraction, str]:
    read = leading_number(text)
    if read is None:
        raise _no_number(kind, text, whole_text)
    size, is_fraction, rest = read
    unit = rest.strip().lower()
    if unit in kind.units:
        _check_mark(kind, size, unit, whole_text, is_fraction=is_fraction)
        return size, unit
    if not unit:
        assumed = kind.fraction_unit if is_fraction and kind.fraction_unit else default_unit or kind.implied
        if assumed is None:
            raise Refusal(f"{shown(whole_text)} has no unit, and more than one would do", kind.advice)
        if assumed.lower() not in kind.units:
            raise Refusal(f"{shown(whole_text)} has no unit, and {assumed!r} is none of this kind", kind.advice)
        _check_mark(kind, size, assumed.lower(), whole_text, is_fraction=is_fraction)
        return size, assumed.lower()
    if kind.composites and (composite := _composite(kind, text, whole_text)) is not None:
        return composite
    if leading_number(unit.lstrip("+-/.: ")) is not None:
        raise Refusal(f"{shown(whole_text)} holds more than one number", f"Write one value only. {kind.advice}")
    raise Refusal(f"{shown(unit)} in {shown(whole_text)} is no unit of {_spoken(kind)}", kind.advice)


def _check_mark(kind: Kind, size: Fraction, unit: str, whole_text: str, *, is_fraction: bool) -> None:
    """Refuse a fraction of an inch that is on no rule: 1/26 is a slip of the hand for 1/16."""
    if not is_fraction or kind.fraction_unit is None or kind.units[unit] != kind.units[kind.fraction_unit]:
        return
    if size.denominator not in RULE_DIVISIONS:
        raise Refusal(
            f"{shown(whole_text)} is on no rule: an inch is divided in halves down to 128ths",
            "Write such a fraction, such as 11/16, or a decimal, such as .3 in.",
        )


def _composite(kind: Kind, text: str, whole_text: str) -> tuple[Fraction, str] | None:
    """Read "2 ft 11 1/2 in" or "1 h 30 min": units fall in size, only the last part may be broken."""
    total, last_size, last_unit, rest = Fraction(0), None, "", text
    overlap = broken = False
    while rest:
        read = leading_number(rest)
        if read is None:
            return None
        number, _, tail = read
        match = re.match(r" ?([a-z]+) ?", tail, re.IGNORECASE | re.ASCII)
        if match is None or match[1].lower() not in kind.composites:
            return None
        last_unit, rest = match[1].lower(), tail[match.end() :]
        size = kind.units[last_unit]
        overlap |= last_size is not None and (size >= last_size or number * size >= last_size)
        broken |= bool(rest) and number.denominator != 1
        total, last_size = total + number * size, size
    if overlap:
        raise Refusal(
            f"the parts of {shown(whole_text)} overlap", f"Write each unit once, largest first. {kind.advice}"
        )
    if broken:
        raise Refusal(f"only the last part of {shown(whole_text)} may be broken", kind.advice)
    return total / kind.units[last_unit], last_unit


def _no_number(kind: Kind, text: str, whole_text: str) -> Refusal:
    bare = text.strip().lower()
    if not bare:
        return Refusal("nothing is written" if not whole_text else f"{shown(whole_text)} names no amount", kind.advice)
    if bare in {"nan", "inf", "infinity", "none", "null"}:
        return Refusal(f"{shown(whole_text)} is not a number that can be measured", f"Leave it out, or {_lower(kind)}")
    if bare[0] in "+-":
        return Refusal(f"{shown(whole_text)} has two signs", kind.advice)
    return Refusal(f"{shown(whole_text)} does not start with a number", kind.advice)


def _spoken(kind: Kind) -> str:
    return "this kind (" + kind.name.replace("_", " ") + ")"


def _lower(kind: Kind) -> str:
    return kind.advice[0].lower() + kind.advice[1:]
