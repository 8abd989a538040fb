"""Frequency of a build: its derivatives, its arrays, its stages, and what it refuses."""

from __future__ import annotations

import msgspec
import numpy as np
import pytest

from clubwright.belief.prediction import linearise
from clubwright.belief.unknowns import club_with
from clubwright.club.beam.stiffness import StiffnessPiece, StiffnessProfile, from_table
from clubwright.club.build import Build, Conventions, FrequencyMeter
from clubwright.club.frequency import frequency_hz, frequency_with_test_mass_hz, rows_of
from clubwright.club.frequency_parts import beam_parts
from clubwright.club.parts import Weight
from clubwright.club.planes import planes_hz
from clubwright.club.stages import BARE_SHAFT, DRY_GRIPPED, DRY_NO_GRIP, DRY_TAPED, FINISHED, GLUED_NO_GRIP, STAGES
from clubwright.errors import NotPossible
from worked_clubs import CAP_IN, GRAM, IN, IRON, build_of
from worked_shafts import head_on_shaft, steel_club, steel_profile

NAMES = [
    "head.mass_kg", "head.cg_from_ground_m", "head.cg_off_axis_m", "head.own_inertia_kg_m2", "head.bore_to_ground_m",
    "head.bore_depth_m", "shaft.raw_length_m", "shaft.mass_kg", "shaft.balance_from_tip_m", "shaft.length_m",
    "shaft.tip_trim_m", "shaft.tip_density_kg_m", "shaft.stiffness_factor", "grip.mass_kg", "grip.cg_from_cap_m",
    "grip.cap_m", "ferrule.mass_kg", "tapes.0.mass_kg", "adhesive.mass_kg",
]  # fmt: skip
STEPS = {"head.own_inertia_kg_m2": 2e-5, "ferrule.mass_kg": 2e-3, "grip.mass_kg": 0.02, "tapes.0.mass_kg": 0.02}


def numbers(build: Build) -> np.ndarray:
    found = []
    for name in NAMES:
        part = build.club
        for step in name.split("."):
            part = part[int(step)] if step.isdigit() else getattr(part, step)
        found.append(part)
    return np.array(found, dtype=float)


METERS = [
    FrequencyMeter(),
    FrequencyMeter(clamp_length_m=2.5 * IN, clamp_compliance_rad_n_m=2e-4, head_down=1.0),
    FrequencyMeter(hosel="open", head_down=-0.5),
]


@pytest.mark.parametrize("meter", METERS, ids=["plain", "soft, hanging", "open hosel"])
@pytest.mark.parametrize("stage", [FINISHED, BARE_SHAFT], ids=lambda stage: stage.name)
def test_derivatives_are_those_of_differences(stage, meter) -> None:  # type: ignore[no-untyped-def]
    build = steel_club(IRON, stage, meter)
    at = numbers(build)
    values, slopes = linearise(build.club, build.conventions, NAMES, at, ["frequency"], stage, np.zeros((2, 0)))
    assert values[0, 0] == values[1, 0] == pytest.approx(float(frequency_hz(build)), rel=1e-9)
    for place, name in enumerate(NAMES):
        step = STEPS.get(name, 1e-3 * max(abs(at[place]), 0.05))
        ends = []
        for sign in (1, -1):
            moved = at.copy()
            moved[place] += sign * step
            club = club_with(build.club, NAMES, list(moved))
            ends.append(float(frequency_hz(msgspec.structs.replace(build, club=club))))
        expected = (ends[0] - ends[1]) / (2 * step)
        assert slopes[0, 0, place] == pytest.approx(expected, rel=2e-3, abs=2e-5), name
        assert slopes[1, 0, place] == slopes[0, 0, place]


def test_an_array_of_clubs_is_each_of_them() -> None:
    """Lengths that differ by inches lie in different cells of the shaft; the batch and the single club are two solvers."""
    random = np.random.default_rng(3)
    build = steel_club()
    spread = [value * (1 + 0.02 * random.standard_normal((8, 5))) for value in numbers(build)]
    many = frequency_hz(msgspec.structs.replace(build, club=club_with(build.club, NAMES, spread)))
    assert isinstance(many, np.ndarray)
    assert many.shape == (8, 5)
    for place in np.ndindex(8, 5):
        one = club_with(build.club, NAMES, [float(value[place]) for value in spread])
        assert many[place] == pytest.approx(float(frequency_hz(msgspec.structs.replace(build, club=one))), rel=1e-7)


def test_it_goes_with_the_root_of_the_stiffness() -> None:
    build = steel_club()
    stiffer = club_with(build.club, ["shaft.stiffness_factor"], [1.21])
    ratio = frequency_hz(msgspec.structs.replace(build, club=stiffer)) / frequency_hz(build)
    assert ratio == pytest.approx(1.1, rel=1e-9)


def test_frequency_does_not_jump_where_the_clamp_meets_a_step() -> None:
    """The last step of the shaft is 32.5 in from the tip; elements are cut there anew."""
    places = np.linspace(-2e-3, 2e-3, 81)
    read = [float(frequency_hz(head_on_shaft(clamp_in=4.375 + place / IN))) for place in places]
    assert np.abs(np.diff(read, 2)).max() < 2e-6


def test_stages() -> None:
    read = {name: 60 * float(frequency_hz(steel_club(IRON, stage))) for name, stage in STAGES.items()}
    cap_cpm = 60 * float(frequency_hz(head_on_shaft()) - frequency_hz(head_on_shaft(clamp_in=5 - CAP_IN)))
    # Dry to finished: a gram of adhesive near the head, and the clamp moves out with the cap.
    assert read["dry, no grip"] - read["dry, gripped"] == pytest.approx(cap_cpm, abs=0.05)
    assert read["dry, gripped"] - read["finished"] == pytest.approx(0.45, abs=0.1)
    assert read["dry, no grip"] - read["glued, no grip"] == pytest.approx(0.45, abs=0.1)
    assert 0 <= read["dry, no grip"] - read["dry, taped"] < 0.01
    assert read["bare shaft"] > read["dry, no grip"]
    assert {GLUED_NO_GRIP.name, DRY_TAPED.name, DRY_GRIPPED.name} <= set(read)


def test_a_bare_shaft_without_a_test_mass_swings_three_times_as_fast() -> None:
    """1.875^2 / sqrt(3 / (M/m + 33/140)) for a uniform shaft of some 113 g with 205 g on it: about 2.9."""
    shaft = steel_club().club.shaft
    ratio = frequency_with_test_mass_hz(shaft, 5 * IN, 0.0) / frequency_with_test_mass_hz(shaft, 5 * IN, 0.205)
    assert 2.5 < ratio < 3.5


def test_weights_count_where_they_sit() -> None:
    build = steel_club()
    port = Weight(name="port", mass_kg=4 * GRAM, seat="port", place_m=0.0)
    butt = Weight(name="butt", mass_kg=9 * GRAM, seat="butt", place_m=0.5 * IN)
    low = Weight(name="far down", mass_kg=9 * GRAM, seat="butt", place_m=12 * IN)
    club = msgspec.structs.replace(build.club, weights=(port, butt, low))
    base, with_port, with_butt, with_low = (
        float(frequency_hz(msgspec.structs.replace(build, club=club, fitted=fitted)))
        for fitted in ((0, 0, 0), (1, 0, 0), (0, 1, 0), (0, 0, 1))
    )
    assert 60 * (base - with_port) / 4 == pytest.approx(0.58, abs=0.05)
    assert with_butt == base, "a weight inside the clamp does not move"
    assert 0 < base - with_low < 0.01


def test_what_reaches_out_of_the_clamp_counts_with_its_mass_there() -> None:
    """Tape from 0.125 to 10.125 in, grip to 9.7 in with its centre at 4.1 in, clamp of 5 in; the ferrule whole."""
    build = steel_club()
    spots = beam_parts(build, build.hosel_top_m, float(rows_of(build)[1].clamp_m[0]))[1]
    share = 4.7 / 9.7
    skew = 6 * (0.5 - 4.1 / 9.7)
    grip = 50 * (share + skew * (share**2 - share))
    grams = [float(mass) / GRAM for mass, _ in spots]
    assert grams[0] == pytest.approx(0.7)
    assert sum(grams[1:4]) == pytest.approx(2.5 * 0.5125)
    assert sum(grams[4:]) == pytest.approx(grip)
    cap_in_tip = float(build.cap_face_m - build.tip_m + build.club.shaft.tip_trim_m) / IN
    assert all(cap_in_tip - 10.125 < float(place) / IN < cap_in_tip - 5 for _, place in spots[1:])


def test_a_softer_clamp_reads_lower_and_head_down_higher() -> None:
    base = frequency_hz(steel_club())
    assert frequency_hz(steel_club(meter=FrequencyMeter(clamp_compliance_rad_n_m=1e-4))) < base
    assert frequency_hz(steel_club(meter=FrequencyMeter(head_down=1.0))) > base
    assert frequency_hz(steel_club(meter=FrequencyMeter(hosel="open"))) < base


def test_planes_agree_with_the_register_and_differ_with_the_shaft() -> None:
    for meter in (*METERS[:2], FrequencyMeter(head_down=-1.0)):
        build = steel_club(meter=meter)
        assert planes_hz(build).toe_hz == pytest.approx(float(frequency_hz(build)), rel=1e-6)
    on_axis = planes_hz(head_on_shaft())
    assert on_axis.difference_hz == pytest.approx(0.0, abs=1e-9)
    assert on_axis.twist_hz == np.inf
    stiffer = planes_hz(head_on_shaft(), face_stiffness_ratio=1.0201)
    assert stiffer.face_hz == pytest.approx(1.01 * on_axis.toe_hz, rel=1e-7)


def test_planes_agree_on_a_shaft_whose_mass_is_known_by_its_balance_only() -> None:
    """Its mass per length is the straight line that has its mass and balance, and weighs on the hanging club so."""
    shaft = steel_club().club.shaft
    pieces = tuple(p._replace(start_density_kg_m=0.0, end_density_kg_m=0.0) for p in steel_profile(butt_in=12.0).pieces)
    plain = msgspec.structs.replace(shaft, stiffness=StiffnessProfile(pieces=pieces))
    level, hung = (
        msgspec.structs.replace(build, club=msgspec.structs.replace(build.club, shaft=plain))
        for build in (steel_club(), steel_club(meter=FrequencyMeter(head_down=1.0)))
    )
    for build in (level, hung):
        assert planes_hz(build).toe_hz == pytest.approx(float(frequency_hz(build)), rel=1e-6)
    assert frequency_hz(level) == pytest.approx(float(frequency_hz(steel_club())), rel=2e-3)


@pytest.mark.parametrize(
    ("build", "says", "mend"),
    [
        (build_of(IRON), "stiffness", "table of EI"),
        (head_on_shaft(meter=FrequencyMeter(), clamp_in=30.0), "clamp leaves", "at least"),
        (
            head_on_shaft(profile=from_table([0.0, 0.5], [30.0, 60.0], density_kg_m=[0.1, 0.1])),
            "known from",
            "raw shaft",
        ),
    ],
)
def test_refuses_with_a_mend(build: Build, says: str, mend: str) -> None:
    with pytest.raises(NotPossible, match=says) as refused:
        frequency_hz(build)
    assert mend in refused.value.instead


def test_planes_refuse_what_they_cannot_know() -> None:
    with pytest.raises(NotPossible, match="torsional"):
        planes_hz(head_on_shaft(profile=None, shaft=bare_of_torsion()))
    with pytest.raises(NotPossible, match="bare shaft"):
        planes_hz(steel_club(IRON, BARE_SHAFT))


def bare_of_torsion():  # type: ignore[no-untyped-def]
    shaft = head_on_shaft().club.shaft
    pieces = tuple(piece._replace(start_gj_n_m2=0.0, end_gj_n_m2=0.0) for piece in steel_profile().pieces)
    return msgspec.structs.replace(shaft, stiffness=StiffnessProfile(pieces=pieces))


@pytest.mark.parametrize(
    ("pieces", "says"),
    [
        ((), "without pieces"),
        ((StiffnessPiece(0.0, 0.5, 30.0, 40.0), StiffnessPiece(0.6, 1.0, 40.0, 60.0)), "gap"),
        ((StiffnessPiece(0.0, 0.5, 30.0, 0.0),), "not positive"),
        ((StiffnessPiece(0.5, 0.5, 30.0, 40.0),), "stretch"),
        ((StiffnessPiece(0.0, 0.5, 30.0, float("nan")),), "stretch"),
        ((StiffnessPiece(0.0, 0.5, 30.0, 40.0, 20.0, 20.0), StiffnessPiece(0.5, 1.0, 40.0, 60.0)), "torsional"),
    ],
)
def test_a_profile_that_is_none_is_refused(pieces: tuple[StiffnessPiece, ...], says: str) -> None:
    with pytest.raises(NotPossible, match=says):
        StiffnessProfile(pieces=pieces)


def test_a_cut_profile_is_the_rest_of_it() -> None:
    profile = steel_profile()
    cut = profile.cut(1.5 * IN, 36 * IN)
    assert cut.start_m == pytest.approx(0.0)
    assert cut.end_m == pytest.approx(34.5 * IN)
    for place_in in (0.2, 9.1, 20.3, 34.4):
        assert cut.ei_n_m2(place_in * IN) == pytest.approx(profile.ei_n_m2((place_in + 1.5) * IN))
    with pytest.raises(NotPossible, match="do not lie"):
        profile.cut(1.5 * IN, 40 * IN)


def test_the_definition_of_the_reading_is_kept_with_it() -> None:
    assert Conventions().meter.clamp_length_m == pytest.approx(0.127)
    assert msgspec.json.decode(msgspec.json.encode(Conventions()), type=Conventions) == Conventions()
    assert DRY_NO_GRIP.stop_on_cap is False
