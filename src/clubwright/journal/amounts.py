"""Adding up what was typed: trims exactly, to the last fraction of an inch, and bends in degrees."""

from __future__ import annotations

import math
from fractions import Fraction

from clubwright.notation import parse


def added_length(first: str, second: str) -> str:
    """Return the sum of two lengths as text in millimetres, exact; their uncertainties combine as a root sum of squares.

    Raises:
        InputError: when either cannot be read.
    """
    one, other = parse("length", first, where="trim"), parse("length", second, where="trim")
    assert one.exact is not None and other.exact is not None  # every unit of length is a rational number of metres
    text = f"{_decimal((one.exact + other.exact) * 1000)} mm"
    sd_m = math.hypot(one.sd or 0.0, other.sd or 0.0)
    return f"{text} ± {sd_m * 1000:.4f} mm" if sd_m > 0 else text


def angle_change(before: str, after: str) -> float:
    """Return by how many degrees an angle changed, regardless of direction.

    Raises:
        InputError: when either cannot be read.
    """
    one, other = parse("angle", before, where="bend"), parse("angle", after, where="bend")
    return abs(math.degrees(other.value - one.value))


def moved_angle(angle: str, before: str, after: str) -> str:
    """Return an angle that turned along with another one, as text in degrees; its own uncertainty stays with it.

    Raises:
        InputError: when any of them cannot be read.
    """
    one = parse("angle", angle, where="bend")
    change = parse("angle", after, where="bend").value - parse("angle", before, where="bend").value
    text = f"{_decimal(Fraction(round(math.degrees(one.value + change) * 10_000), 10_000))} deg"
    return text if one.sd is None else f"{text} ± {math.degrees(one.sd):.4f} deg"


def added_angle(so_far: str | None, change_deg: float) -> str:
    """Return the bends made so far and one more, as text in degrees.

    Raises:
        InputError: when what was written so far cannot be read.
    """
    start = 0.0 if so_far is None else math.degrees(parse("angle", so_far, where="bend").value)
    return f"{_decimal(Fraction(round((start + change_deg) * 10_000), 10_000))} deg"


def _decimal(value: Fraction) -> str:
    """Return a fraction as a decimal, exact where it ends within nine places."""
    text = f"{float(round(value, 9)):.9f}"
    return text.rstrip("0").rstrip(".")
