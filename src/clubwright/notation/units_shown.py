"""How figures and words are shown: units first, decimal mark, language; what a shop chose, while something is laid out.

Outside of `shown_in` every text is the canonical one: what is stored, what another program reads, and what is read back
never depends on it. It changes how figures are shown, never how what is typed is read.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from typing import Literal

import msgspec

LengthUnit = Literal["fractional inches", "decimal inches", "mm"]
LENGTHS: tuple[LengthUnit, ...] = ("fractional inches", "decimal inches", "mm")
TemperatureUnit = Literal["C", "F"]
TEMPERATURES: tuple[TemperatureUnit, ...] = ("C", "F")
DecimalMark = Literal["point", "comma"]
DECIMAL_MARKS: tuple[DecimalMark, ...] = ("point", "comma")
LanguageKey = Literal["en", "de"]
LANGUAGES: tuple[LanguageKey, ...] = ("en", "de")


class UnitsShown(msgspec.Struct, frozen=True, kw_only=True):
    """The units that come first, the decimal mark and the language; masses are in g and angles in degrees, always.

    Attributes:
        length: Of lengths and diameters.
        temperature: Of temperatures.
        decimal: Mark between whole and part of a decimal figure.
        language: Of the sentences that are made for a person (`clubwright.words`).
    """

    length: LengthUnit = "fractional inches"
    temperature: TemperatureUnit = "C"
    decimal: DecimalMark = "point"
    language: LanguageKey = "en"


_SHOWN: ContextVar[UnitsShown | None] = ContextVar("units_shown", default=None)


@contextmanager
def shown_in(units: UnitsShown | None) -> Iterator[None]:
    """Show figures in these units first while something is laid out for a person; None for the canonical texts."""
    before = _SHOWN.set(units)
    try:
        yield
    finally:
        _SHOWN.reset(before)


def units_shown() -> UnitsShown | None:
    """Return the units that come first; None where texts are canonical."""
    return _SHOWN.get()


def decimal_marked(text: str) -> str:
    """Return a figure written with a point with the decimal mark that is to be shown."""
    units = _SHOWN.get()
    return text if units is None or units.decimal == "point" else text.replace(".", ",")
