"""Frequencies from records with known truth, beside the Cramer-Rao bound and a general-purpose fit."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from math import pi, sqrt

import numpy as np
import pytest
from scipy.optimize import curve_fit

from clubwright.club.oscillation import Oscillation, read_oscillation
from clubwright.club.trace.bounds import cramer_rao_frequency_hz
from clubwright.club.trace.decay_fit import fit_decay
from clubwright.club.trace.record import Trace
from records import Swing, noise, recorded, swings, times

Published = Callable[..., None]
CPM = 60.0
RIFE = "closed form for a lasting tone, 24 n2/(A2 dt2 N(N2-1)): Rife and Boorstyn 1974, from memory"
BY_HAND = "worked out from the Fisher information of the four parameters, with numerical derivatives"
TRUTH = "synthetic record, truth known"


def test_the_bound_of_a_lasting_tone(published: Published):
    amplitude, sd, interval, count = 0.8, 0.05, 1 / 250, 3000
    theirs = sqrt(24 * sd**2 / (amplitude**2 * interval**2 * count * (count**2 - 1))) / (2 * pi)
    ours = cramer_rao_frequency_hz(amplitude, 0.0, sd, interval, count)
    published(
        quantity="Cramer-Rao bound, lasting tone of 12 s",
        source=RIFE,
        theirs=theirs * 1e6,
        ours=ours * 1e6,
        tolerance=1e-6,
        unit="uHz",
        standing="memory",
    )


def test_the_bound_of_a_swing_that_dies_away_in_the_record(published: Published):
    amplitude, sd, interval, decay = 0.8, 0.05, 1 / 2000, 0.5
    theirs = sqrt(16 * decay**3 * sd**2 * interval / amplitude**2) / (2 * pi)
    ours = cramer_rao_frequency_hz(amplitude, decay, sd, interval, 120_000)
    published(
        quantity="Cramer-Rao bound, swing that dies away within the record",
        source="closed form 16 s3 n2 dt/A2, the sums as integrals from 0 to infinity",
        theirs=theirs * 1e6,
        ours=ours * 1e6,
        tolerance=0.001 * theirs * 1e6,
        unit="uHz",
        standing="derived",
    )


def test_the_bound_of_a_damped_swing_from_all_four_parameters(published: Published):
    at_s, sd = times(6.0, 250.0), 0.05

    def signal(omega: float, decay: float, amplitude: float, phase: float) -> np.ndarray:
        return amplitude * np.exp(-decay * at_s) * np.cos(omega * at_s + phase)

    centre, step = np.array([2 * pi * 5.04, 0.4, 1.0, 0.3]), 1e-6
    slopes = [(signal(*(centre + step * e)) - signal(*(centre - step * e))) / (2 * step) for e in np.eye(4)]
    slope = np.column_stack(slopes)
    theirs = sqrt(np.linalg.inv(slope.T @ slope / sd**2)[0, 0]) / (2 * pi)
    published(
        quantity="Cramer-Rao bound, damped swing of 30 cycles",
        source=BY_HAND,
        theirs=theirs * CPM,
        ours=cramer_rao_frequency_hz(1.0, 0.4, sd, 1 / 250, at_s.size) * CPM,
        tolerance=0.01 * theirs * CPM,
        unit="cpm",
        standing="derived",
    )


@cache
def _many(colour: float, sd: float) -> list[Oscillation]:
    swing = Swing(5.04, 0.02)
    return [
        read_oscillation(recorded(swing, length_s=6, rate_hz=125, sd=sd, seed=seed, colour=colour), clock_sd=0.0)
        for seed in range(100)
    ]


def test_the_spread_of_100_records_is_the_bound(published: Published):
    found = _many(0.0, 0.03)
    frequencies = np.array([item.frequency_hz for item in found])
    bound = cramer_rao_frequency_hz(1.0, Swing(5.04, 0.02).decay_per_s, 0.03, 1 / 125, 750)
    published(
        quantity="frequency, mean of 100 records in white noise",
        source=TRUTH,
        theirs=5.04 * CPM,
        ours=float(frequencies.mean()) * CPM,
        tolerance=4 * bound / sqrt(100) * CPM,
        unit="cpm",
        standing="made",
    )
    published(
        quantity="frequency, spread of 100 records over the Cramer-Rao bound (the filter costs 0.8 of 30 cycles)",
        source="Cramer-Rao bound of a damped sinusoid",
        theirs=1.0,
        ours=float(frequencies.std()) / bound,
        tolerance=0.2,
        standing="derived",
    )
    assert np.median([item.cramer_rao_sd_hz for item in found]) == pytest.approx(bound, rel=0.2)


@pytest.mark.parametrize(("colour", "sd"), [(0.0, 0.03), (0.9, 0.01)], ids=["white", "coloured"])
def test_the_stated_uncertainty_is_the_spread(published: Published, colour: float, sd: float):
    found = _many(colour, sd)
    off = np.array([(item.frequency_hz - 5.04) / item.frequency_sd_hz for item in found])
    published(
        quantity=f"frequency, errors of 100 records over the stated uncertainty, noise of colour {colour:g}",
        source=TRUTH + "; the root-mean-square of errors in standard deviations is 1",
        theirs=1.0,
        ours=float(np.sqrt(np.mean(off**2))),
        tolerance=0.2,
        standing="made",
    )
    assert not [item for item in found if item.second_frequency_hz is not None], "a plane that is not there"


@pytest.mark.parametrize("apart_hz", [0.10, 0.20, 0.45])
def test_two_planes_that_beat(published: Published, apart_hz: float):
    first, second = Swing(5.04, 0.006), Swing(5.04 + apart_hz, 0.007, 0.6, 1.1)
    found = read_oscillation(recorded(first, second, length_s=15), clock_sd=0.0)
    assert found.second_frequency_hz is not None
    assert found.second_frequency_sd_hz is not None
    for name, truth, ours, sd in (
        ("stronger", first.frequency_hz, found.frequency_hz, found.frequency_sd_hz),
        ("weaker", second.frequency_hz, found.second_frequency_hz, found.second_frequency_sd_hz),
    ):
        published(
            quantity=f"two planes {apart_hz * CPM:.0f} cpm apart, the {name} one",
            source=TRUTH,
            theirs=truth * CPM,
            ours=ours * CPM,
            tolerance=4 * sd * CPM,
            unit="cpm",
            standing="made",
        )
        assert sd * CPM < 0.05
    published(
        quantity=f"two planes {apart_hz * CPM:.0f} cpm apart, the beat's period",
        source=TRUTH,
        theirs=1 / apart_hz,
        ours=1 / (found.second_frequency_hz - found.frequency_hz),
        tolerance=0.005 / apart_hz,
        unit="s",
        standing="made",
    )
    assert found.second_share == pytest.approx(0.6, rel=0.03)


def test_a_general_purpose_fit_finds_the_same(published: Published):
    at_s = times(8.0, 60.0)
    values = (
        swings(at_s, [Swing(5.04, 0.008), Swing(5.3, 0.006, 0.5, 1.0)]) + 0.02 * noise(at_s.size, 3) + 0.4 + 0.01 * at_s
    )

    def model(t, w1, s1, a1, b1, w2, s2, a2, b2, c, d):
        one = np.exp(-s1 * t) * (a1 * np.cos(w1 * t) + b1 * np.sin(w1 * t))
        two = np.exp(-s2 * t) * (a2 * np.cos(w2 * t) + b2 * np.sin(w2 * t))
        return one + two + c + d * t

    start = [2 * pi * 5.04, 0.25, 1, 0, 2 * pi * 5.3, 0.2, 0.4, -0.3, 0.4, 0.0]
    theirs, covariance = curve_fit(
        model, at_s, values, p0=start, sigma=np.ones_like(at_s), absolute_sigma=True, xtol=1e-14
    )
    ours = fit_decay(values, 60.0, [[2 * pi * 5.0, 0.2, 2 * pi * 5.35, 0.2]])
    for place, name in ((0, "first"), (1, "second")):
        omega, decay = theirs[4 * place], theirs[4 * place + 1]
        source = "scipy.optimize.curve_fit, all ten parameters at once"
        for what, value, mine, tolerance in (
            ("frequency, Hz", omega / (2 * pi), ours.modes[place].frequency_hz, 1e-7),
            ("decay, 1/s", decay, ours.modes[place].decay_per_s, 1e-6),
            (
                "frequency, its deviation for unit noise, Hz",
                sqrt(covariance[4 * place, 4 * place]) / (2 * pi),
                ours.frequency_sd_hz(1.0)[place],
                2e-6,
            ),
        ):
            published(
                quantity=f"two damped cosines, the {name}: {what}",
                source=source,
                theirs=value,
                ours=mine,
                tolerance=tolerance,
                standing="library",
            )


STEEL = "record made of three modes, as of a measured steel cantilever (PujaChowdhury/Dataset-4, 759 x 50.66 x 5.14 mm)"


@pytest.mark.parametrize(
    ("frequency_hz", "band_hz"), [(6.62, None), (41.4, (20.0, 80.0)), (117.5, (80.0, 200.0))], ids=["1", "2", "3"]
)
def test_the_modes_of_a_steel_cantilever(
    published: Published, frequency_hz: float, band_hz: tuple[float, float] | None
):
    modes = [Swing(6.62, 0.004), Swing(41.4, 0.003, 0.4), Swing(117.5, 0.003, 0.2)]
    at_s = times(15.0, 2000.0)
    # Something between displacement and acceleration: each mode is its frequency times as strong.
    values = swings(
        at_s, [Swing(m.frequency_hz, m.damping_ratio, m.amplitude * (m.frequency_hz / 6.62)) for m in modes]
    )
    record = Trace(values=values + 0.01 * noise(at_s.size, 5), rate_hz=2000.0)
    found = read_oscillation(record, band_hz=band_hz, clock_sd=0.0)
    published(
        quantity=f"steel cantilever, mode at {frequency_hz} Hz out of a record with all three",
        source=STEEL,
        theirs=frequency_hz,
        ours=found.frequency_hz,
        tolerance=5e-5 * frequency_hz,
        unit="Hz",
        standing="made",
    )
    assert abs(found.frequency_hz - frequency_hz) < 4 * found.frequency_sd_hz
    assert found.second_frequency_hz is None
