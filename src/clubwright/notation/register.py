"""The register of kinds: adding a kind is its module and one line here."""

from __future__ import annotations

from clubwright.notation import angle, grip, length, mass, other, stiffness, swing_weight
from clubwright.notation.quantity import Kind

REGISTER: dict[str, Kind] = {
    kind.name: kind
    for kind in (
        length.LENGTH,
        length.DIAMETER,
        angle.ANGLE,
        angle.LOFT,
        angle.LIE,
        angle.BOUNCE,
        angle.LOFT_BOUNCE,
        mass.MASS,
        mass.LINEAR_DENSITY,
        mass.DENSITY,
        mass.AREA_DENSITY,
        mass.MOI,
        mass.MASS_MOMENT,
        swing_weight.SWING_WEIGHT,
        swing_weight.POINTS,
        grip.GRIP_CORE,
        other.FREQUENCY,
        stiffness.STIFFNESS,
        stiffness.STIFFNESS_SLOPE,
        stiffness.MODULUS,
        other.TEMPERATURE,
        other.DURATION,
        other.SPEED,
        other.RATIO,
        other.COUNT,
        other.NUMBER,
    )
}
KINDS: tuple[str, ...] = tuple(REGISTER)
"""The names of the kinds that ``parse`` and ``render`` know."""
