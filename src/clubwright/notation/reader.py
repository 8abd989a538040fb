"""From typed text to a quantity in SI, and back: ``parse``, ``parse_difference`` and ``render``."""

from __future__ import annotations

import math
import re
from fractions import Fraction
from functools import lru_cache

import msgspec

from clubwright.errors import Finding, InputError, Where
from clubwright.notation.length import FIRST
from clubwright.notation.other import FAHRENHEIT
from clubwright.notation.quantity import Kind, Reading, read_difference, read_spread, read_value
from clubwright.notation.ranges import LARGEST_STEPS, RANGES
from clubwright.notation.refusal import Refusal, shown
from clubwright.notation.register import REGISTER
from clubwright.notation.showing import Text, exact_of
from clubwright.notation.thousands import may_be_thousands
from clubwright.notation.units_shown import UnitsShown, decimal_marked, units_shown

LONGEST = 80
"""Characters of the longest text that is read as one value; no notation of the trade comes near it."""

ECHO_DECIMALS = 2
"""How many more decimals an echo may show than ``render`` does, so that what was typed is not seen rounded."""

_DEGREES_KEPT = 12
_SMALLEST_SHOWN = Fraction(1, 10**12)
_SPREAD = re.compile(r" ?(?:±|\+/-|\+-) ?")
_ANY_SPACE = re.compile(r"[ \t\u00a0\u2009\u202f]+")


KEPT = 4096
"""Texts understood or shown before are kept: a page asks for the same ones again after every reading."""


class Understood(msgspec.Struct, frozen=True, kw_only=True):
    """One typed value and what was understood.

    Attributes:
        kind: One of ``KINDS``.
        typed: The text as typed.
        value: The value in SI (angles in rad, swing weight in points above A0).
        exact: The same without rounding, where it is a rational number of SI units; None for angles.
        sd: Standard uncertainty in SI, when one was typed behind ``±``.
        echo: What was understood, for the person who typed it.
        stepped: Whether it was typed as an amount from a base.
    """

    kind: str
    typed: str
    value: float
    exact: Fraction | None
    sd: float | None
    echo: str
    stepped: bool = False


def parse(
    kind: str, text: str, *, where: Where = "input", base: float | None = None, default_unit: str | None = None
) -> Understood:
    """Read one value in trade notation, exactly or not at all.

    A number written with a vulgar fraction and no unit is inches for lengths and diameters, always: millimetres are
    never written in vulgar fractions. A signed value is counted from the base when one is given; without a base a
    minus with a unit is a plain negative value, and a plus is refused.

    Args:
        kind: One of ``KINDS``.
        text: As typed.
        where: Place in the input, for the finding.
        base: Value in SI that ``+1/4``, ``std`` or ``1 up`` is counted from.
        default_unit: Unit of a number without one, where the place has already said it (a column heading).

    Raises:
        InputError: If the text is not a value of this kind, with one finding.
        KeyError: If there is no such kind, which is the caller's error.
    """
    return _parsed(kind, text, where, base, default_unit)


@lru_cache(maxsize=KEPT)
def _parsed(kind: str, text: str, where: Where, base: float | None, default_unit: str | None) -> Understood:
    how = REGISTER[kind]
    try:
        value_part, spread_part = _split(how, text)
        counted_from = None if base is None else _own_unit(how, base)
        reading = read_value(how, value_part, counted_from, default_unit)
        _check_range(how, reading.value, text)
        if reading.relative and counted_from is not None:
            _check_step(how, reading.value - counted_from, text)
        return _understood(how, text, reading, spread_part, default_unit)
    except Refusal as refusal:
        raise InputError([Finding(where=where, what=refusal.what, mend=refusal.mend)]) from None


def parse_difference(kind: str, text: str, *, where: Where = "input", default_unit: str | None = None) -> Understood:
    """Read how much two values of a kind may differ: a tolerance, a resolution, a repeatability, a bias.

    ``1 cpm`` is no frequency of a club and ``5 C`` no change of 278 K: a difference has no zero of a scale, may be
    negative, and is bound only by the width of the kind's range. Swing weight takes points (``1/4 pt``).

    Raises:
        InputError: If the text is not a difference of this kind, with one finding.
        KeyError: If there is no such kind, which is the caller's error.
    """
    return _parsed_difference(kind, text, where, default_unit)


@lru_cache(maxsize=KEPT)
def _parsed_difference(kind: str, text: str, where: Where, default_unit: str | None) -> Understood:
    how = REGISTER[kind]
    try:
        value_part, spread_part = _split(how, text)
        if spread_part is not None:
            raise Refusal(f"{shown(text)} has a ±", "Write the width alone, without the ±.")
        reading = read_difference(how, value_part, default_unit)
        limits = RANGES[kind]
        if abs(reading.value) > limits.high - limits.low:
            raise Refusal(
                f"{shown(text)} is out of range: {limits.why}", f"Check the unit and the digits. {how.advice}"
            )
    except Refusal as refusal:
        raise InputError([Finding(where=where, what=refusal.what, mend=refusal.mend)]) from None
    value = _si(how, reading.value)
    exact = reading.value if how.to_si is None else None
    return Understood(kind=kind, typed=text, value=value, exact=exact, sd=None, echo=value_part)


def render(kind: str, value: float, sd: float | None = None) -> str:
    """Show a value in SI as trade text that ``parse`` reads back, to the resolution of the kind.

    A standard uncertainty of zero is left out.

    Raises:
        ValueError: If value or uncertainty is not finite, or the uncertainty is negative.
    """
    if not math.isfinite(value) or (sd is not None and not (math.isfinite(sd) and sd >= 0)):
        raise ValueError(f"no text for {kind} {value!r} ± {sd!r}")
    return decimal_marked(_rendered(kind, value, sd, units_shown()))


def render_apart(kind: str, value: float, sd: float) -> tuple[str, str]:
    """Show a value and its standard uncertainty each by itself, as `render` shows them together; the latter may be empty."""
    shown, _, spread = render(kind, value, sd).partition(" ± ")
    return shown, spread


@lru_cache(maxsize=KEPT)
def _rendered(kind: str, value: float, sd: float | None, units: UnitsShown | None) -> str:
    how = REGISTER[kind]
    spread = None if sd is None else _own_unit(how, sd)
    return _text_of(how, units)(_own_unit(how, value), spread if spread and spread >= _SMALLEST_SHOWN else None, 0)


def _text_of(how: Kind, units: UnitsShown | None) -> Text:
    """Return what shows a kind in the unit that comes first."""
    if units is None:
        return how.text
    if how.name == "temperature":
        return FAHRENHEIT if units.temperature == "F" else how.text
    if how.name == "length" or (how.name == "diameter" and units.length == "mm"):
        return FIRST.get(units.length, how.text)
    return how.text


def squeezed(text: str) -> str:
    """Return a typed text with single plain spaces, a plain minus and a plain stroke."""
    return _ANY_SPACE.sub(" ", text).strip().replace("−", "-").replace("⁄", "/")


def _split(how: Kind, typed: str) -> tuple[str, str | None]:
    text = squeezed(typed)
    if not text:
        raise Refusal("nothing is written", how.advice)
    if len(text) > LONGEST:
        raise Refusal(f"{shown(text)} is too long for one value", f"Write one value only. {how.advice}")
    if may_be_thousands(text):
        mend = "Write thousands without a comma, such as 1000, and decimals with a point, such as 1.5."
        raise Refusal(f"{shown(text)} can be read two ways, as thousands and as decimals", mend)
    if "," in text:
        raise Refusal(f"{shown(text)} has a comma", f"Write a point in its place. {how.advice}")
    if not text.isprintable():
        raise Refusal(f"{shown(text)} has a line break or a sign that cannot be seen", f"Type it anew. {how.advice}")
    parts = _SPREAD.split(text)
    if len(parts) > 2:
        raise Refusal(f"{shown(text)} has more than one ±", "Write one value and one ± behind it.")
    if not parts[0]:
        raise Refusal(f"{shown(text)} has nothing before the ±", how.advice)
    return parts[0], parts[1] if len(parts) == 2 else None


def _understood(
    how: Kind, typed: str, reading: Reading, spread_part: str | None, default_unit: str | None
) -> Understood:
    spread = None
    if spread_part is not None:
        spread = read_spread(how, spread_part, reading.unit or default_unit or how.implied)
        limits = RANGES[how.name]
        if spread > limits.high - limits.low:
            raise Refusal(f"the width behind ± in {shown(typed)} is beyond reason", f"Check it: {limits.why}.")
    return Understood(
        kind=how.name,
        typed=typed,
        value=_si(how, reading.value),
        exact=reading.value if how.to_si is None else None,
        sd=None if spread is None else _si(how, spread),
        echo=_echo(how, squeezed(typed), reading, spread),
        stepped=reading.relative and reading.unit is not None,
    )


def _check_range(how: Kind, value: Fraction, text: str) -> None:
    limits = RANGES[how.name]
    if not limits.holds(value):
        raise Refusal(f"{shown(text)} is out of range: {limits.why}", f"Check the unit and the digits. {how.advice}")


def _check_step(how: Kind, step: Fraction, text: str) -> None:
    largest, why = LARGEST_STEPS[how.name]
    if abs(step) > largest:
        raise Refusal(f"{shown(text)} is a large step: {why}", "Write the whole value, without a sign or a word.")


def _echo(how: Kind, text: str, reading: Reading, spread: Fraction | None) -> str:
    understood = how.text(reading.value, spread, ECHO_DECIMALS)
    sides = [understood]
    if how.beside is not None:
        sides.append(how.beside(reading.value))
    if reading.relative or reading.unit is None or (how.beside is None and understood.lower() != text.lower()):
        sides.insert(0, text)
    meant = f" ({reading.meant})" if reading.meant else ""
    return " = ".join(dict.fromkeys(sides)) + meant


def _own_unit(how: Kind, si: float) -> Fraction:
    return exact_of(si) if how.to_si is None else exact_of(round(si / how.to_si, _DEGREES_KEPT))


def _si(how: Kind, value: Fraction) -> float:
    return float(value) if how.to_si is None else float(value) * how.to_si
