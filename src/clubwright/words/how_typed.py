"""How a figure of each kind is typed: words that stand beside a field, never in it, and without a figure.

A sample in a field was taken for its value at the bench, in glare and with gloves on. So no field of the page shows one.
"""

from __future__ import annotations

from clubwright.words import spoken

_ANGLE = "degrees"
_LENGTH = "in, mm or cm"

HOW_TYPED: dict[str, str] = {
    "length": _LENGTH,
    "diameter": "in or mm",
    "angle": _ANGLE,
    "loft": _ANGLE,
    "lie": _ANGLE,
    "bounce": _ANGLE,
    "loft_bounce": "degrees, a point or a hyphen between",
    "mass": "g, oz, gr or kg",
    "linear_density": "g/in, g/cm or g/m",
    "density": "g/cm3 or kg/m3",
    "area_density": "g/m2",
    "moi": "kg cm2 or g in2",
    "mass_moment": "in oz or g in",
    "swing_weight": "letter and points",
    "points": "pt",
    "grip_core": "as printed, or in or mm",
    "frequency": "cpm or Hz",
    "stiffness": "N m2 or lbf in2",
    "stiffness_slope": "N m2/mm or N m2/m",
    "modulus": "GPa or psi",
    "temperature": "C or F",
    "duration": "s, min or h",
    "speed": "mph or m/s",
    "ratio": "two figures, a colon between",
    "count": "a whole number",
    "number": "a number",
}
"""By kind of notation (`clubwright.notation.KINDS`)."""


def how_typed(kind: str) -> str:
    """Return how a figure of a kind is typed; nothing for words and choices."""
    how = HOW_TYPED.get(kind, "")
    return spoken("how typed", how) if how else ""
