"""In which unit a figure is shown first: what a shop chose, for a page, a sheet, a tag or a screen while it is laid out.

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


class UnitsShown(msgspec.Struct, frozen=True, kw_only=True):
    """The units that come first; masses are in g and angles in degrees, always.

    Attributes:
        length: Of lengths and diameters.
        temperature: Of temperatures.
    """

    length: LengthUnit = "fractional inches"
    temperature: TemperatureUnit = "C"


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
