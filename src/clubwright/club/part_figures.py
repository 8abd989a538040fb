"""Figures of one part that follow from several of its numbers and can be measured by themselves: the shaft as it is cut.

A reading of one narrows all the numbers that it follows from. Checked in tests/published/test_published_shaft.py.
"""

from __future__ import annotations

from collections.abc import Callable

from clubwright.club.parts import Club
from clubwright.club.shaft import trimmed
from clubwright.units import Number

CUT_MASS = "shaft.cut_mass_kg"
CUT_BALANCE = "shaft.cut_balance_from_tip_m"

PART_FIGURES: dict[str, Callable[[Club], Number]] = {
    CUT_MASS: lambda club: trimmed(club.shaft).mass_kg,
    CUT_BALANCE: lambda club: trimmed(club.shaft).cg_from_tip_m,
}
"""Path of the figure, unit in its name, to what works it out of a club, element by element."""

AT_LENGTH = "shaft.length_m"
"""The number by which such a figure is told from the like one of the shaft before it was cut again."""
