"""Grip models over random grips: bracketing, growing with tape, and a true inverse."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from clubwright.club.grip_size import outside_diameter_m, under_diameter_for_m

cores = st.floats(0.012, 0.020)
walls = st.floats(0.002, 0.012)
tapes = st.floats(0.0, 0.004)
blends = st.floats(0.0, 1.0)
stretches = st.floats(-0.05, 0.15)


@given(cores, walls, tapes, blends)
def test_the_blend_lies_between_the_models(core: float, wall: float, tape: float, blend: float):
    nominal = core + 2 * wall
    low = outside_diameter_m(core, nominal, core, tape, 0.0)
    high = outside_diameter_m(core, nominal, core, tape, 1.0)
    assert low - 1e-15 <= outside_diameter_m(core, nominal, core, tape, blend) <= high + 1e-15


@given(cores, walls, tapes, blends, stretches, st.floats(1e-5, 1e-3))
def test_more_tape_never_makes_a_thinner_grip(
    core: float, wall: float, tape: float, blend: float, stretch: float, more: float
):
    thin = outside_diameter_m(core, core + 2 * wall, core, tape, blend, stretch)
    assert outside_diameter_m(core, core + 2 * wall, core, tape + more, blend, stretch) > thin


@given(cores, walls, st.floats(0.010, 0.025), tapes, st.floats(-0.3, 1.3), stretches)
def test_the_inverse_undoes_the_model(core: float, wall: float, butt: float, tape: float, blend: float, stretch: float):
    outside = outside_diameter_m(core, core + 2 * wall, butt, tape, blend, stretch)
    under = under_diameter_for_m(outside, core, core + 2 * wall, blend, stretch)
    assert under == pytest.approx(butt + 2 * tape, rel=1e-9)
