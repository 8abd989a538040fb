"""Records that are refused, each with what is missing; and what is only warned about."""

from __future__ import annotations

import re

import msgspec
import numpy as np
import pytest

from clubwright.club.oscillation import read_oscillation
from clubwright.club.trace.model_choice import choose
from clubwright.club.trace.record import Trace
from clubwright.club.trace.refusals import beat_findings, fit_findings
from clubwright.club.trace.span import Span
from clubwright.errors import InputError
from records import Swing, noise, recorded, swings, times

CLUB = Swing(5.04, 0.008)
GOOD = recorded(CLUB)


def refusal(trace: Trace, **options: object) -> str:
    with pytest.raises(InputError) as refused:
        read_oscillation(trace, **options)
    assert all(item.where == "swing.csv" and item.mend for item in refused.value.findings)
    return str(refused.value)


def other(values: np.ndarray, **changes: object) -> Trace:
    return msgspec.structs.replace(GOOD, values=values, **changes)


def test_the_record_that_the_others_spoil_is_read():
    found = read_oscillation(GOOD)
    assert found.frequency_hz == pytest.approx(5.04, abs=3 * found.frequency_sd_hz)
    assert found.damping_ratio == pytest.approx(0.008, rel=0.01)
    assert {item.severity for item in found.findings} == {"note"}


def test_too_short_says_how_many_seconds():
    said = refusal(other(GOOD.values[:320]))
    cycles, missing = re.search(
        r"too short: ([\d.]+) free cycles .* at least ([\d.]+) s longer", said, re.DOTALL
    ).groups()
    assert 3 < float(cycles) < 6
    longer = 320 + round(float(missing) * 250)
    assert read_oscillation(other(GOOD.values[:longer])).cycles >= 6


def test_a_hand_that_comes_too_early():
    values = swings(times(12.0, 250.0), [CLUB])
    values[350:] = 0
    assert "too short: 4." in refusal(other(values + 0.01 * noise(values.size, 2)))


def test_noise_alone():
    said = refusal(other(noise(3000, 4)))
    ratio = re.search(r"the strongest line has ([\d.]+) times .* and 30 times is needed", said)
    assert ratio
    assert float(ratio[1]) < 30


def test_a_swing_that_drowns():
    assert re.search(
        r"too noisy: the swing is [12]\.\d* times what else .* and 3 times is needed", refusal(recorded(CLUB, sd=0.7))
    )


def test_a_swing_that_is_damped_too_much():
    assert "or lessen the damping" in refusal(recorded(Swing(5.04, 0.12)))


def test_a_frequency_that_is_too_uncertain():
    """Noise at the frequency alone: quiet all over, loud where it counts."""
    fit = choose(Span(values=GOOD.values[:600], rate_hz=250.0, start_s=0.0), 5.04).one
    assert fit_findings(GOOD, fit, 3.1) == []
    (found,) = fit_findings(GOOD, msgspec.structs.replace(fit, variance=20.0), 3.1)
    assert re.fullmatch(r"too noisy: the frequency is known to [\d.]+ cpm, and 1\.5 cpm is needed", found.what)


@pytest.mark.parametrize(("rate_hz", "swing_hz", "needed"), [(30.0, 5.04, 40), (60.0, 9.0, 72), (41.0, 6.0, 48)])
def test_sampled_too_slowly(rate_hz: float, swing_hz: float, needed: float):
    said = refusal(recorded(Swing(swing_hz, 0.008), rate_hz=rate_hz))
    assert "sampled too slowly" in said
    assert float(re.search(r"and ([\d.]+) are needed", said)[1]) == pytest.approx(needed, rel=0.02)


@pytest.mark.parametrize(("low", "high", "ends"), [(-0.8, 0.8, 2), (-9.0, 0.9, 1)])
def test_clipped(low: float, high: float, ends: int):
    said = refusal(other(np.clip(GOOD.values, low, high)))
    assert said.count("clipped: ") == ends
    assert f"in a row stand at {high:g}, the highest" in said


@pytest.mark.parametrize("step", [0.002, 0.02, 0.05])
def test_the_steps_of_a_converter_are_not_taken_for_clipping(step: float):
    assert read_oscillation(other(np.round(GOOD.values / step) * step)).frequency_hz == pytest.approx(5.04, abs=0.002)


@pytest.mark.parametrize("level", [0.0, 3.7])
def test_a_dead_channel(level: float):
    assert f"the channel is dead: every sample is {level:g}" in refusal(other(np.full(3000, level)))


def test_a_staircase():
    assert "have 5 levels, and at least 8" in refusal(other(np.round(GOOD.values * 2)))


@pytest.mark.parametrize("bad", [np.nan, np.inf, -1e300])
def test_no_number(bad: float):
    values = GOOD.values.copy()
    values[[7, 9]] = bad
    assert "2 of 3000 samples are no number, the first is sample 8" in refusal(other(values))


def test_too_few_samples_and_no_rate_are_told_at_once():
    said = refusal(other(GOOD.values[:20], rate_hz=None))
    assert "20 samples are too few" in said
    assert "neither the times nor the sample rate" in said


@pytest.mark.parametrize("rate_hz", [0.0, -5.0, float("nan")])
def test_a_rate_that_is_none(rate_hz: float):
    assert "is no rate" in refusal(other(GOOD.values, rate_hz=rate_hz))


def test_lost_samples_do_no_harm_where_each_has_its_time_and_are_found_where_none_has():
    for lost in (5, 17, 40, 90):
        kept = np.r_[0:1000, 1000 + lost : 3000]
        timed = other(GOOD.values[kept], rate_hz=None, times_s=times(12.0, 250.0)[kept])
        found = read_oscillation(timed)
        assert found.frequency_hz == pytest.approx(5.04, abs=3 * found.frequency_sd_hz)
        assert "samples are missing there, or stand twice" in refusal(other(GOOD.values[kept]))
    kept = np.r_[0:1000, 960:3000]
    assert "the swing jumps 4." in refusal(other(GOOD.values[kept]))
    assert "a gap of 4 s, more than a quarter" in refusal(
        other(GOOD.values[np.r_[0:1000, 2000:3000]], rate_hz=None, times_s=times(12.0, 250.0)[np.r_[0:1000, 2000:3000]])
    )


def test_times_that_were_rounded_are_taken():
    found = read_oscillation(other(GOOD.values, rate_hz=None, times_s=np.round(times(12.0, 250.0), 3)))
    assert found.frequency_hz == pytest.approx(5.04, abs=3 * found.frequency_sd_hz)


def test_times_that_do_not_run_forward():
    at_s = times(12.0, 250.0)
    at_s[[100, 101]] = at_s[[101, 100]]
    assert "time does not run forward: 0.404 s is followed by 0.4 s" in refusal(
        other(GOOD.values, rate_hz=None, times_s=at_s)
    )
    assert "2999 times for 3000 samples" in refusal(other(GOOD.values, rate_hz=None, times_s=at_s[1:]))


def test_time_reversed():
    assert "the oscillation grows" in refusal(other(GOOD.values[::-1]))


def test_a_beat_that_is_too_short_says_how_many_seconds():
    pair = [Swing(5.04, 0.004), Swing(5.14, 0.004, 0.9, 1.0)]
    said = refusal(recorded(*pair, length_s=4, sd=0.001))
    seconds = re.search(r"two modes beat .* cannot tell them apart. Record about (\d+) s", said)
    assert seconds
    found = read_oscillation(recorded(*pair, length_s=float(seconds[1]), sd=0.001))
    assert found.second_frequency_hz == pytest.approx(5.14, abs=0.002)


@pytest.mark.parametrize(("apart_hz", "seconds"), [(0.02, 16), (0.125, 8), (0.5, 6)])
def test_a_beat_is_asked_for_whole_within_reason(apart_hz: float, seconds: int):
    span = Span(values=GOOD.values[:1000], rate_hz=250.0, start_s=0.0)
    choice = choose(span, 5.04)
    modes = tuple(msgspec.structs.replace(choice.two.fit.modes[0], frequency_hz=f) for f in (5.04, 5.04 + apart_hz))
    two = msgspec.structs.replace(choice.two, fit=msgspec.structs.replace(choice.two.fit, modes=modes))
    unresolved = msgspec.structs.replace(choice, two=two, second_wanted=True, second_resolved=False)
    (found,) = beat_findings(GOOD, span, unresolved)
    assert f"Record about {seconds} s" in found.mend


def test_a_frequency_that_changes_with_the_swing_is_taken_with_a_warning_and_less_certain():
    at_s = times(12.0, 250.0)
    envelope = np.exp(-CLUB.decay_per_s * at_s)
    angle = 2 * np.pi * 5.04 * np.cumsum(1 - 0.002 * envelope**2) / 250
    found = read_oscillation(other(envelope * np.cos(angle) + 0.001 * noise(at_s.size, 3)), clock_sd=0.0)
    assert found.frequency_sd_hz > 20 * found.cramer_rao_sd_hz
    assert found.frequency_hz == pytest.approx(5.04, abs=3 * found.frequency_sd_hz)
    assert [item for item in found.findings if item.severity == "warning"]


def test_something_else_that_swings_is_told():
    found = read_oscillation(recorded(CLUB, Swing(14.0, 0.01, 0.5)))
    assert [item for item in found.findings if "another line stands at 840 cpm, 2.78 times" in item.what]


def test_it_starts_after_the_pluck_and_ends_before_the_hand():
    at_s = times(12.0, 250.0)
    held = np.where(at_s < 2, 0.9, 0.0)
    swing = np.where(
        (at_s >= 2) & (at_s < 9), swings(at_s - 2, [Swing(5.04, 0.008, 1.0, 0.0), Swing(31.6, 0.01, 0.3)]), 0
    )
    found = read_oscillation(other(held + swing + 0.005 * noise(at_s.size, 6)))
    assert 2 < found.start_s < 3
    assert found.start_s + found.length_s < 9.1
    assert found.frequency_hz == pytest.approx(5.04, abs=3 * found.frequency_sd_hz)
