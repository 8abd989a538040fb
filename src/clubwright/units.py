"""Exact definitions of the units the trade uses, each in one direction: unit to SI.

The reverse is always a division by the same constant, so the two directions cannot disagree. Sources: international
yard and pound agreement of 1959 (inch 25.4 mm, pound 0.45359237 kg, ounce 1/16 pound, grain 1/7000 pound); NIST SP
811 appendix B.
"""

from __future__ import annotations

from fractions import Fraction
from math import pi
from typing import Any, TypeAlias

from numpy.typing import NDArray

Number: TypeAlias = float | NDArray[Any]
"""A plain number, or an array of them: the mechanics take either, element by element."""

INCH_EXACT_M = Fraction(254, 10_000)
POUND_EXACT_KG = Fraction(45_359_237, 100_000_000)
OUNCE_EXACT_KG = POUND_EXACT_KG / 16
GRAIN_EXACT_KG = POUND_EXACT_KG / 7000

INCH_M = float(INCH_EXACT_M)
MILLIMETRE_M = 1e-3
GRAM_KG = 1e-3
OUNCE_KG = float(OUNCE_EXACT_KG)
GRAIN_KG = float(GRAIN_EXACT_KG)
DEGREE_RAD = pi / 180
CPM_HZ = 1 / 60
"""One cycle a minute. A cycle is one to-and-fro of the head, not 2 pi of anything."""
GRAM_INCH_KG_M = GRAM_KG * INCH_M
OUNCE_INCH_KG_M = OUNCE_KG * INCH_M
KG_CM2_KG_M2 = 1e-4
STANDARD_GRAVITY_M_S2 = 9.80665
