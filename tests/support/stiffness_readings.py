"""Readings that a shaft of known stiffness gives in a clamp, without scatter."""

from __future__ import annotations

from clubwright.belief.stiffness.reading import StiffnessReading
from clubwright.club.beam.static import tip_deflection
from clubwright.club.frequency import frequency_with_test_mass_hz
from clubwright.club.parts import Shaft
from clubwright.units import CPM_HZ, INCH_M, STANDARD_GRAVITY_M_S2

TEST_MASS_KG = 0.205
HUNG_KG = 0.5


def frequency(shaft: Shaft, clamp_m: float, sd_hz: float = 0.5 * CPM_HZ) -> StiffnessReading:
    value = float(frequency_with_test_mass_hz(shaft, clamp_m, TEST_MASS_KG, INCH_M))
    return StiffnessReading(
        where=f"clamp {clamp_m:.3f} m",
        kind="frequency",
        value=value,
        sd=sd_hz,
        clamp_length_m=clamp_m,
        mass_kg=TEST_MASS_KG,
    )


def deflection(shaft: Shaft, clamp_m: float, sd_m: float = 0.5e-3) -> StiffnessReading:
    assert shaft.stiffness is not None
    down = tip_deflection(shaft.stiffness, 0.0, shaft.length_m - clamp_m, HUNG_KG * STANDARD_GRAVITY_M_S2).down_m
    return StiffnessReading(
        where=f"load, clamp {clamp_m:.3f} m",
        kind="deflection",
        value=down,
        sd=sd_m,
        clamp_length_m=clamp_m,
        mass_kg=HUNG_KG,
    )
