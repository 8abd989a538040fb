"""The beam in space against the test cases by which structural codes are verified: AFNOR SDLL09 and SDLL15, NAFEMS FV4, FV5.

A tube clamped at one end with a mass off its axis at the other is a golf club in a frequency meter.
"""

from __future__ import annotations

from collections.abc import Callable
from math import pi

import msgspec
import numpy as np
import pytest

from clubwright.club.beam.assembly import ABOUT_X, ABOUT_Y, CLAMPED, Beam, X, Y, Z, assemble, constant
from clubwright.club.beam.solve import frequencies_hz
from clubwright.club.beam.tip_body import TipBody

Published = Callable[..., None]
AFNOR = "AFNOR VPCS guide 1990, as restated in a structural code's verification manual"
NAFEMS = "NAFEMS FV4, expected values as printed in help.altair.com OS-V:0410; length, diameter and arms from memory"


def nodes(length: float, count: int) -> tuple[float, ...]:
    return tuple(float(x) for x in np.linspace(0, length, count + 1))


def uniform(length: float, count: int, young: float, poisson: float, rho: float, area: float, second: float) -> Beam:
    shear = young / (2 * (1 + poisson))
    return Beam(
        nodes_m=nodes(length, count),
        ei_y_n_m2=constant(young * second),
        ei_z_n_m2=constant(young * second),
        density_kg_m=constant(rho * area),
        gj_n_m2=constant(shear * 2 * second),
        polar_kg_m=constant(rho * 2 * second),
        ea_n=constant(young * area),
    )


def tube() -> Beam:
    """SDLL15: 10 m, 350 over 320 mm, 210 GPa, 0.3, 7800 kg/m3."""
    area, second = pi / 4 * (0.35**2 - 0.32**2), pi / 64 * (0.35**4 - 0.32**4)
    return uniform(10.0, 30, 210e9, 0.3, 7800.0, area, second)


SDLL09 = {
    "b 40 to 10 mm": (0.040, (54.18, 171.94, 384.40, 697.24, 1112.28)),
    "b 50 to 10 mm": (0.050, (56.55, 175.79, 389.01, 702.36, 1117.63)),
}


@pytest.mark.parametrize("name", SDLL09)
def test_sdll09(published: Published, name: str) -> None:
    """Tapered in depth and in width. The printed values are low by 0.02 to 0.03 %: of two digits of lambda, perhaps."""
    width, printed = SDLL09[name]
    young, rho = 200e9, 7800.0

    def b(x: np.ndarray) -> np.ndarray:
        return width + (0.010 - width) * x

    def h(x: np.ndarray) -> np.ndarray:
        return 0.040 - 0.030 * x

    beam = msgspec.structs.replace(
        uniform(1.0, 40, young, 0.3, rho, 1.0, 1.0),
        ei_y_n_m2=lambda x: young * b(x) * h(x) ** 3 / 12,
        density_kg_m=lambda x: rho * b(x) * h(x),
        ea_n=None,
    )
    held = dict.fromkeys(range(1, 41), (Z, ABOUT_Y, ABOUT_X)) | {0: CLAMPED}
    stiffness, mass, _ = assemble(beam, held=held)
    for mode, (theirs, ours) in enumerate(zip(printed, frequencies_hz(stiffness, mass, 5), strict=True)):
        published(
            quantity=f"SDLL09 tapered cantilever, {name}, mode {mode + 1}; the printed value is 0.02-0.03 % low",
            source=f"{AFNOR}, SDLL09", theirs=theirs, ours=ours, tolerance=0.0005 * theirs, unit="Hz",
            standing="seen",
        )  # fmt: skip


@pytest.mark.parametrize("name", SDLL09)
def test_sdll09_worked_apart(published: Published, name: str) -> None:
    """What the printed values are low against: 200 elements, worked apart."""
    apart = {
        "b 40 to 10 mm": (54.189, 171.970, 384.531, 697.43, 1112.47),
        "b 50 to 10 mm": (56.559, 175.830, 389.106, 702.44, 1117.77),
    }[name]
    width = SDLL09[name][0]
    beam = msgspec.structs.replace(
        uniform(1.0, 60, 200e9, 0.3, 7800.0, 1.0, 1.0),
        ei_y_n_m2=lambda x: 200e9 * (width + (0.010 - width) * x) * (0.040 - 0.030 * x) ** 3 / 12,
        density_kg_m=lambda x: 7800.0 * (width + (0.010 - width) * x) * (0.040 - 0.030 * x),
        ea_n=None,
    )
    held = dict.fromkeys(range(1, 61), (Z, ABOUT_Y, ABOUT_X)) | {0: CLAMPED}
    stiffness, mass, _ = assemble(beam, held=held)
    for mode, (theirs, ours) in enumerate(zip(apart, frequencies_hz(stiffness, mass, 5), strict=True)):
        published(
            quantity=f"SDLL09 tapered cantilever, {name}, mode {mode + 1}",
            source="independent calculation, 200 elements", theirs=theirs, ours=ours, tolerance=0.0003 * theirs,
            unit="Hz", standing="derived",
        )  # fmt: skip


def test_sdll15_centred(published: Published) -> None:
    """1000 kg on the tip. The printed 1.65 Hz is a two-digit Rayleigh value (1.6533)."""
    stiffness, mass, _ = assemble(tube(), held={0: CLAMPED}, bodies=[(-1, TipBody(mass_kg=1000.0))])
    found = frequencies_hz(stiffness, mass, 10)
    for mode, name, theirs, tolerance in (
        (0, "first bend, y", 1.65, 0.006), (1, "first bend, z", 1.65, 0.006), (2, "second bend, y", 16.07, 0.005),
        (3, "second bend, z", 16.07, 0.005), (4, "third bend, y", 50.02, 0.01), (5, "third bend, z", 50.02, 0.01),
        (6, "stretch", 76.47, 0.01), (7, "twist", 80.47, 0.02), (8, "fourth bend, y", 103.20, 0.03),
        (9, "fourth bend, z", 103.20, 0.03),
    ):  # fmt: skip
        published(
            quantity=f"SDLL15 tube with a mass on its tip, {name}", source=f"{AFNOR}, SDLL15", theirs=theirs,
            ours=found[mode], tolerance=tolerance, unit="Hz", standing="seen",
        )  # fmt: skip


@pytest.mark.parametrize(("mode", "printed"), list(enumerate([1.636, 1.642, 13.46, 13.59, 28.90, 31.96, 61.61, 63.93])))
def test_sdll15_off_the_axis(published: Published, mode: int, printed: float) -> None:
    """The mass 1 m to the side: bending in both planes, twist and stretch are coupled."""
    stiffness, mass, _ = assemble(tube(), held={0: CLAMPED}, bodies=[(-1, TipBody(mass_kg=1000.0, y_m=1.0))])
    published(
        quantity=f"SDLL15 tube with its mass 1 m off the axis, mode {mode + 1}", source=f"{AFNOR}, SDLL15",
        theirs=printed, ours=frequencies_hz(stiffness, mass, 8)[mode], tolerance=0.0005 * printed, unit="Hz",
        standing="seen",
    )  # fmt: skip


@pytest.mark.parametrize(("mode", "printed"), list(enumerate([1.723, 1.727, 7.413, 9.972, 18.155, 26.957])))
def test_fv4(published: Published, mode: int, printed: float) -> None:
    """10 m bar of 0.5 m, 10 000 kg at +2 m and 1000 kg at -2 m on rigid arms; with the section's rotary inertia."""
    area, second = pi / 4 * 0.5**2, pi / 64 * 0.5**4
    beam = msgspec.structs.replace(
        uniform(10.0, 30, 200e9, 0.3, 8000.0, area, second), rotary_kg_m=constant(8000 * second)
    )
    bodies = [(-1, TipBody(mass_kg=10_000.0, y_m=2.0)), (-1, TipBody(mass_kg=1_000.0, y_m=-2.0))]
    stiffness, mass, _ = assemble(beam, held={0: CLAMPED}, bodies=bodies)
    published(
        quantity=f"NAFEMS FV4, cantilever with two masses off its axis, mode {mode + 1}", source=NAFEMS, theirs=printed,
        ours=frequencies_hz(stiffness, mass, 6)[mode], tolerance=0.0005 * printed, unit="Hz", standing="seen",
    )  # fmt: skip


def test_fv5(published: Published) -> None:
    """Deep beam on simple supports, 10 m, 2 x 2 m: with shear (k 0.85) and rotary inertia. Its twist takes J = Ip."""
    area, second = 4.0, 2.0**4 / 12
    beam = msgspec.structs.replace(
        uniform(10.0, 30, 200e9, 0.3, 8000.0, area, second),
        rotary_kg_m=constant(8000 * second),
        shear_n=constant(0.85 * 200e9 / 2.6 * area),
    )
    stiffness, mass, _ = assemble(beam, held={0: (X, Y, Z, ABOUT_X), -1: (Y, Z)})
    found = frequencies_hz(stiffness, mass, 9)
    for mode, (theirs, name) in enumerate(
        [
            (42.649, "first bend, y"), (42.649, "first bend, z"), (77.542, "first twist"), (125.0, "stretch"),
            (148.31, "second bend, y"), (148.31, "second bend, z"), (233.10, "second twist"), (284.55, "third bend, y"),
            (284.55, "third bend, z"),
        ]
    ):  # fmt: skip
        published(
            quantity=f"NAFEMS FV5, deep beam on simple supports, {name}", source="NAFEMS FV5", theirs=theirs,
            ours=found[mode], tolerance=0.004 * theirs, unit="Hz", standing="memory",
        )  # fmt: skip
