"""A chance in words for a person, who reads 100 % as a promise."""

from __future__ import annotations

NEARLY = 0.995
"""Above this a chance is told as "over 99 %", below its mirror as "under 1 %"."""


def percent(chance: float) -> str:
    """Write a chance (0 to 1) for a person: never 100 % for what is not certain, never 0 % for what may happen."""
    if chance > NEARLY:
        return "over 99 %"
    if chance < 1 - NEARLY:
        return "under 1 %"
    return f"{chance * 100:.0f} %"
