"""Bounce: the angle between the sole and the ground, and how it goes with the loft.

The hosel bends and the head is rigid, so face and sole turn together about the heel-toe axis: bounce follows loft one to
one, and loft minus bounce belongs to the head for good (until it is ground). A lie bend turns the sole in its own plane
and leaves the bounce. Derivation and sources: docs/theory/loft-lie-bounce.md; checked in
tests/published/test_published_loft_lie.py.
"""

from __future__ import annotations

from clubwright.units import Number


def bounce_after_loft_bend_rad(bounce_rad: Number, loft_change_rad: Number) -> Number:
    """Return the bounce once the loft is bent: a degree weaker adds a degree of bounce, a degree stronger takes one."""
    return bounce_rad + loft_change_rad


def loft_minus_bounce_rad(loft_rad: Number, bounce_rad: Number) -> Number:
    """Return the angle that no bend can change: two heads that agree in it become the same head at the same loft."""
    return loft_rad - bounce_rad
