"""Angles in degrees, with the words of the trade: up and flat for a lie, strong and weak for a loft, and the wedge pair.

A number without a unit is in degrees (no other unit of angle is used at the bench), except a loft such as 54.10, which
may be a loft with its bounce. Signs: up is a larger lie, strong a smaller loft (common practice, no source).
"""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction

from clubwright.notation.number import leading_number
from clubwright.notation.quantity import Kind, Reading
from clubwright.notation.refusal import Refusal, shown
from clubwright.notation.showing import decimal_text, in_unit
from clubwright.units import DEGREE_RAD

WORDS: dict[str, tuple[str, int]] = {
    "up": ("lie", +1),
    "u": ("lie", +1),
    "upright": ("lie", +1),
    "flat": ("lie", -1),
    "f": ("lie", -1),
    "strong": ("loft", -1),
    "s": ("loft", -1),
    "weak": ("loft", +1),
    "w": ("loft", +1),
}
_NAMED = {"angle": "an angle", "bounce": "a bounce", "lie": "a lie", "loft": "a loft"}
AMOUNTS = {"half": Fraction(1, 2), "quarter": Fraction(1, 4)}
LARGEST_BOUNCE_DEG = 20
"""Above this the second number of a pair is no bounce (common practice, no source)."""

UNITS = dict.fromkeys(("deg", "degree", "degrees", "°"), Fraction(1)) | {"arcmin": Fraction(1, 60)}

_WORD = re.compile(r"(.*?) ?(upright|up|flat|strong|weak)|(.*?[0-9½¼¾⅛⅜⅝⅞]) ?([ufsw])", re.IGNORECASE | re.ASCII)
_STEPPED = re.compile(r"(ss|hs)[ 0-9x]*|[0-9 ]*(ss|hs)", re.IGNORECASE | re.ASCII)
_PAIR = re.compile(r"([0-9]{2})(?:\.([0-9]{2})|[-/]([0-9]{1,2}))")
_ADVICE = "Write degrees, such as 63.5 deg or 63 1/2 deg."
_BARE_PAIR = re.compile(r"[4-6][0-9]\.[0-9]{2}")
_PAIR_ADVICE = "Write loft and bounce in whole degrees, such as 54.10, 54-10 or 58/08."


def _own(kind: str) -> Callable[[str, Fraction | None], Reading | None]:
    def read(text: str, base: Fraction | None) -> Reading | None:
        if kind == "loft" and _STEPPED.fullmatch(text):
            raise Refusal(
                f"{shown(text)} is soft or hard stepping of a shaft, not a loft",
                "Write 1S or 1 strong for a degree less loft; stepping belongs to the shaft.",
            )
        if kind == "loft" and _BARE_PAIR.fullmatch(text) and 1 <= int(text[3:]) <= LARGEST_BOUNCE_DEG:
            raise Refusal(
                f"{shown(text)} may be a loft in degrees or a loft with its bounce",
                "Write 54.10 deg for the angle; give loft and bounce each in its own place for the pair.",
            )
        return _read_word(kind, text, base)

    return read


def _read_word(kind: str, text: str, base: Fraction | None) -> Reading | None:
    match = _WORD.fullmatch(text)
    if match is None:
        return None
    typed_amount, word = (match[1], match[2]) if match[2] else (match[3], match[4])
    word = word.lower()
    belongs, direction = WORDS[word]
    if belongs != kind:
        pair = "up and flat are said of a lie" if belongs == "lie" else "strong and weak are said of a loft"
        raise Refusal(f"{shown(text)}: {pair} only, and here stands {_NAMED[kind]}", _ADVICE)
    amount = _word_amount(typed_amount.strip(), text)
    if base is None:
        raise Refusal(
            f"{shown(text)} is counted from a base that is not stated",
            f"State the {kind} it starts from, or write the whole {kind} in degrees.",
        )
    meaning = f"{'+' if direction > 0 else '-'}{decimal_text(amount, 3, keep=0)} deg from the base"
    return Reading(value=base + direction * amount, unit="deg", relative=True, meant=meaning)


def _word_amount(typed: str, text: str) -> Fraction:
    if typed.lower() in AMOUNTS:
        return AMOUNTS[typed.lower()]
    read = leading_number(typed)
    if read is None:
        raise Refusal(
            f"{shown(text)} names no amount", "Write the degrees before the word, such as 1/2 up or 1 strong."
        )
    amount, _, rest = read
    if rest.strip().lower() not in {"", *UNITS} or rest.strip().lower() == "arcmin":
        raise Refusal(f"{shown(text)} cannot be read", "Write the degrees before the word, such as 1/2 up or 1 strong.")
    return amount


def split_pair(text: str) -> tuple[Fraction, Fraction]:
    """Read loft and bounce of a wedge, in degrees, from ``54.10``, ``54-10`` or ``58/08``.

    Raises:
        Refusal: If the text is no such pair; a point needs two digits behind it, so that 54.5 is not taken for one.
    """
    match = _PAIR.fullmatch(text.replace("°", ""))
    if match is None:
        raise Refusal(f"{shown(text)} is no pair of loft and bounce", _PAIR_ADVICE)
    loft, bounce = Fraction(match[1]), Fraction(match[2] or match[3])
    if bounce > LARGEST_BOUNCE_DEG:
        raise Refusal(f"a bounce of {bounce} degrees in {shown(text)} is no wedge's", _PAIR_ADVICE)
    return loft, bounce


def _own_pair(text: str, _base: Fraction | None) -> Reading:
    loft, bounce = split_pair(text)
    return Reading(value=loft, unit="deg", meant=f"loft {loft} deg with bounce {bounce} deg")


def _kind(name: str, own: Callable[[str, Fraction | None], Reading | None], advice: str = _ADVICE) -> Kind:
    return Kind(
        name=name,
        units=UNITS,
        advice=advice,
        implied="deg",
        relative=name != "loft_bounce",
        spread=name != "loft_bounce",
        to_si=DEGREE_RAD,
        own=own,
        text=in_unit(Fraction(1), "deg", 2, keep=1),
    )


ANGLE = _kind("angle", _own("angle"))
BOUNCE = _kind("bounce", _own("bounce"))
LIE = _kind("lie", _own("lie"), "Write degrees, such as 63.5 deg, or 1/2 up or 1 flat from a stated base.")
LOFT = _kind("loft", _own("loft"), "Write degrees, such as 54.5 deg, or 1 strong or 1 weak from a stated base.")
LOFT_BOUNCE = _kind("loft_bounce", _own_pair, _PAIR_ADVICE)
