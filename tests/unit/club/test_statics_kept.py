"""The sums over the parts are worked out once for a build, and never carried over to a changed one."""

from __future__ import annotations

import msgspec
import pytest

from clubwright.club.build import Build
from clubwright.club.parts import Adhesive, Club, Ferrule, Grip, Head, Shaft
from clubwright.club.stages import BARE_SHAFT
from clubwright.club.statics import statics
from clubwright.club.total_weight import total_weight_kg

CLUB = Club(
    kind="wedge",
    head=Head(mass_kg=0.3, cg_from_ground_m=-0.004, bore_to_ground_m=0.028, bore_depth_m=0.033),
    shaft=Shaft(raw_length_m=0.9, mass_kg=0.12, balance_from_tip_m=0.47, length_m=0.87),
    grip=Grip(mass_kg=0.05, cg_from_cap_m=0.104, cap_m=0.003),
    ferrule=Ferrule(mass_kg=0.001),
    adhesive=Adhesive(mass_kg=0.001),
)


def test_the_sums_of_one_build_are_worked_out_once() -> None:
    build = Build(club=CLUB)

    assert statics(build) is statics(build)


def test_a_changed_build_is_summed_anew() -> None:
    build = Build(club=CLUB)
    assert total_weight_kg(build) == pytest.approx(0.3 + 0.12 + 0.05 + 0.001 + 0.001)

    heavier = msgspec.structs.replace(CLUB, head=msgspec.structs.replace(CLUB.head, mass_kg=0.31))

    assert total_weight_kg(msgspec.structs.replace(build, club=heavier)) == pytest.approx(0.482)
    assert total_weight_kg(msgspec.structs.replace(build, stage=BARE_SHAFT)) == pytest.approx(0.12)


def test_what_is_kept_is_no_part_of_a_builds_value() -> None:
    used, fresh = Build(club=CLUB), Build(club=CLUB)
    statics(used)

    assert used == fresh
