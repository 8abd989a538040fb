"""The other kinds: frequency, temperature, duration, speed, mixing ratio, counts and plain numbers."""

from __future__ import annotations

import re
from fractions import Fraction

from clubwright.notation.number import leading_number
from clubwright.notation.quantity import Kind, Reading
from clubwright.notation.refusal import Refusal, shown
from clubwright.notation.showing import decimal_text, in_unit, spread_text
from clubwright.units import INCH_EXACT_M

MILE_M = INCH_EXACT_M * 12 * 5280
CELSIUS_ZERO_K = Fraction("273.15")
_RATIO_ADVICE = "Write both parts, such as 2:1 or 100:44."


def _duration_text(value_s: Fraction, sd_s: Fraction | None, more: int) -> str:
    behind = "" if sd_s is None else f" ± {spread_text(sd_s, 3 if value_s < 60 else 0, more, keep=0)} s"
    # What is under a minute is timed (a pendulum, a contact), to the millisecond; what is longer is waited for.
    places = (3 if value_s < 60 else 0) + more
    shown_s = Fraction(decimal_text(value_s, places))
    if shown_s < 60:
        return f"{decimal_text(shown_s, places, keep=0)} s{behind}"
    minutes, seconds = divmod(shown_s, 60)
    hours, minutes = divmod(minutes, 60)
    parts = [
        f"{decimal_text(Fraction(n), places, keep=0)} {unit}"
        for n, unit in ((hours, "h"), (minutes, "min"), (seconds, "s"))
        if n
    ]
    return " ".join(parts) + behind


def _own_duration(text: str, _base: Fraction | None) -> None:
    if re.search(r"[0-9]:[0-9]", text):
        raise Refusal(
            f"{shown(text)} may be hours and minutes or minutes and seconds", "Write it with units, such as 1 h 30 min."
        )


def _own_ratio(text: str, _base: Fraction | None) -> Reading:
    first, colon, second = text.partition(":")
    if not colon:
        raise Refusal(f"{shown(text)} has no colon", _RATIO_ADVICE)
    parts = [leading_number(part.strip()) for part in (first, second)]
    values = [part[0] for part in parts if part is not None and not part[2]]
    if len(values) != 2:
        raise Refusal(f"{shown(text)} is no ratio of two numbers", _RATIO_ADVICE)
    if 0 in values:
        raise Refusal(f"{shown(text)} has a part of zero", _RATIO_ADVICE)
    return Reading(value=values[0] / values[1], unit=None)


def _own_count(text: str, _base: Fraction | None) -> Reading:
    if not re.fullmatch(r"[0-9]+", text):
        raise Refusal(f"{shown(text)} is no whole number from 0 upward", "Write a whole number, such as 3.")
    return Reading(value=Fraction(text), unit=None)


FREQUENCY = Kind(
    name="frequency",
    units={"cpm": Fraction(1, 60), "hz": Fraction(1)},
    advice="Write it with its unit, such as 255 cpm or 4.25 Hz.",
    text=in_unit(Fraction(1, 60), "cpm", 1),
)
TEMPERATURE = Kind(
    name="temperature",
    units=dict.fromkeys(("c", "°c", "deg c"), Fraction(1))
    | dict.fromkeys(("f", "°f", "deg f"), Fraction(5, 9))
    | {"k": Fraction(1)},
    zeros=dict.fromkeys(("c", "°c", "deg c"), CELSIUS_ZERO_K) | dict.fromkeys(("f", "°f", "deg f"), Fraction("459.67")),
    advice="Write it with its unit, such as 345 F or 174 C.",
    text=in_unit(Fraction(1), "C", 1, zero=CELSIUS_ZERO_K),
)
FAHRENHEIT = in_unit(Fraction(5, 9), "F", 1, zero=Fraction("459.67") * Fraction(5, 9))
"""Shows a temperature where Fahrenheit comes first; its zero lies at 459.67 times 5/9 K."""
DURATION = Kind(
    name="duration",
    units={"ms": Fraction(1, 1000)}
    | dict.fromkeys(("s", "sec", "second", "seconds"), Fraction(1))
    | dict.fromkeys(("min", "minute", "minutes"), Fraction(60))
    | dict.fromkeys(("h", "hr", "hour", "hours"), Fraction(3600))
    | dict.fromkeys(("d", "day", "days"), Fraction(86400)),
    composites=("d", "h", "min", "s"),
    advice="Write it with units, such as 90 s, 2 3/4 min, 1 h 30 min or 24 h.",
    own=_own_duration,
    text=_duration_text,
)
SPEED = Kind(
    name="speed",
    units={
        "mph": MILE_M / 3600,
        "m/s": Fraction(1),
        "km/h": Fraction(1000, 3600),
        "ft/s": INCH_EXACT_M * 12,
    },
    advice="Write it with its unit, such as 100 mph or 45 m/s.",
    text=in_unit(MILE_M / 3600, "mph", 1),
)


def _ratio_text(value: Fraction, _sd: Fraction | None, more: int) -> str:
    return f"{decimal_text(value, 4 + more, keep=0)}:1"


RATIO = Kind(name="ratio", units={}, advice=_RATIO_ADVICE, spread=False, own=_own_ratio, text=_ratio_text)
COUNT = Kind(
    name="count",
    units={},
    advice="Write a whole number.",
    spread=False,
    own=_own_count,
    text=in_unit(Fraction(1), "", 0),
)
NUMBER = Kind(
    name="number",
    units={"": Fraction(1)},
    advice="Write a number, such as 1.25 or 3/4.",
    implied="",
    text=in_unit(Fraction(1), "", 6, keep=0),
)
