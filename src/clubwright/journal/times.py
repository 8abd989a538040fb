"""Moments as the record writes them (``2026-05-04T09:30:00.125Z``): what they sort by, and how a person reads them."""

from __future__ import annotations


def sorted_by(at: str) -> str:
    """Return what a moment sorts by: with its Z, a whole second would sort before its own fractions."""
    return at.removesuffix("Z")


def day_of(at: str) -> str:
    """Return the day of a moment, in UTC: ``2026-05-04``."""
    return at[:10]


def to_the_minute(at: str) -> str:
    """Return a moment to the minute, in UTC: ``2026-05-04 09:30``."""
    return at[:16].replace("T", " ")
