"""Masses and what is mass by something: densities, moments of mass and of inertia.

Exact sizes of pound, ounce and grain: the international yard and pound agreement of 1959 (see ``clubwright.units``).
"""

from __future__ import annotations

from fractions import Fraction

from clubwright.notation.quantity import Kind
from clubwright.notation.showing import in_unit
from clubwright.units import GRAIN_EXACT_KG, INCH_EXACT_M, OUNCE_EXACT_KG, POUND_EXACT_KG

GRAM_KG = Fraction(1, 1000)
CENTIMETRE_M = Fraction(1, 100)


def _spelled(*groups: tuple[Fraction, tuple[str, ...]]) -> dict[str, Fraction]:
    return {spelling: size for size, spellings in groups for spelling in spellings}


def _by(first: str, second: str) -> tuple[str, ...]:
    """Spell a product of two units: ``in oz``, ``in-oz``, ``in·oz``, ``in.oz``, either first, and closed up for metric."""
    joints = (" ", "-", "·", "⋅", ".", "*")
    return tuple(f"{a}{joint}{b}" for a, b in ((first, second), (second, first)) for joint in joints)


def _squared(mass: str, length: str) -> tuple[str, ...]:
    return tuple(
        f"{mass}{joint}{length}{power}" for joint in (" ", "·", "⋅", ".", "*", "-") for power in ("2", "²", "^2")
    )


def _mass_text(value_kg: Fraction, sd_kg: Fraction | None, more: int) -> str:
    # What is counted in single grams at the bench (weights, tape, adhesive) is weighed to the hundredth.
    places = 2 if abs(value_kg) < 10 * GRAM_KG else 1
    return in_unit(GRAM_KG, "g", places)(value_kg, sd_kg, more)


MASS = Kind(
    name="mass",
    units=_spelled(
        (GRAM_KG, ("g", "gram", "grams")),
        (Fraction(1), ("kg",)),
        (OUNCE_EXACT_KG, ("oz", "ounce", "ounces")),
        (GRAIN_EXACT_KG, ("gr", "grain", "grains")),
        (POUND_EXACT_KG, ("lb", "lbs", "pound", "pounds")),
    ),
    advice="Write it with its unit, such as 299.4 g or 10 1/2 oz (gr is grains, g is grams).",
    text=_mass_text,
)
LINEAR_DENSITY = Kind(
    name="linear_density",
    units=_spelled(
        (GRAM_KG / INCH_EXACT_M, ("g/in", "g/inch", "g per in")),
        (GRAM_KG / CENTIMETRE_M, ("g/cm",)),
        (GRAM_KG, ("g/m",)),
        (Fraction(1), ("kg/m", "g/mm")),
    ),
    advice="Write mass per length, such as 3.6 g/in, 1.4 g/cm or 141 g/m.",
    text=in_unit(GRAM_KG / INCH_EXACT_M, "g/in", 3, keep=2),
)
DENSITY = Kind(
    name="density",
    units=_spelled(
        (Fraction(1000), ("g/cm3", "g/cm³", "g/cm^3", "g/ml", "g/cc", "kg/l")),
        (Fraction(1), ("kg/m3", "kg/m³", "kg/m^3")),
    ),
    advice="Write mass per volume, such as 1.16 g/cm3, 1.16 g/ml or 1160 kg/m3.",
    text=in_unit(Fraction(1000), "g/cm3", 3, keep=2),
)
AREA_DENSITY = Kind(
    name="area_density",
    units=_spelled(
        (GRAM_KG, ("g/m2", "g/m²", "g/m^2", "gsm")),
        (GRAM_KG / INCH_EXACT_M**2, ("g/in2", "g/in²", "g/in^2")),
        (Fraction(1), ("kg/m2", "kg/m²", "kg/m^2")),
    ),
    advice="Write mass per area, such as 140 g/m2.",
    text=in_unit(GRAM_KG, "g/m2", 1),
)
MOI = Kind(
    name="moi",
    units=_spelled(
        (CENTIMETRE_M**2, _squared("kg", "cm")),
        (Fraction(1), _squared("kg", "m")),
        (GRAM_KG * CENTIMETRE_M**2, _squared("g", "cm")),
        (GRAM_KG * INCH_EXACT_M**2, _squared("g", "in")),
        (OUNCE_EXACT_KG * INCH_EXACT_M**2, _squared("oz", "in")),
        (POUND_EXACT_KG * INCH_EXACT_M**2, _squared("lb", "in")),
    ),
    advice="Write mass by length squared, such as 2750 kg cm2 or 0.275 kg m2.",
    text=in_unit(CENTIMETRE_M**2, "kg cm2", 1),
)
MASS_MOMENT = Kind(
    name="mass_moment",
    units=_spelled(
        (OUNCE_EXACT_KG * INCH_EXACT_M, _by("in", "oz")),
        (GRAM_KG * INCH_EXACT_M, _by("g", "in")),
        (GRAM_KG * CENTIMETRE_M, _by("g", "cm")),
        (GRAM_KG / 1000, _by("g", "mm")),
        (Fraction(1), _by("kg", "m")),
    ),
    advice="Write mass by length, such as 1.75 in oz or 50 g in.",
    text=in_unit(OUNCE_EXACT_KG * INCH_EXACT_M, "in oz", 3, keep=2),
)
