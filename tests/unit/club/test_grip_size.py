"""The two models of a grip, their blend, and the kinds of number they take."""

from __future__ import annotations

import numpy as np
import pytest

from clubwright.club.grip_size import (
    additive_diameter_m,
    constant_volume_diameter_m,
    outside_diameter_m,
    under_diameter_for_m,
)

IN = 0.0254
GRIP = (0.600 * IN, 0.900 * IN)


def test_blend_zero_and_one_are_the_two_models():
    under_m = 0.62 * IN
    assert outside_diameter_m(*GRIP, 0.6 * IN, 0.01 * IN, 1.0) == pytest.approx(additive_diameter_m(*GRIP, under_m))
    assert outside_diameter_m(*GRIP, 0.6 * IN, 0.01 * IN, 0.0) == pytest.approx(
        constant_volume_diameter_m(*GRIP, under_m)
    )


def test_constant_volume_keeps_area_times_length():
    core_m, nominal_m, under_m, stretch = 0.58 * IN, 0.9 * IN, 0.63 * IN, 0.05
    outside_m = constant_volume_diameter_m(core_m, nominal_m, under_m, stretch)
    assert (outside_m**2 - under_m**2) * (1 + stretch) == pytest.approx(nominal_m**2 - core_m**2)


def test_a_longer_pull_makes_a_thinner_grip_in_both_models():
    for blend in (0.0, 1.0):
        free = outside_diameter_m(*GRIP, 0.6 * IN, 0.0, blend)
        assert outside_diameter_m(*GRIP, 0.6 * IN, 0.0, blend, 0.05) < free


def test_arrays_give_what_their_elements_give():
    butts = np.array([0.58, 0.60, 0.62]) * IN
    together = outside_diameter_m(*GRIP, butts, 0.01 * IN, 0.4)
    alone = [outside_diameter_m(*GRIP, float(butt), 0.01 * IN, 0.4) for butt in butts]
    assert together.shape == (3,)
    assert together == pytest.approx(alone)


@pytest.mark.parametrize("argument", range(6))
def test_complex_step_slope_equals_the_difference_quotient(argument: int):
    point = [0.58 * IN, 0.9 * IN, 0.6 * IN, 0.01 * IN, 0.4, 0.02]
    step = np.zeros(6)
    step[argument] = 1.0
    by_complex = np.imag(outside_diameter_m(*(np.asarray(point) + 1e-30j * step))) / 1e-30
    up = outside_diameter_m(*(np.asarray(point) + 1e-6 * step))
    down = outside_diameter_m(*(np.asarray(point) - 1e-6 * step))
    assert by_complex == pytest.approx((up - down) / 2e-6, rel=1e-6)


@pytest.mark.parametrize("blend", [-0.2, 0.0, 0.3, 0.5, 0.7, 1.0, 1.2])
def test_the_inverse_undoes_the_model(blend: float):
    outside_m = outside_diameter_m(*GRIP, 0.58 * IN, 0.02 * IN, blend, 0.01)
    assert under_diameter_for_m(outside_m, *GRIP, blend, 0.01) == pytest.approx(0.62 * IN, rel=1e-12)
