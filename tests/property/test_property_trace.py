"""Laws of a frequency from a record: the unit, the offset and the sign of the record change nothing."""

from __future__ import annotations

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from clubwright.club.oscillation import read_oscillation
from records import Swing, recorded

PAIR = recorded(Swing(5.04, 0.008), Swing(5.3, 0.008, 0.5), length_s=6, rate_hz=125)
READ = read_oscillation(PAIR)

scales = st.floats(1e-6, 1e6) | st.floats(-1e6, -1e-6)


@settings(max_examples=15, deadline=None)
@given(scale=scales, offset=st.floats(-100, 100))
def test_amplitude_sign_and_offset_change_nothing(scale: float, offset: float) -> None:
    found = read_oscillation(msgspec.structs.replace(PAIR, values=scale * (PAIR.values + offset)))
    assert found.frequency_hz == pytest.approx(READ.frequency_hz, rel=1e-8)
    assert found.frequency_sd_hz == pytest.approx(READ.frequency_sd_hz, rel=1e-5)
    assert found.second_frequency_hz == pytest.approx(READ.second_frequency_hz, rel=1e-7)
    assert found.damping_ratio == pytest.approx(READ.damping_ratio, rel=1e-5)
    assert [item.severity for item in found.findings] == [item.severity for item in READ.findings]


@settings(max_examples=15, deadline=None)
@given(stretch=st.floats(0.6, 3.0))
def test_time_stretched_is_frequency_divided(stretch: float) -> None:
    found = read_oscillation(msgspec.structs.replace(PAIR, rate_hz=125 * stretch))
    assert found.frequency_hz == pytest.approx(stretch * READ.frequency_hz, rel=1e-8)
    assert found.damping_ratio == pytest.approx(READ.damping_ratio, rel=1e-5)


@settings(max_examples=15, deadline=None)
@given(
    frequency_hz=st.floats(2.5, 9.0), damping=st.floats(0.002, 0.02), phase=st.floats(-3, 3), seed=st.integers(0, 10**6)
)
def test_the_truth_lies_within_five_standard_deviations(
    frequency_hz: float, damping: float, phase: float, seed: int
) -> None:
    found = read_oscillation(recorded(Swing(frequency_hz, damping, 1.0, phase), length_s=8, rate_hz=200, seed=seed))
    assert abs(found.frequency_hz - frequency_hz) < 5 * found.frequency_sd_hz
