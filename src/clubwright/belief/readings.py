"""Readings: what a gauge showed, at which stage, with which weights fitted."""

from __future__ import annotations

import msgspec

from clubwright.belief.instruments import Instrument
from clubwright.club.build import Conventions, FrequencyMeter
from clubwright.club.stages import Stage
from clubwright.errors import Where


class Reading(msgspec.Struct, frozen=True, kw_only=True):
    """One reading, or the mean of a few taken in a row.

    Attributes:
        where: Place in the input, for the person.
        quantity: Key in the register of quantities, or the path of a part's number such as ``grip.mass_kg``.
        value: In SI.
        stage: Stage of the build.
        fitted: How many of each weight of the tray were on.
        instrument: The gauge.
        repeats: How many readings the value is the mean of.
        keep: A person's decision about a reading that did not fit: True to use it, False to leave it out, None when
            nobody has decided.
        then: The first change of the club after it, by its place in ``Club.earlier``; None for the club as it is now.
        meter: How a frequency was read, where that is not the way of the definitions in use.
    """

    where: Where
    quantity: str
    value: float
    stage: Stage
    fitted: tuple[float, ...]
    instrument: Instrument
    repeats: int = 1
    keep: bool | None = None
    then: int | None = None
    meter: FrequencyMeter | None = None

    def read_by(self, conventions: Conventions) -> Conventions:
        """Return the definitions by which it was read: those in use, but for how a frequency meter held the club."""
        return conventions if self.meter is None else msgspec.structs.replace(conventions, meter=self.meter)
