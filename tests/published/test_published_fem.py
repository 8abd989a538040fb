"""A general-purpose finite-element package (scikit-fem) works the same club."""

from __future__ import annotations

import importlib.util
from collections.abc import Callable
from pathlib import Path
from types import ModuleType

import msgspec
import numpy as np
import pytest
from scipy.integrate import quad

from clubwright.club.beam.static import tip_deflection
from clubwright.club.beam.stiffness import from_table
from clubwright.club.frequency import frequency_hz
from worked_shafts import head_on_shaft, shaft_of

Published = Callable[..., None]
SCRIPT = Path(__file__).parents[2] / "benchmarks" / "vibration_speed.py"


def script() -> ModuleType:
    """The benchmark that works one club both ways."""
    spec = importlib.util.spec_from_file_location("vibration_speed", SCRIPT)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.mark.parametrize(("head_kg", "longer_m"), [(0.256, 0.0), (0.300, -0.05), (0.200, 0.03)])
def test_a_general_purpose_package_gives_the_same_frequency(
    published: Published, head_kg: float, longer_m: float
) -> None:
    module = script()
    build = module.clubs()
    club = build.club
    head = msgspec.structs.replace(club.head, mass_kg=head_kg)
    shaft = msgspec.structs.replace(club.shaft, length_m=club.shaft.length_m + longer_m)
    build = msgspec.structs.replace(build, club=msgspec.structs.replace(club, head=head, shaft=shaft))
    published(
        quantity=f"frequency of a dry club, head {head_kg * 1e3:.0f} g, shaft {float(shaft.length_m) * 1e3:.0f} mm",
        source="scikit-fem 12, Hermite beam elements, 16 to a stretch of shaft",
        theirs=module.by_library(build, 4) * 60,
        ours=float(frequency_hz(build)) * 60,
        tolerance=0.001,
        unit="cpm",
        standing="library",
    )


@pytest.mark.parametrize(
    ("name", "places_m", "ei_n_m2", "refinements"),
    [
        ("stiffness six times as high within an eighth", (0.0, 0.5, 0.625, 1.1), (18.0, 18.0, 118.0, 120.0), 7),
        # more cuts of so short a piece cost the package its digits: 345.7866 at 8 to a stretch, 345.2 at 256
        ("a piece of 6.8 mm five times as stiff", (0.0, 0.4, 0.4068, 1.1), (20.0, 20.0, 100.0, 100.0), 3),
    ],
)
def test_where_the_stiffness_rises_steeply_too(
    published: Published, name: str, places_m: tuple[float, ...], ei_n_m2: tuple[float, ...], refinements: int
) -> None:
    profile = from_table(places_m, ei_n_m2, density_kg_m=[0.11] * len(places_m))
    build = head_on_shaft(shaft=shaft_of(profile, 36.0))
    published(
        quantity=f"frequency of a head on a shaft with {name}",
        source=f"scikit-fem 12, Hermite beam elements, {2**refinements} to a stretch of shaft",
        theirs=script().by_library(build, refinements) * 60,
        ours=float(frequency_hz(build)) * 60,
        tolerance=0.0005,
        unit="cpm",
        standing="library",
    )


def test_a_steep_piece_bends_by_its_integral(published: Published) -> None:
    """The flex test: ``P int x^2 / EI`` by an adaptive rule, piece by piece."""
    places, ei = (0.0, 0.45, 0.50, 1.1), (18.0, 19.0, 118.0, 120.0)
    spans = [(0.02, 0.45), (0.45, 0.50), (0.50, 0.95)]
    theirs = sum(
        quad(lambda s: (s - 0.02) ** 2 / np.interp(s, places, ei), low, high, epsabs=0, epsrel=1e-12)[0]
        for low, high in spans
    )
    published(
        quantity="deflection under 10 N at 20 mm, clamped at 950 mm, stiffness six times as high within 50 mm",
        source="scipy.integrate.quad",
        theirs=theirs * 1e4,
        ours=tip_deflection(from_table(places, ei), 0.02, 0.95, 10.0).down_m * 1e3,
        tolerance=1e-7,
        unit="mm",
        standing="library",
    )
