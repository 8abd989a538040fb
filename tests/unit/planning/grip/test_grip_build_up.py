"""Layers of tape for a wanted grip, the band that is honest, and the shop's own calibration."""

from __future__ import annotations

import math

import pytest

from clubwright.club.grip_size import outside_diameter_m
from clubwright.errors import InputError
from clubwright.planning.grip.build_up import plan_build_up
from clubwright.planning.grip.calibration import GripSizeReading, calibrate_blend
from clubwright.planning.grip.forecast import GripPlace

IN = 0.0254
LAYER = 0.005 * IN


def place(target: float | None, *, core=0.600, nominal=0.900, butt=0.600, tolerance=0.004) -> GripPlace:
    return GripPlace(
        core_m=core * IN,
        nominal_m=nominal * IN,
        butt_m=butt * IN,
        target_m=None if target is None else target * IN,
        tolerance_m=tolerance * IN,
    )


def size(layers: int, blend: float, *, nominal: float = 0.900) -> float:
    return outside_diameter_m(0.6 * IN, nominal * IN, 0.6 * IN, layers * LAYER, blend) / IN


def test_the_nominal_size_on_its_own_butt_needs_no_tape():
    plan = plan_build_up(place(0.900), layer_m=LAYER)
    assert (plan.full_layers, plan.lower_hand_layers) == (0, 0)
    assert plan.at_2in.reach == "within"
    assert plan.findings == ()


@pytest.mark.parametrize("layers", [1, 2, 5])
def test_the_layers_that_make_a_size_are_found_again(layers: int):
    plan = plan_build_up(place(size(layers, 0.3)), layer_m=LAYER, blend=0.3)
    assert plan.full_layers == layers
    assert plan.at_2in.layers_wanted == pytest.approx(layers)
    assert plan.calibrated


def test_lower_hand_layers_count_at_six_inches_only():
    at_6in = place(size(3, 0.5, nominal=0.82), nominal=0.82)
    plan = plan_build_up(place(size(1, 0.5)), at_6in, layer_m=LAYER, blend=0.5)
    assert (plan.full_layers, plan.lower_hand_layers) == (1, 2)
    assert any("step" in finding.what for finding in plan.findings)


def test_no_target_at_six_inches_asks_for_no_lower_hand_layers():
    plan = plan_build_up(place(size(2, 0.5)), place(None, nominal=0.82), layer_m=LAYER)
    assert (plan.full_layers, plan.lower_hand_layers) == (2, 0)
    assert plan.at_6in is not None
    assert plan.at_6in.reach is None


def test_a_lower_hand_thicker_than_the_upper_is_warned_of_as_a_bulge():
    plan = plan_build_up(place(0.900), place(0.93, nominal=0.89), layer_m=LAYER)
    assert any("bulge" in finding.what and "6 in" in finding.what for finding in plan.findings)


def test_a_target_thinner_than_the_bare_butt_allows_is_out_of_reach():
    plan = plan_build_up(place(0.880), layer_m=LAYER)
    assert plan.full_layers == 0
    assert plan.at_2in.reach == "outside"
    assert "larger core" in plan.findings[0].mend
    assert plan.at_2in.layers_wanted is None


def test_a_target_too_thick_for_the_layers_allowed_is_out_of_reach():
    plan = plan_build_up(place(1.100), layer_m=LAYER, most_layers=3)
    assert plan.full_layers == 3
    assert plan.at_2in.reach == "outside"
    assert "smaller core" in plan.findings[0].mend


def test_uncalibrated_the_band_runs_from_model_to_model_and_may_not_tell():
    plan = plan_build_up(place(0.930, tolerance=0.005), layer_m=LAYER)
    assert plan.at_2in.low_m == pytest.approx(plan.at_2in.constant_volume_m)
    assert plan.at_2in.high_m == pytest.approx(plan.at_2in.additive_m)
    assert plan.at_2in.reach == "cannot tell"
    assert "Grip one club" in plan.findings[0].mend


def test_a_calibrated_blend_settles_what_could_not_be_told():
    plan = plan_build_up(place(0.930, tolerance=0.005), layer_m=LAYER, blend=0.4, blend_sd=0.05)
    assert plan.at_2in.reach == "within"


def test_the_band_of_a_calibrated_blend_is_two_standard_deviations_each_way():
    plan = plan_build_up(place(size(4, 0.4)), layer_m=LAYER, blend=0.4, blend_sd=0.1)
    assert plan.at_2in.low_m == pytest.approx(size(4, 0.2) * IN)
    assert plan.at_2in.high_m == pytest.approx(size(4, 0.6) * IN)


def test_a_core_larger_than_the_taped_butt_is_warned_of():
    plan = plan_build_up(place(0.880, butt=0.580), layer_m=LAYER)
    assert any("loose" in finding.what for finding in plan.findings)


def test_base_tape_takes_the_place_of_layers():
    with_base = plan_build_up(place(size(4, 0.5)), layer_m=LAYER, base_m=2 * LAYER)
    assert with_base.full_layers == 2
    assert with_base.at_2in.layers_wanted == pytest.approx(2.0)


def test_a_target_no_rubber_can_reach_has_no_layers_and_no_warning_from_numpy():
    plan = plan_build_up(place(0.5), layer_m=LAYER)
    assert plan.at_2in.layers_wanted_constant_volume is None


def test_every_wrong_number_is_reported_at_once():
    wrong = place(None, butt=math.nan, nominal=0.5, tolerance=0.0)
    with pytest.raises(InputError) as caught:
        plan_build_up(wrong, layer_m=0.0, base_m=-1.0, blend_sd=-1.0, stretch=-1.0)
    assert len(caught.value.findings) == 8


def reading(blend: float, layers: int, *, off_m: float = 0.0, butt: float = 0.6) -> GripSizeReading:
    measured_m = outside_diameter_m(0.6 * IN, 0.9 * IN, butt * IN, layers * LAYER, blend) + off_m
    return GripSizeReading(
        core_m=0.6 * IN, nominal_m=0.9 * IN, butt_m=butt * IN, tape_thickness_m=layers * LAYER, measured_m=measured_m
    )


def test_calibration_finds_the_blend_that_made_the_readings():
    fit = calibrate_blend([reading(0.35, layers) for layers in (1, 3, 6)])
    assert fit.blend == pytest.approx(0.35)
    assert fit.readings == 3
    assert fit.sd > 0.01  # readings that fit perfectly are still only as good as the caliper
    assert fit.findings == ()


def test_one_reading_is_as_good_as_the_caliper():
    single = reading(0.35, 4)
    apart_m = size(4, 1.0) * IN - size(4, 0.0) * IN
    assert calibrate_blend([single], reading_sd_m=1e-4).sd == pytest.approx(1e-4 / apart_m)


def test_scattered_readings_widen_the_blend_beyond_the_caliper():
    scattered = [reading(0.4, 4, off_m=5e-4), reading(0.4, 4, off_m=-5e-4), reading(0.4, 4)]
    assert calibrate_blend(scattered).sd > 2 * calibrate_blend([reading(0.4, 4)] * 3).sd


def test_a_blend_beyond_both_models_is_warned_of():
    assert "beyond both models" in calibrate_blend([reading(2.5, 8)]).findings[0].what


def test_readings_that_cannot_tell_the_models_apart_are_refused():
    with pytest.raises(InputError, match="tells the two models apart"):
        calibrate_blend([reading(0.5, 0)])
    with pytest.raises(InputError, match="no readings"):
        calibrate_blend([])


def test_wrong_readings_are_reported_by_number_all_at_once():
    bad = GripSizeReading(core_m=0.0, nominal_m=0.0, butt_m=0.015, tape_thickness_m=-1.0, measured_m=math.nan)
    with pytest.raises(InputError) as caught:
        calibrate_blend([reading(0.5, 2), bad])
    assert len(caught.value.findings) == 4
    assert all(finding.where.startswith("grip reading 2") for finding in caught.value.findings)
