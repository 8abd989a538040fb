"""Laws of a clamped club's frequency: what raises it, what lowers it, and what cannot matter."""

from __future__ import annotations

from math import pi

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from clubwright.club.beam.static import tip_deflection
from clubwright.club.beam.stiffness import StiffnessProfile, from_table
from clubwright.club.build import FrequencyMeter
from clubwright.club.frequency import frequency_hz, frequency_with_test_mass_hz
from worked_clubs import IN
from worked_shafts import head_on_shaft, shaft_of, steel_profile

SHORT = settings(max_examples=25, deadline=None)
STIFFNESS = st.lists(st.floats(18.0, 120.0), min_size=3, max_size=9)


def table(values: list[float]) -> StiffnessProfile:
    stations = [1.0 * place / (len(values) - 1) for place in range(len(values))]
    return from_table(stations, values, density_kg_m=[0.11] * len(values))


def iron(values: list[float], **given: float) -> float:
    profile = table(values)
    shaft = shaft_of(profile, 36.875 - given.pop("shorter_in", 0.0), given.get("tip_trim_in", 0.0))
    return float(frequency_hz(head_on_shaft(shaft=shaft, **given)))  # type: ignore[arg-type]


@SHORT
@given(STIFFNESS, st.floats(1.01, 3.0))
def test_it_goes_with_the_root_of_a_common_factor(values: list[float], factor: float) -> None:
    assert iron([value * factor for value in values]) == pytest.approx(iron(values) * factor**0.5, rel=1e-8)


@SHORT
@given(STIFFNESS, st.integers(0, 8), st.floats(1.0, 30.0))
def test_stiffer_anywhere_never_reads_lower(values: list[float], place: int, more: float) -> None:
    stiffer = list(values)
    stiffer[place % len(values)] += more
    assert iron(stiffer) >= iron(values) * (1 - 1e-9)


@SHORT
@given(STIFFNESS, st.floats(200.0, 300.0), st.floats(1.0, 40.0))
def test_a_heavier_head_reads_lower(values: list[float], head_g: float, more_g: float) -> None:
    assert iron(values, head_g=head_g + more_g) < iron(values, head_g=head_g)


@SHORT
@given(STIFFNESS, st.floats(0.1, 4.0))
def test_a_shorter_shaft_reads_higher(values: list[float], shorter_in: float) -> None:
    assert iron(values, shorter_in=shorter_in) > iron(values)


@SHORT
@given(STIFFNESS, st.floats(0.5, 6.0), st.floats(0.05, 2.0))
def test_a_longer_clamp_reads_higher(values: list[float], clamp_in: float, more_in: float) -> None:
    assert iron(values, clamp_in=clamp_in + more_in) > iron(values, clamp_in=clamp_in)


@SHORT
@given(st.lists(st.floats(0.02, 0.98), min_size=1, max_size=5, unique=True))
def test_a_station_on_the_line_changes_nothing(shares: list[float]) -> None:
    """However close the stations lie, or near to hosel and clamp."""
    places = sorted({0.0, 1.0, *shares})
    cut = from_table(places, [20 + 80 * place for place in places], density_kg_m=[0.11] * len(places))
    whole = from_table([0.0, 1.0], [20.0, 100.0], density_kg_m=[0.11, 0.11])
    read = [float(frequency_hz(head_on_shaft(shaft=shaft_of(profile, 36.875)))) for profile in (cut, whole)]
    assert read[0] == pytest.approx(read[1], rel=3e-7)


@SHORT
@given(st.floats(0.0, 3.0))
def test_tip_trimmed_is_the_cut_profile(trim_in: float) -> None:
    """A trim of the raw shaft and a raw shaft made without that piece are one club."""
    raw = steel_profile(tip_in=11.0, butt_in=10.0)
    trimmed = head_on_shaft(tip_trim_in=trim_in, profile=raw)
    made = head_on_shaft(profile=raw.cut(trim_in * IN, raw.end_m))
    assert float(frequency_hz(trimmed)) == pytest.approx(float(frequency_hz(made)), rel=1e-7)


@SHORT
@given(STIFFNESS, st.floats(0.0, 0.2), st.floats(0.6, 0.99))
def test_a_mass_on_a_feather_swings_by_its_static_deflection(values: list[float], tip: float, clamp: float) -> None:
    """Without the shaft's own mass, w^2 = g / (static deflection under the mass): two roads to one stiffness.

    Some of these shafts grow six times as stiff in an eighth of a metre.
    """
    mass_kg, gravity = 2.0, 9.80665
    profile = table(values)
    shaft = shaft_of(profile, (1.0 - tip) / IN, tip / IN)
    feather = msgspec.structs.replace(shaft, mass_kg=shaft.mass_kg * 1e-6, tip_density_kg_m=0.11e-6)
    found = float(frequency_with_test_mass_hz(feather, 1.0 - clamp, mass_kg))
    down = tip_deflection(profile, tip, clamp, mass_kg * gravity).down_m
    assert (2 * pi * found) ** 2 == pytest.approx(gravity / down, rel=1e-6)


@SHORT
@given(st.floats(0.0, 1e-3), st.floats(-1.0, 1.0))
def test_give_lowers_and_weight_along_the_club_raises(give: float, head_down: float) -> None:
    base = float(frequency_hz(head_on_shaft()))
    soft = float(frequency_hz(head_on_shaft(meter=FrequencyMeter(clamp_compliance_rad_n_m=give))))
    hung = float(frequency_hz(head_on_shaft(meter=FrequencyMeter(head_down=head_down))))
    assert soft <= base * (1 + 1e-9)
    assert (hung - base) * head_down >= -1e-9
