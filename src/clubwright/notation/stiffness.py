"""Stiffness of shafts and of what they are made of: EI, Young's modulus, and the slope of EI along a shaft.

The pound-force is exact: the pound of 1959 by standard gravity, 9.80665 m/s2 (see ``clubwright.units``; NIST SP 811,
appendix B).
"""

from __future__ import annotations

from fractions import Fraction

from clubwright.notation.quantity import Kind
from clubwright.notation.showing import in_unit
from clubwright.units import INCH_EXACT_M, POUND_EXACT_KG

POUND_FORCE_EXACT_N = POUND_EXACT_KG * Fraction("9.80665")
PSI_PA = POUND_FORCE_EXACT_N / INCH_EXACT_M**2
GPA_PA = Fraction(10**9)
_SLOPE = Fraction(1000)


def _by_squared(force: str, length: str) -> tuple[str, ...]:
    return tuple(f"{force}{joint}{length}{power}" for joint in (" ", "·", "⋅", ".", "*") for power in ("2", "²", "^2"))


def _sized(size: Fraction, spellings: tuple[str, ...]) -> dict[str, Fraction]:
    return dict.fromkeys(spellings, size)


STIFFNESS = Kind(
    name="stiffness",
    units=_sized(Fraction(1), _by_squared("n", "m"))
    | _sized(Fraction(1, 10**6), _by_squared("n", "mm"))
    | _sized(POUND_FORCE_EXACT_N * INCH_EXACT_M**2, (*_by_squared("lbf", "in"), *_by_squared("lb", "in"))),
    advice="Write the bending stiffness EI with its unit, such as 28.8 N m2 or 10000 lbf in2.",
    text=in_unit(Fraction(1), "N m2", 2, keep=1),
)
MODULUS = Kind(
    name="modulus",
    units={"gpa": GPA_PA, "mpa": Fraction(10**6), "pa": Fraction(1)}
    | {"psi": PSI_PA, "ksi": 1000 * PSI_PA, "msi": 10**6 * PSI_PA},
    advice="Write Young's modulus with its unit, such as 205 GPa or 29.7 Msi.",
    text=in_unit(GPA_PA, "GPa", 2, keep=0),
)
STIFFNESS_SLOPE = Kind(
    name="stiffness_slope",
    units=_sized(_SLOPE, tuple(f"{unit}/mm" for unit in _by_squared("n", "m")))
    | _sized(Fraction(1), tuple(f"{unit}/m" for unit in _by_squared("n", "m"))),
    advice="Write how EI grows along the shaft, such as 0.09 N m2/mm or 90 N m2/m.",
    text=in_unit(_SLOPE, "N m2/mm", 4, keep=2),
)
