"""What a figure can be at all, and what is usual of it."""

from __future__ import annotations

import msgspec


class Bounds(msgspec.Struct, frozen=True):
    """Least and most that can be, low and high of what is usual, and why in words.

    Attributes:
        least, most: Outside is impossible.
        low, high: Outside is odd.
        why: For the finding.
        least_itself: Whether the least value itself can be.
    """

    least: float
    low: float
    high: float
    most: float
    why: str
    least_itself: bool = False


def millimetres(least: float, low: float, high: float, most: float, why: str, *, itself: bool = False) -> Bounds:
    """Return bounds of a length, given in mm."""
    return Bounds(least / 1e3, low / 1e3, high / 1e3, most / 1e3, why, least_itself=itself)
