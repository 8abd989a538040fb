"""A club at its stages: which parts are on, and where each of them sits."""

from __future__ import annotations

import msgspec
import pytest

from clubwright.club.build import Build, pieces
from clubwright.club.parts import Adapter, Weight
from clubwright.club.stages import AS_IT_CAME, DRY_GRIPPED, DRY_NO_GRIP, DRY_TAPED, FINISHED, GLUED_NO_GRIP, STAGES
from worked_clubs import CAP_IN, GRAM, IN, IRON, build_of, club_of

PORT = Weight(name="port 4", mass_kg=4 * GRAM, seat="port", place_m=10e-3, off_axis_m=0.05)
BUTT = Weight(name="butt 9", mass_kg=9 * GRAM, seat="butt", place_m=0.5 * IN)
TIP = Weight(name="tip 2", mass_kg=2 * GRAM, seat="tip", place_m=30e-3, lifts_shaft_m=1.5e-3)


def on(build: Build) -> set[str]:
    return {piece.part for piece in pieces(build)}


@pytest.mark.parametrize(
    ("stage", "missing"),
    [
        ("bare shaft", {"head", "ferrule", "adhesive", "tapes", "grip"}),
        ("dry, no grip", {"adhesive", "tapes", "grip"}),
        ("dry, taped", {"adhesive", "grip"}),
        ("dry, gripped", {"adhesive"}),
        ("glued, no grip", {"tapes", "grip"}),
        ("finished", set()),
    ],
)
def test_parts_of_each_stage(stage: str, missing: set[str]) -> None:
    everything = {"shaft", "head", "ferrule", "adhesive", "tapes", "grip"}
    assert on(build_of(IRON, STAGES[stage])) == everything - missing


def test_the_stop_is_on_the_cap_only_when_a_grip_is_on() -> None:
    for stage in STAGES.values():
        build = build_of(IRON, stage)
        expected = build.cap_face_m if stage in (AS_IT_CAME, DRY_GRIPPED, FINISHED) else build.butt_m
        assert build.stop_m == pytest.approx(expected), stage.name
    assert build_of(IRON).stop_m - build_of(IRON, DRY_TAPED).stop_m == pytest.approx(CAP_IN * IN)


def test_places_are_those_a_clubmaker_measures() -> None:
    build = build_of(IRON)
    from_cap = {piece.part: (build.stop_m - piece.place_m) / IN for piece in pieces(build)}
    assert from_cap == pytest.approx(
        {"shaft": 17.619, "head": 38.3, "ferrule": 35.35, "adhesive": 36.375, "tapes": 5.125, "grip": 4.1}
    )


def test_weights_sit_where_their_seat_says_and_count() -> None:
    build = Build(club=club_of(IRON, weights=(PORT, BUTT)), fitted=(2, 1))
    found = {piece.part: piece for piece in pieces(build)}
    assert found["port 4"].mass_kg == pytest.approx(8 * GRAM)
    assert found["port 4"].place_m == 10e-3
    assert found["port 4"].off_axis_m == 0.05
    assert build.stop_m - found["butt 9"].place_m == pytest.approx(0.5 * IN)


def test_a_butt_weight_keeps_its_place_when_the_grip_is_off() -> None:
    club = club_of(IRON, weights=(BUTT,))
    places = [pieces(Build(club=club, stage=stage, fitted=(1,))) for stage in (FINISHED, GLUED_NO_GRIP)]
    one, other = (next(piece.place_m for piece in found if piece.part == "butt 9") for found in places)
    assert one == other


def test_a_tip_weight_lifts_the_shaft_and_all_that_is_on_it() -> None:
    club = club_of(IRON, weights=(TIP,))
    without, lifted = Build(club=club, fitted=(0,)), Build(club=club, fitted=(1,))
    assert lifted.stop_m - without.stop_m == pytest.approx(1.5e-3)
    before, after = ({p.part: p.place_m for p in pieces(build)} for build in (without, lifted))
    moved = {part for part in before if after[part] != before[part]}
    assert moved == {"shaft", "tapes", "grip"}


def test_no_count_given_means_no_weight() -> None:
    assert on(Build(club=club_of(IRON, weights=(PORT,)))) == on(build_of(IRON))


def test_an_adapter_is_on_from_the_dry_build() -> None:
    club = msgspec.structs.replace(club_of(IRON), adapter=Adapter(mass_kg=9 * GRAM, from_ground_m=40e-3))
    assert "adapter" in on(Build(club=club, stage=DRY_NO_GRIP))
    assert "adapter" not in on(Build(club=club, stage=STAGES["bare shaft"]))
