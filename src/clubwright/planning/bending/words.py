"""A bend in the words of the bench: how much, which way, and where to push.

Words and signs (common practice, no source): more loft is weak, less is strong; more lie is upright, less is flat. The
words round to a quarter of a degree; the exact figure with its sign always stands beside them.
"""

from __future__ import annotations

from typing import Literal

from clubwright.units import DEGREE_RAD

Angle = Literal["loft", "lie"]

DIRECTIONS: dict[Angle, tuple[str, str]] = {"loft": ("strong", "weak"), "lie": ("flat", "upright")}
"""Word for less and for more of each angle."""

_QUARTERS = ("", "1/4", "1/2", "3/4")


def direction_word(angle: Angle, amount_rad: float) -> str:
    """Return the trade's word for the sign of a change."""
    less, more = DIRECTIONS[angle]
    return more if amount_rad > 0 else less


def quarter_degrees(amount_rad: float) -> str:
    """Return the size of an angle in words, to the nearest quarter of a degree: ``1 1/2 deg``."""
    quarters = round(abs(amount_rad) / DEGREE_RAD * 4)
    if quarters == 0:
        return "under 1/4 deg"
    whole, part = divmod(quarters, 4)
    return " ".join(text for text in (str(whole) if whole else "", _QUARTERS[part], "deg") if text)


def signed_degrees(amount_rad: float) -> str:
    """Return an angle as a signed figure: ``-0.50 deg``."""
    return f"{amount_rad / DEGREE_RAD:+.2f} deg"


def degrees(angle_rad: float) -> str:
    """Return an angle as a figure: ``54.50 deg``."""
    return f"{angle_rad / DEGREE_RAD:.2f} deg"


def amount_words(angle: Angle, amount_rad: float) -> str:
    """Return how much and which way: ``1/2 deg flat (-0.50 deg)``."""
    return f"{quarter_degrees(amount_rad)} {direction_word(angle, amount_rad)} ({signed_degrees(amount_rad)})"
