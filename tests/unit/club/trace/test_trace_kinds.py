"""Records as phones and benches make them: few and jittered samples, a sway, a motor, a second bend above a faint first."""

from __future__ import annotations

import numpy as np
import pytest

from clubwright.club.oscillation import Oscillation, read_oscillation
from clubwright.club.trace.record import Trace
from clubwright.errors import InputError
from records import Swing, recorded, swings, times

CLUB = Swing(350 / 60, 0.005)
SIX_CYCLES_S = 6 * 60 / 350


def off_cpm(found: Oscillation, truth: Swing = CLUB) -> float:
    return abs(found.frequency_hz - truth.frequency_hz) * 60


@pytest.mark.parametrize("rate_hz", [60.0, 100.0])
def test_six_cycles_of_jittered_samples_are_enough(rate_hz: float):
    rng = np.random.default_rng(11)
    off, stated = [], []
    for _ in range(25):
        even = times(SIX_CYCLES_S, rate_hz)
        at_s = np.sort(even + rng.normal(0, 0.1 / rate_hz, even.size))
        values = swings(at_s, [CLUB]) + 0.003 * rng.standard_normal(at_s.size)
        found = read_oscillation(Trace(values=values, times_s=at_s))
        off.append(off_cpm(found))
        stated.append(60 * found.frequency_sd_hz)
    assert np.sqrt(np.mean(np.square(off))) < 0.035
    assert max(np.array(off) / np.array(stated)) < 4
    taken_as_even = Trace(values=values, rate_hz=rate_hz)
    with_rate = [off_cpm(read_oscillation(taken_as_even))] if rate_hz == 100 else [1.0]
    assert with_rate[0] > 2 * np.sqrt(np.mean(np.square(off))), "the times are what it is read at"


@pytest.mark.parametrize("sway_hz", [0.4, 0.7, 1.3, 1.9, 2.6])
def test_a_bench_that_sways_at_a_tenth_is_not_the_club(sway_hz: float):
    for rate_hz in (60.0, 250.0):
        found = read_oscillation(recorded(CLUB, Swing(sway_hz, 0.02, 0.1), rate_hz=rate_hz, sd=0.003))
        assert off_cpm(found) < 4 * 60 * found.frequency_sd_hz
        assert 60 * found.frequency_sd_hz < 0.05


@pytest.mark.parametrize("hum", [0.2, 1.0, 3.0])
@pytest.mark.parametrize("hum_hz", [4.1, 8.1, 12.3])
def test_a_motor_that_hums_on_is_not_the_club(hum_hz: float, hum: float):
    found = read_oscillation(recorded(CLUB, Swing(hum_hz, 0.0, hum)))
    assert off_cpm(found) < 4 * 60 * found.frequency_sd_hz
    assert any(f"at {hum_hz * 60:.0f} cpm" in item.what for item in found.findings)


def test_a_motor_alone_is_refused():
    for seed in range(5):
        with pytest.raises(InputError, match="does not die away, and a plucked club does"):
            read_oscillation(recorded(Swing(4.1, 0.0), seed=seed))


@pytest.mark.parametrize(
    ("first", "second_hz", "rate_hz"), [(4.0, 25.1, 250.0), (5.0, 40.0, 500.0), (5.0, 31.4, 1000.0), (5.0, 36.0, 100.0)]
)
def test_a_first_mode_at_2_percent_of_the_second_is_the_club(first: float, second_hz: float, rate_hz: float):
    club = Swing(first, 0.008, 0.02, 0.4)
    found = read_oscillation(recorded(club, Swing(second_hz, 0.006, 1.0), rate_hz=rate_hz, sd=0.001))
    assert off_cpm(found, club) < 4 * 60 * found.frequency_sd_hz


def test_a_second_bend_alone_is_no_club():
    with pytest.raises(InputError, match=r"what stands out is at 150[56] cpm, and clubs swing at 100 to 1000 cpm"):
        read_oscillation(recorded(Swing(25.1, 0.006), rate_hz=500))


def test_two_that_may_be_the_club_are_asked_about():
    two = recorded(Swing(3.0, 0.008, 0.3), Swing(7.0, 0.008))
    with pytest.raises(InputError, match="180 and 420 cpm both die away, and either may be the club"):
        read_oscillation(two)
    assert read_oscillation(two, band_hz=(5.0, 10.0)).frequency_hz == pytest.approx(7.0, abs=0.01)


def test_a_beat_is_not_taken_for_a_gap():
    for share, phase in ((0.95, 1.0), (0.5, 2.0), (0.2, 3.0)):
        found = read_oscillation(recorded(Swing(5.04, 0.006), Swing(5.24, 0.006, share, phase), sd=0.003))
        assert found.second_frequency_hz == pytest.approx(5.24, abs=0.005)
