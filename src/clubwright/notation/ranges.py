"""The physical range of each kind: outside it a value is a slip of the hand or of the unit, whatever the club.

The bounds are generous on purpose and are our own judgement, no source: they catch a wrong unit, not a poor club.
"""

from __future__ import annotations

from fractions import Fraction

import msgspec


class Range(msgspec.Struct, frozen=True, kw_only=True):
    """Lowest and highest value that is taken, in the unit of the kind (angles in degrees, else SI), and why."""

    low: Fraction
    high: Fraction
    why: str

    def holds(self, value: Fraction) -> bool:
        """Say whether a value lies within the range, its ends included."""
        return self.low <= value <= self.high


def _range(low: str, high: str, why: str) -> Range:
    return Range(low=Fraction(low), high=Fraction(high), why=why)


_NO_CLUB = "no part of a club measures that much"

RANGES: dict[str, Range] = {
    "length": _range("-2.5", "2.5", f"a length lies within 2.5 m either way: {_NO_CLUB}"),
    "diameter": _range("0", "0.1", "a diameter lies between 0 and 100 mm: no shaft, grip or ferrule is thicker"),
    "grip_core": _range("0.0101", "0.02", "a grip core lies between .400 and .787 in: no butt is thinner or thicker"),
    "angle": _range("-90", "90", "an angle lies within 90 degrees either way"),
    "loft": _range("-10", "90", "a loft lies between -10 and 90 degrees"),
    "lie": _range("0", "90", "a lie lies between 0 and 90 degrees"),
    "bounce": _range("-20", "45", "a bounce lies between -20 and 45 degrees"),
    "loft_bounce": _range("40", "70", "the pair of loft and bounce is written for wedges, 40 to 70 degrees of loft"),
    "mass": _range("0", "5", "a mass lies between 0 and 5 kg: a whole club weighs about 0.3 to 0.6 kg"),
    "swing_weight": _range("-100", "120", "a swing weight lies between 100 points below A0 and 120 above it"),
    "frequency": _range("1/3", "100/3", "a frequency lies between 20 and 2000 cpm: no clamped shaft swings otherwise"),
    "stiffness": _range(
        "1/100", "1000", "a bending stiffness lies between 0.01 and 1000 N m2: shafts have some 15 to 150"
    ),
    "stiffness_slope": _range("1", "1000", "EI grows by 0.001 to 1 N m2 per mm: shafts have some 0.06 to 0.12"),
    "modulus": _range("1000000000", "1000000000000", "Young's modulus lies between 1 and 1000 GPa: steel has some 205"),
    "temperature": _range("233.15", "573.15", "a temperature lies between -40 and 300 C at the bench"),
    "linear_density": _range("0", "2", "mass per length lies between 0 and 2 kg/m: a steel butt has about 0.15 kg/m"),
    "density": _range("1", "23000", "a density lies between 1 and 23000 kg/m3: nothing is denser than osmium"),
    "area_density": _range("0", "20", "mass per area lies between 0 and 20 kg/m2: tape has about 0.15 kg/m2"),
    "moi": _range(
        "0", "20", "a moment of inertia lies between 0 and 20 kg m2: a club has about 0.3 kg m2 about its butt"
    ),
    "mass_moment": _range("-5", "5", "a moment of mass lies within 5 kg m either way: a D0 club has 0.15 kg m"),
    "duration": _range("0", "31622400", "a duration lies between 0 and 366 days"),
    "points": _range("0", "100", "a number of swing-weight points lies between 0 and 100"),
    "ratio": _range("1/1000", "1000", "a mixing ratio lies between 1:1000 and 1000:1"),
    "count": _range("0", "100000", "a count lies between 0 and 100000"),
    "number": _range("-1000000000000", "1000000000000", "a number lies within 1e12 either way"),
    "speed": _range("0", "200", "a speed lies between 0 and 200 m/s: no club head is faster"),
}

LARGEST_STEPS: dict[str, tuple[Fraction, str]] = {
    "length": (Fraction("0.3048"), "a length differs from its base by no more than 12 in"),
    "diameter": (Fraction("0.00635"), "a diameter differs from its base by no more than 1/4 in"),
    "angle": (Fraction(10), "an angle differs from its base by no more than 10 degrees"),
    "loft": (Fraction(10), "a loft differs from its base by no more than 10 degrees"),
    "lie": (Fraction(10), "a lie differs from its base by no more than 10 degrees"),
    "bounce": (Fraction(10), "a bounce differs from its base by no more than 10 degrees"),
    "swing_weight": (Fraction(30), "a swing weight differs from its base by no more than 30 points"),
}
"""How far a value counted from a base may lie from it (same units as ``RANGES``): "+35 1/2" is a whole length."""
