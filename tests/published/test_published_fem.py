"""A general-purpose finite-element package (scikit-fem) works the same club."""

from __future__ import annotations

import importlib.util
from collections.abc import Callable
from pathlib import Path
from types import ModuleType

import msgspec
import pytest

from clubwright.club.frequency import frequency_hz

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
