"""One reading of a bare shaft in a clamp: what a stiffness fit goes by."""

from __future__ import annotations

from typing import Literal

import msgspec

from clubwright.errors import Where
from clubwright.units import INCH_M


class StiffnessReading(msgspec.Struct, frozen=True, kw_only=True):
    """One reading of a bare shaft in a clamp.

    Attributes:
        where: What findings call it, such as the line of a file.
        kind: ``frequency`` with a test mass on the tip, or ``deflection`` of the tip under a hung mass, rigid clamp.
        value: In Hz, or in m.
        sd: Standard deviation of the gauge, same unit.
        clamp_length_m: From the butt end to the clamp's edge that faces the tip.
        mass_kg: The test mass, or what is hung on the tip.
        insertion_m: How far the tip sits in the test mass; no meaning for a deflection.
    """

    where: Where
    kind: Literal["frequency", "deflection"]
    value: float
    sd: float
    clamp_length_m: float
    mass_kg: float
    insertion_m: float = INCH_M
