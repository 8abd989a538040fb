"""Small amounts in the unit that the bench speaks of: a slope, a spread, a contribution; never a value on a scale."""

from __future__ import annotations

from clubwright.notation import decimal_marked
from clubwright.units import CPM_HZ, DEGREE_RAD, GRAM_KG, KG_CM2_KG_M2, MILLIMETRE_M

_GRAMS, _MM, _DEGREES, _POINTS = ("g", GRAM_KG), ("mm", MILLIMETRE_M), ("deg", DEGREE_RAD), ("pt", 1.0)

SMALL: dict[str, tuple[str, float]] = {
    "length": _MM,
    "diameter": _MM,
    "grip_core": _MM,
    "angle": _DEGREES,
    "loft": _DEGREES,
    "lie": _DEGREES,
    "bounce": _DEGREES,
    "mass": _GRAMS,
    "linear_density": ("g/in", GRAM_KG / (25.4 * MILLIMETRE_M)),
    "moi": ("kg cm2", KG_CM2_KG_M2),
    "swing_weight": _POINTS,
    "points": _POINTS,
    "frequency": ("cpm", CPM_HZ),
    "duration": ("ms", 1e-3),
    "number": ("", 1.0),
    "count": ("", 1.0),
    "ratio": ("", 1.0),
    "stiffness": ("N m2", 1.0),
}
"""By kind of notation: the unit of small amounts, and its size in SI."""

SI = ("(SI)", 1.0)


def small_text(kind: str, value: float, *, signed: bool = False) -> str:
    """Write a small amount of a kind of notation to three digits, such as ``0.25 g`` or ``+0.31 pt``."""
    unit, size = SMALL.get(kind, SI)
    return decimal_marked(f"{value / size:{'+' if signed else ''}.3g} {unit}".strip())


def slope_text(kind: str, by: str, slope: float) -> str:
    """Write a slope: how much of one kind for one small unit of another, such as ``+0.385 pt per g``."""
    unit, size = SMALL.get(by, SI)
    amount = small_text(kind, slope * size, signed=True)
    return f"{amount} per {unit}" if unit else f"{amount} per 1"
