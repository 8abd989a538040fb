"""What to put in the cup, what was put in it, and how long it may be used."""

from __future__ import annotations

import math

import pytest

from clubwright.errors import InputError
from clubwright.planning.joint.adhesive import MixRatio, plan_mix, ratio_by_weight, smallest_batch_kg
from clubwright.planning.joint.mix_check import check_mix, pot_life_left

GRAM = 1e-3
TWO_TO_ONE = MixRatio(part_a=2, part_b=1, basis="weight")


def plan(ratio: MixRatio = TWO_TO_ONE, **changes: float):
    given = {"joints": 8, "per_joint_kg": 1.2 * GRAM, "scale_error_kg": 0.1 * GRAM, **changes}
    return plan_mix(ratio, **given)


def test_parts_add_up_to_the_batch_and_keep_the_ratio():
    mix = plan()
    assert mix.part_a_kg + mix.part_b_kg == pytest.approx(mix.batch_kg, rel=1e-15)
    assert mix.part_a_kg / mix.part_b_kg == pytest.approx(2.0)
    assert mix.enough


def test_volume_ratio_without_densities_names_both_and_the_data_sheet():
    with pytest.raises(InputError) as caught:
        plan(MixRatio(part_a=1, part_b=1, basis="volume"))
    assert [finding.where[-1] for finding in caught.value.findings] == ["A", "B"]
    assert all("data sheet" in finding.mend for finding in caught.value.findings)


def test_volume_ratio_with_one_density_names_the_other():
    with pytest.raises(InputError) as caught:
        ratio_by_weight(MixRatio(part_a=1, part_b=1, basis="volume", density_a_kg_m3=1160.0))
    assert [finding.where for finding in caught.value.findings] == ["adhesive density of part B"]


def test_densities_do_not_touch_a_ratio_by_weight():
    ratio = MixRatio(part_a=2, part_b=1, basis="weight", density_a_kg_m3=1500.0, density_b_kg_m3=900.0)
    assert ratio_by_weight(ratio) == 2.0


def test_one_small_joint_is_not_enough_and_says_what_is():
    mix = plan(joints=1, per_joint_kg=1.5 * GRAM, waste_share=0.0)
    assert not mix.enough
    assert mix.findings[0].severity == "error"
    assert "6.00 g" in mix.findings[0].mend


def test_batch_exactly_at_the_smallest_is_enough():
    mix = plan(joints=1, per_joint_kg=6.0 * GRAM, waste_share=0.0)
    assert mix.enough
    assert mix.scale_share == pytest.approx(0.05)
    assert mix.findings[0].severity == "warning"  # both weighings off against each other: 7.9 %


def test_smallest_batch_is_the_same_whichever_part_is_small():
    one = smallest_batch_kg(4.0, scale_error_kg=0.1 * GRAM)
    other = smallest_batch_kg(0.25, scale_error_kg=0.1 * GRAM)
    assert one == pytest.approx(other) == pytest.approx(10 * GRAM)


def test_worst_ratio_error_is_the_ratio_with_both_weighings_off():
    mix = plan()
    worst = (mix.part_a_kg + 0.1 * GRAM) / (mix.part_b_kg - 0.1 * GRAM) / 2 - 1
    assert mix.worst_ratio_error == pytest.approx(worst)
    assert plan(scale_error_kg=10 * GRAM).worst_ratio_error == math.inf


@pytest.mark.parametrize(("per_joint_g", "warned"), [(40.0, False), (40.1, True)])
def test_more_than_fifty_grams_in_one_cup_is_warned_of(per_joint_g: float, warned: bool):
    mix = plan(joints=1, per_joint_kg=per_joint_g * GRAM)  # plus a quarter of waste
    assert any("heat itself up" in finding.what for finding in mix.findings) is warned


def test_every_wrong_number_is_reported_at_once():
    with pytest.raises(InputError) as caught:
        plan(joints=0, per_joint_kg=math.nan, scale_error_kg=-1.0, waste_share=-0.1, allowed_error=0.0)
    assert len(caught.value.findings) == 5


def test_a_ratio_part_of_zero_is_refused():
    with pytest.raises(InputError, match="part B"):
        ratio_by_weight(MixRatio(part_a=1, part_b=0, basis="weight"))


@pytest.mark.parametrize(("a_g", "b_g", "add"), [(8.0, 4.3, "A"), (8.0, 3.7, "B")])
def test_topping_up_a_cup_meets_the_ratio(a_g: float, b_g: float, add: str):
    check = check_mix(a_g * GRAM, b_g * GRAM, 2.0)
    assert check.add == add
    assert not check.within
    a_kg = a_g * GRAM + (check.add_kg if add == "A" else 0.0)
    b_kg = b_g * GRAM + (check.add_kg if add == "B" else 0.0)
    assert check_mix(a_kg, b_kg, 2.0).part_b_error == pytest.approx(0.0, abs=1e-12)


def test_a_cup_within_five_per_cent_is_within():
    assert check_mix(8.0 * GRAM, 4.2 * GRAM, 2.0).within
    assert not check_mix(8.0 * GRAM, 4.21 * GRAM, 2.0).within


def test_unknown_pot_life_is_refused():
    with pytest.raises(InputError, match="not guessed"):
        pot_life_left(None, 60.0)


def test_pot_life_runs_down_and_stops_at_zero():
    assert pot_life_left(1200.0, 300.0).remaining_s == 900.0
    over = pot_life_left(1200.0, 1200.0)
    assert (over.remaining_s, over.usable) == (0.0, False)
    assert over.findings[0].severity == "error"
    assert pot_life_left(1200.0, 5000.0).remaining_s == 0.0


def test_a_warmer_bench_and_a_fuller_cup_are_each_warned_of():
    left = pot_life_left(
        1200.0, 0.0, sheet_temperature_k=296.0, temperature_k=303.0, sheet_mass_kg=10 * GRAM, batch_kg=12 * GRAM
    )
    assert len(left.findings) == 2
    assert left.usable
