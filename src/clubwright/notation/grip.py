"""The core of a grip as stamped on it: 58 is .580 in, M is men's, and ribbed or round.

``R`` behind the size is read as ribbed (common practice, no source). Some lists use R for round: ``rib`` and ``round``
spelled out leave no doubt, and the echo says which was understood.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Literal

from clubwright.notation.length import DIAMETER
from clubwright.notation.quantity import Kind, Reading, read_value
from clubwright.notation.refusal import Refusal, shown
from clubwright.units import INCH_EXACT_M

Shape = Literal["round", "ribbed"]
R_MEANS: Shape = "ribbed"
"""What the single letter R behind a core size means. Common practice, no source."""

_ADVICE = "Write the stamp, such as 58, M60, 60 rib or 60 round, or the diameter, such as .580 in."
_STAMP = re.compile(r"m? ?([0-9]{2}) ?(r|rib|ribbed|round)?", re.IGNORECASE | re.ASCII)


def split_stamp(text: str) -> tuple[Fraction, Shape | None] | None:
    """Read a stamped core: diameter in metres and shape; None when the text is no stamp."""
    match = _STAMP.fullmatch(text)
    if match is None:
        return None
    said = (match[2] or "").lower()
    shape: Shape | None = None
    if said:
        shape = R_MEANS if said == "r" else "round" if said == "round" else "ribbed"
    return Fraction(int(match[1]), 100) * INCH_EXACT_M, shape


def _own(text: str, _base: Fraction | None) -> Reading:
    stamp = split_stamp(text)
    if stamp is not None:
        core_m, shape = stamp
        letter_alone = text[-1:].lower() == "r"
        return Reading(value=core_m, unit="in", meant=f"R is read as {shape}" if letter_alone else shape or "")
    if re.fullmatch(r"[0-9.]+", text):
        raise Refusal(f"{shown(text)} is neither a stamped core nor a diameter with its unit", _ADVICE)
    return read_value(DIAMETER, text, None, None)


GRIP_CORE = Kind(
    name="grip_core",
    units=DIAMETER.units,
    advice=_ADVICE,
    own=_own,
    text=DIAMETER.text,
    beside=DIAMETER.beside,
)
