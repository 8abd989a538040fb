"""From typed text to a quantity in SI, and back: the register of kinds, ``parse`` and ``render``."""

from __future__ import annotations

import math
import re
from fractions import Fraction

import msgspec

from clubwright.errors import Finding, InputError
from clubwright.notation import angle, grip, length, mass, other, swing_weight
from clubwright.notation.number import exact_of
from clubwright.notation.quantity import DEGREES_KEPT, Kind, Reading, read_spread, read_value
from clubwright.notation.ranges import RANGES
from clubwright.notation.refusal import Refusal, shown

LONGEST = 80
"""Characters of the longest text that is read as one value; no notation of the trade comes near it."""

_REGISTER: dict[str, Kind] = {
    kind.name: kind
    for kind in (
        length.LENGTH,
        length.DIAMETER,
        angle.ANGLE,
        angle.LOFT,
        angle.LIE,
        angle.BOUNCE,
        angle.LOFT_BOUNCE,
        mass.MASS,
        mass.LINEAR_DENSITY,
        mass.DENSITY,
        mass.AREA_DENSITY,
        mass.MOI,
        mass.MASS_MOMENT,
        swing_weight.SWING_WEIGHT,
        swing_weight.POINTS,
        grip.GRIP_CORE,
        other.FREQUENCY,
        other.TEMPERATURE,
        other.DURATION,
        other.SPEED,
        other.RATIO,
        other.COUNT,
        other.NUMBER,
    )
}
KINDS: tuple[str, ...] = tuple(_REGISTER)
"""The names of the kinds that ``parse`` and ``render`` know."""

_SPREAD = re.compile(r" ?(?:±|\+/-|\+-) ?")
_ANY_SPACE = re.compile(r"[ \t\u00a0\u2009\u202f]+")


class Understood(msgspec.Struct, frozen=True, kw_only=True):
    """One typed value and what was understood.

    Attributes:
        kind: One of ``KINDS``.
        typed: The text as typed.
        value: The value in SI (angles in rad, swing weight in points above A0).
        exact: The same without rounding, where it is a rational number of SI units; None for angles.
        sd: Standard uncertainty in SI, when one was typed behind ``±``.
        echo: What was understood, for the person who typed it.
    """

    kind: str
    typed: str
    value: float
    exact: Fraction | None
    sd: float | None
    echo: str


def parse(
    kind: str, text: str, *, where: str = "input", base: float | None = None, default_unit: str | None = None
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
    how = _REGISTER[kind]
    try:
        return _understand(how, text, base, default_unit)
    except Refusal as refusal:
        raise InputError([Finding(where=where, what=refusal.what, mend=refusal.mend)]) from None


def render(kind: str, value: float, sd: float | None = None) -> str:
    """Show a value in SI as trade text that ``parse`` reads back, to the resolution of the kind.

    A standard uncertainty of zero is left out.

    Raises:
        ValueError: If value or uncertainty is not finite, or the uncertainty is negative.
    """
    if not math.isfinite(value) or (sd is not None and not (math.isfinite(sd) and sd >= 0)):
        raise ValueError(f"no text for {kind} {value!r} ± {sd!r}")
    how = _REGISTER[kind]
    spread = None if sd is None or _own_unit(how, sd) < Fraction(1, 10**12) else _own_unit(how, sd)
    return how.text(_own_unit(how, value), spread)


def pair(text: str, *, where: str = "input") -> tuple[Understood, Understood]:
    """Read loft and bounce of a wedge from ``54.10``, ``54-10`` or ``58/08``.

    Raises:
        InputError: If the text is no such pair.
    """
    loft = parse("loft_bounce", text, where=where)
    _, bounce_deg = angle.split_pair(_squeezed(text))
    bounce = parse("bounce", f"{bounce_deg} deg", where=where)
    return (
        msgspec.structs.replace(loft, kind="loft"),
        msgspec.structs.replace(bounce, typed=text, echo=loft.echo),
    )


def grip_core(text: str, *, where: str = "input") -> grip.GripCore:
    """Read the core of a grip from its stamp (``58``, ``M60``, ``60 rib``) or its diameter (``.580 in``).

    Raises:
        InputError: If the text is neither.
    """
    understood = parse("grip_core", text, where=where)
    stamp = grip.split_stamp(_squeezed(text))
    return grip.GripCore(core_m=understood.value, shape=stamp[1] if stamp else None, typed=text, echo=understood.echo)


def _understand(how: Kind, typed: str, base: float | None, default_unit: str | None) -> Understood:
    text = _squeezed(typed)
    if not text:
        raise Refusal("nothing is written", how.advice)
    if len(text) > LONGEST:
        raise Refusal(f"{shown(text)} is too long for one value", f"Write one value only. {how.advice}")
    if "," in text:
        raise Refusal(f"{shown(text)} has a comma", "Write 35.5 or 35 1/2; a comma is not read as a decimal point.")
    parts = _SPREAD.split(text)
    if len(parts) > 2:
        raise Refusal(f"{shown(text)} has more than one ±", "Write one value and one ± behind it.")
    if not parts[0]:
        raise Refusal(f"{shown(text)} has nothing before the ±", how.advice)
    reading = read_value(how, parts[0], None if base is None else _own_unit(how, base), default_unit)
    _check_range(how, reading.value, text)
    spread = None
    if len(parts) == 2:
        spread = read_spread(how, parts[1], reading.unit or default_unit or how.implied)
        limits = RANGES[how.name]
        if spread > limits.high - limits.low:
            raise Refusal(f"the width behind ± in {shown(text)} is beyond reason", limits.why + ".")
    return Understood(
        kind=how.name,
        typed=typed,
        value=_si(how, reading.value),
        exact=reading.value if how.to_si is None else None,
        sd=None if spread is None else _si(how, spread),
        echo=_echo(how, text, reading, spread),
    )


def _check_range(how: Kind, value: Fraction, text: str) -> None:
    limits = RANGES[how.name]
    if not limits.holds(value):
        raise Refusal(f"{shown(text)} is out of range: {limits.why}", f"Check the unit and the digits. {how.advice}")


def _echo(how: Kind, text: str, reading: Reading, spread: Fraction | None) -> str:
    shown_value = how.text(reading.value, spread)
    sides = [shown_value]
    if reading.relative or reading.unit is None or shown_value.lower() != text.lower():
        sides.insert(0, text)
    if how.beside is not None:
        sides.append(how.beside(reading.value))
        if not reading.relative and len(sides) == 3:
            sides.pop(0)
    meant = f" ({reading.meant})" if reading.meant else ""
    return " = ".join(dict.fromkeys(sides)) + meant


def _squeezed(text: str) -> str:
    return _ANY_SPACE.sub(" ", text).strip(" ").replace("−", "-").replace("⁄", "/")


def _own_unit(how: Kind, si: float) -> Fraction:
    return exact_of(si) if how.to_si is None else exact_of(round(si / how.to_si, DEGREES_KEPT))


def _si(how: Kind, value: Fraction) -> float:
    return float(value) if how.to_si is None else float(value) * how.to_si
