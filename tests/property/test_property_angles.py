"""Angles and bends over random heads: signs, mirror images, round trips, derivatives, and plans that add up."""

from __future__ import annotations

from math import radians

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from clubwright.club.bending import (
    HEEL_TO_TOE,
    TO_TARGET,
    angles_after_bend_rad,
    changes_from_lie_pull_rad,
    gauge_angles_rad,
    loft_change_from_square_pull_rad,
    shaft_direction,
    square_pull_for_loft_rad,
    turned,
)
from clubwright.club.bounce import bounce_after_loft_bend_rad, loft_minus_bounce_rad
from clubwright.club.head_cg import cg_from_ground_after_lie_bend_m, cg_toward_butt_m
from clubwright.club.length import (
    axis_length_m,
    length_change_from_lie_m,
    plane_length_change_from_lie_m,
    plane_length_m,
    plane_minus_axis_m,
)
from clubwright.club.loft_lie import face_direction_rad, sideways_miss_m
from clubwright.planning.bending.plan import LEAST_BEND_RAD, PULL_RAD, plan_bends
from clubwright.planning.bending.request import Angles, BendRequest, BentSoFar
from clubwright.words.say import say

lofts = st.floats(radians(2), radians(65))
lies = st.floats(radians(54), radians(75))
errors = st.floats(radians(-8), radians(8))
bends = st.floats(radians(-4), radians(4))
cambers = st.floats(0.1, 0.5)
contacts = st.floats(0.0, 0.08)
lengths = st.floats(0.6, 1.25)
halves = st.floats(radians(-90), radians(90))


@given(lofts, errors)
def test_toe_up_and_toe_down_are_mirror_images(loft: float, error: float):
    assert face_direction_rad(loft, -error) == -face_direction_rad(loft, error)


@given(lengths, lies, cambers, contacts, st.floats(0, 0.015))
def test_the_length_conventions_undo_each_other(
    length: float, lie: float, camber: float, contact: float, height: float
):
    there = plane_length_m(length, lie, camber, contact, height)
    assert axis_length_m(there, lie, camber, contact, height) == pytest.approx(length, abs=1e-14)


@given(lies, bends, bends)
def test_length_after_two_lie_bends_is_that_after_their_sum(lie: float, first: float, second: float):
    """The bend point keeps its height, so its distance down the new axis is what the second bend starts from."""
    point = 0.038
    once = length_change_from_lie_m(first, lie, point)
    assert once + length_change_from_lie_m(second, lie + first, point + once) == pytest.approx(
        length_change_from_lie_m(first + second, lie, point), abs=1e-15
    )


@given(lofts, lies, bends)
def test_a_pure_bend_changes_one_angle_by_its_own_amount(loft: float, lie: float, bend: float):
    assert angles_after_bend_rad(loft, lie, HEEL_TO_TOE, bend) == pytest.approx((loft - bend, lie), abs=1e-12)
    assert angles_after_bend_rad(loft, lie, TO_TARGET, bend) == pytest.approx((loft, lie + bend), abs=1e-12)


@given(lofts, lies, st.tuples(halves, halves, halves))
def test_the_gauge_reads_the_same_from_any_position(loft: float, lie: float, turns: tuple[float, float, float]):
    axis = np.array([1.0, 1.0, 1.0]) / np.sqrt(3)
    parts = [np.array([0.0, np.cos(loft), np.sin(loft)]), HEEL_TO_TOE, shaft_direction(lie)]
    for along, angle in zip((HEEL_TO_TOE, TO_TARGET, axis), turns, strict=True):
        parts = [turned(part, along, angle) for part in parts]
    assert gauge_angles_rad(*parts) == pytest.approx((loft, lie), abs=1e-10)


@given(lies, bends)
def test_a_square_pull_undoes_itself(lie: float, pull: float):
    assert square_pull_for_loft_rad(loft_change_from_square_pull_rad(pull, lie), lie) == pytest.approx(pull, abs=1e-14)


@given(lies, bends, st.floats(radians(-25), radians(25)))
def test_the_bar_on_the_other_side_leaks_the_other_way(lie: float, pull: float, turn: float):
    loft, lie_change = changes_from_lie_pull_rad(lie, pull, turn)
    other_loft, other_lie_change = changes_from_lie_pull_rad(lie, pull, -turn)
    assert other_loft == pytest.approx(-loft, abs=1e-12)
    assert other_lie_change == pytest.approx(lie_change, abs=1e-12)


FORMULAS = {
    "face direction": lambda x: face_direction_rad(0.6, x),
    "sideways": lambda x: sideways_miss_m(100.0, 0.6 + x, 0.05),
    "plane minus axis": lambda x: plane_minus_axis_m(1.1 + x, 0.25, 0.055, 0.005),
    "length after lie": lambda x: length_change_from_lie_m(x, 1.1),
    "plane length after lie": lambda x: plane_length_change_from_lie_m(x, 1.1, 0.25, 0.055),
    "centre to butt": lambda x: cg_toward_butt_m(-0.004, 0.037, x),
    "centre from ground": lambda x: cg_from_ground_after_lie_bend_m(-0.004, 0.037, 1.1, x),
    "square pull": lambda x: loft_change_from_square_pull_rad(x, 1.1),
    "bent about an odd axis, loft": lambda x: angles_after_bend_rad(0.9, 1.1, np.array([0.36, -0.48, 0.8]), x)[0],
    "bent about an odd axis, lie": lambda x: angles_after_bend_rad(0.9, 1.1, np.array([0.36, -0.48, 0.8]), x)[1],
    "bar round, loft": lambda x: changes_from_lie_pull_rad(1.1, x, 0.2)[0],
}


@pytest.mark.parametrize("name", FORMULAS)
@given(st.floats(-0.04, 0.04))
def test_complex_steps_give_the_derivative(name: str, x: float):
    formula = FORMULAS[name]
    by_difference = (formula(x + 1e-6) - formula(x - 1e-6)) / 2e-6
    by_complex_step = np.imag(formula(x + 1e-30j)) / 1e-30
    assert by_complex_step == pytest.approx(by_difference, rel=1e-6, abs=1e-7)


@pytest.mark.parametrize("name", [name for name in FORMULAS if "bent" not in name and "bar" not in name])
def test_arrays_are_worked_element_by_element(name: str):
    formula, values = FORMULAS[name], np.array([-0.02, 0.0, 0.03])
    assert formula(values) == pytest.approx([formula(value) for value in values], abs=1e-15)


@given(lofts, st.floats(radians(-5), radians(20)), bends)
def test_loft_less_bounce_survives_any_bend(loft: float, bounce: float, bend: float):
    kept = loft_minus_bounce_rad(loft, bounce)
    after = bounce_after_loft_bend_rad(bounce, bend)
    assert loft_minus_bounce_rad(loft + bend, after) == pytest.approx(kept, abs=1e-14)


@given(lofts, lies, st.floats(0, radians(20)), bends, bends, st.sampled_from(["right", "left"]))
def test_a_plan_adds_up(loft: float, lie: float, bounce: float, loft_bend: float, lie_bend: float, hand):
    request = BendRequest(
        kind="iron",
        hand=hand,
        metal="cast 431 stainless",
        now=Angles(loft_rad=loft, lie_rad=lie, bounce_rad=bounce),
        target=Angles(loft_rad=loft + loft_bend, lie_rad=lie + lie_bend),
        bent_so_far=BentSoFar(),
    )
    plan = plan_bends(request)
    for bend in plan.bends:
        assert sum(bend.pulls_rad) == pytest.approx(bend.amount_rad, abs=1e-12)
        assert all(abs(pull) <= PULL_RAD * (1 + 1e-8) for pull in bend.pulls_rad)
        assert abs(bend.amount_rad) <= radians(2) + 1e-8
        assert (bend.amount_rad > 0) == ("+" in say(bend.amount, None))
    most = max(abs(loft_bend), abs(lie_bend))
    if abs(most - radians(2)) > 1e-8:
        assert plan.refused == (most > radians(2))
    if plan.refused:
        assert plan.result == request.now
    else:
        assert plan.result.loft_rad == pytest.approx(loft + loft_bend, abs=LEAST_BEND_RAD)
        assert plan.result.lie_rad == pytest.approx(lie + lie_bend, abs=LEAST_BEND_RAD)
        assert plan.result.bounce_rad - bounce == pytest.approx(plan.result.loft_rad - loft, abs=1e-12)
        assert plan.axis_length_change_m * (plan.result.lie_rad - lie) <= 0
