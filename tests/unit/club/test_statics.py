"""Mass, first and second moment of clubs whose sums can be done on the back of an envelope."""

from __future__ import annotations

import pytest

from clubwright.club.balance_point import balance_point_m
from clubwright.club.build import Build
from clubwright.club.moi import moi_about_cg_kg_m2, moi_kg_m2
from clubwright.club.parts import Adhesive, Club, Ferrule, Grip, Head, Shaft
from clubwright.club.shaft import trimmed
from clubwright.club.stages import BARE_SHAFT, DRY_NO_GRIP, FINISHED
from clubwright.club.statics import statics
from clubwright.club.total_weight import total_weight_kg


def simple(head_kg: float = 0.2, off_axis_m: float = 0.0) -> Club:
    """A uniform 0.1 kg rod of 1 m from the ground up, a point head at its end, a weightless grip with a 5 mm cap."""
    return Club(
        kind="iron",
        head=Head(mass_kg=head_kg, cg_from_ground_m=0.0, cg_off_axis_m=off_axis_m),
        shaft=Shaft(raw_length_m=1.0, mass_kg=0.1, balance_from_tip_m=0.5, length_m=1.0),
        grip=Grip(mass_kg=0.0, cg_from_cap_m=0.1, cap_m=0.005),
        ferrule=Ferrule(mass_kg=0.0),
        adhesive=Adhesive(mass_kg=0.0),
    )


def test_rod_with_a_point_at_its_end() -> None:
    build = Build(club=simple(), stage=DRY_NO_GRIP)
    assert total_weight_kg(build) == pytest.approx(0.3)
    assert balance_point_m(build) == pytest.approx((0.1 * 0.5 + 0.2 * 1.0) / 0.3)
    assert moi_kg_m2(build) == pytest.approx(0.1 / 3 + 0.2)
    assert moi_about_cg_kg_m2(build) == pytest.approx(0.1 / 3 + 0.2 - 0.25**2 / 0.3)


def test_a_weightless_grip_still_moves_the_stop() -> None:
    dry, gripped = (statics(Build(club=simple(), stage=stage)) for stage in (DRY_NO_GRIP, FINISHED))
    assert gripped.first_kg_m - dry.first_kg_m == pytest.approx(0.3 * 0.005)
    assert gripped.mass_kg == dry.mass_kg


def test_off_the_axis_counts_for_inertia_only() -> None:
    on, off = (statics(Build(club=simple(off_axis_m=metres), stage=DRY_NO_GRIP)) for metres in (0.0, 0.04))
    assert off.first_kg_m == on.first_kg_m
    assert off.second_kg_m2 - on.second_kg_m2 == pytest.approx(0.2 * 0.04**2)


def test_bare_shaft_is_the_shaft_alone() -> None:
    build = Build(club=simple(), stage=BARE_SHAFT)
    assert total_weight_kg(build) == pytest.approx(0.1)
    assert balance_point_m(build) == pytest.approx(0.5)


def test_trims_take_their_mass_and_move_the_balance() -> None:
    """1.2 m of 0.1 kg/m, 0.1 m off either end: uniform stays uniform."""
    shaft = Shaft(
        raw_length_m=1.2,
        mass_kg=0.12,
        balance_from_tip_m=0.6,
        length_m=1.0,
        tip_trim_m=0.1,
        tip_density_kg_m=0.1,
        butt_density_kg_m=0.1,
    )
    left = trimmed(shaft)
    assert left.mass_kg == pytest.approx(0.1)
    assert left.cg_from_tip_m == pytest.approx(0.5)
    assert left.own_inertia_kg_m2 == pytest.approx(0.1 / 12)


def test_an_extension_adds_at_the_butt() -> None:
    shaft = Shaft(raw_length_m=1.0, mass_kg=0.1, balance_from_tip_m=0.5, length_m=1.1, butt_density_kg_m=0.1)
    longer = trimmed(shaft)
    assert longer.mass_kg == pytest.approx(0.11)
    assert longer.cg_from_tip_m == pytest.approx(0.55)
