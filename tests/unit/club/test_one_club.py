"""One club in plain numbers is the club that the arrays give, whatever hangs on it and wherever its shaft is cut."""

from __future__ import annotations

import msgspec
import numpy as np
import pytest

from clubwright.club.beam import chain
from clubwright.club.beam.chain import One
from clubwright.club.beam.first_mode import Clamp, Rows, first_squares
from clubwright.club.beam.mesh import element, mesh_of, moments_to
from clubwright.club.beam.one_club import first_square
from clubwright.club.beam.plain import cut_element, moments, plain_mesh
from clubwright.club.beam.stiffness import StiffnessProfile, from_law, from_table
from clubwright.club.beam.stretch import stretch
from clubwright.club.build import FrequencyMeter
from clubwright.club.frequency import frequency_hz
from clubwright.club.stages import STAGES
from clubwright.errors import NotPossible
from worked_clubs import IN, IRON
from worked_shafts import steel_club, steel_profile

PROFILES = {
    "steps": steel_profile(),
    "a law": from_law(90.0, 1.0),
    "steep": from_table([0.0, 0.4, 0.5, 1.1], [20.0, 20.0, 90.0, 110.0]),
    "with its mass": from_table([0.0, 0.5, 0.5, 1.1], [20.0, 50.0, 60.0, 110.0], density_kg_m=[0.13, 0.11, 0.12, 0.1]),
}
ROUNDING = 2e-9
"""Of the square, as the arrays give it: their short end elements cost digits."""


def drawn(random: np.random.Generator, profile: StiffnessProfile) -> One:
    free, clamp = random.uniform(0.02, 0.12), random.uniform(0.55, 0.93)
    scale = 1.0 if profile.has_density else 0.12
    spots = [(random.uniform(0, 0.02), random.uniform(free, clamp)) for _ in range(int(random.integers(0, 5)))]
    kg = random.choice([0.0, 0.2, 0.3])
    return One(
        free, clamp, random.uniform(0.8, 1.2), scale * random.uniform(0.9, 1.1), scale * random.uniform(-0.4, 0.4),
        kg, kg * 0.04, kg * 0.006, spots,
    )  # fmt: skip


def rows(one: One) -> Rows:
    columns = [np.array([number]) for number in one[:8]]
    spots = np.array(one.spots).reshape(-1, 2)
    return Rows(*columns, spots[:, :1], spots[:, 1:])


@pytest.mark.parametrize("compliance", [0.0, 3e-4])
@pytest.mark.parametrize("name", PROFILES)
def test_it_is_what_the_arrays_give(name: str, compliance: float) -> None:
    random, profile = np.random.default_rng(len(name)), PROFILES[name]
    for _ in range(40):
        one = drawn(random, profile)
        theirs = float(first_squares(profile, rows(one), Clamp(compliance))[0])
        assert first_square(plain_mesh(profile), one, compliance) == pytest.approx(theirs, rel=ROUNDING), one


@pytest.mark.parametrize("stage", STAGES.values(), ids=lambda stage: stage.name)
@pytest.mark.parametrize("meter", [FrequencyMeter(), FrequencyMeter(hosel="open", clamp_compliance_rad_n_m=2e-4)])
def test_a_build_of_plain_numbers_is_one_of_an_array(stage, meter) -> None:  # type: ignore[no-untyped-def]
    build = steel_club(IRON, stage, meter)
    shaft = msgspec.structs.replace(build.club.shaft, length_m=np.array([build.club.shaft.length_m] * 2))
    many = msgspec.structs.replace(build, club=msgspec.structs.replace(build.club, shaft=shaft))
    one = frequency_hz(build)
    assert type(one) is float
    assert one == pytest.approx(float(frequency_hz(many)[0]), rel=ROUNDING / 2)


def test_what_an_end_element_holds() -> None:
    random = np.random.default_rng(5)
    for profile in PROFILES.values():
        mesh, plain = mesh_of(profile), plain_mesh(profile)
        for _ in range(20):
            low = random.uniform(0.0, 0.9)
            high = low + random.uniform(0.004, 0.09)
            cut = cut_element(plain, low, high, 1.1, -0.3)
            theirs = element(mesh, np.array([low]), np.array([high]))
            np.testing.assert_allclose(
                cut.mass, 1.1 * theirs.mass[:, 0] - 0.3 * theirs.mass_s[:, 0], rtol=1e-9, atol=1e-16
            )
            np.testing.assert_allclose(chain._end_loads(cut), theirs.stiffness[:, 0], rtol=1e-9)
            np.testing.assert_allclose(chain._lower(cut), theirs.stiffness[:3, 0], rtol=1e-9)
            few = cut_element(plain, low, high, 1.1, -0.3, entries=3)
            np.testing.assert_allclose(few.mass, cut.mass[:3], rtol=1e-14)
            np.testing.assert_allclose(
                moments(plain, low), moments_to(mesh, np.array([low]))[:, 0], rtol=1e-12, atol=1e-18
            )


def test_without_a_stretch_it_is_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the series would not serve, every element is a link."""
    profile = PROFILES["steep"]
    one = drawn(np.random.default_rng(1), profile)._replace(spots=[])
    with_it = first_square(plain_mesh(profile), one, 1e-4)
    monkeypatch.setattr(chain, "FEWEST", 1000)
    assert first_square(plain_mesh(profile), one, 1e-4) == pytest.approx(with_it, rel=1e-10)
    monkeypatch.undo()
    monkeypatch.setattr(
        chain, "stretch_of", lambda plain, low, high: stretch(plain.mesh, low, high)._replace(reach=1.0)
    )
    assert first_square(plain_mesh(profile), one, 1e-4) == pytest.approx(with_it, rel=1e-10)


def test_a_shaft_of_no_stiffness_is_refused() -> None:
    one = drawn(np.random.default_rng(1), PROFILES["steps"])
    with pytest.raises(NotPossible, match="not positive"):
        first_square(plain_mesh(PROFILES["steps"]), one._replace(factor=0.0), 0.0)


def test_a_club_without_mass_does_not_swing_and_the_arrays_decide() -> None:
    one = drawn(np.random.default_rng(1), PROFILES["steps"])
    heavy = one._replace(density=-1.0, density_s=0.0, body_kg=0.0, body_kg_m=0.0, body_kg_m2=0.0, spots=[])
    assert first_square(plain_mesh(PROFILES["steps"]), heavy, 0.0) is None


def test_it_does_not_jump_where_an_end_meets_a_cell() -> None:
    profile = PROFILES["with its mass"]
    one = drawn(np.random.default_rng(2), profile)._replace(spots=[(0.004, 0.3)])
    for name, middle in (("clamp_m", 0.75), ("free_m", 0.05)):
        places = middle + np.linspace(-0.03, 0.03, 121)
        read = [first_square(plain_mesh(profile), one._replace(**{name: float(place)}), 0.0) ** 0.5 for place in places]  # type: ignore[operator]
        assert np.abs(np.diff(read, 2)).max() < 2e-2 * IN
