"""Rounding that readings of an unchanged club share: against direct integration, and against readings drawn and rounded."""

from __future__ import annotations

from collections.abc import Callable
from math import pi, sqrt

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.stats import norm

from clubwright.belief.instruments import SHORT_SCATTER, Instrument, shared_rounding
from clubwright.belief.update import INNOVATION_LIMIT

Published = Callable[..., None]
STEP = 0.25
RATIOS = (0.02, 0.06, 0.1, 0.2, 0.35, 0.5)


def mean_error(truth: float, scatter: float) -> float:
    """Mean of what a scale with steps of 1 shows, less the truth: every step weighed with the chance that it is shown."""
    steps = np.arange(-6, 8)
    chances = norm.cdf((steps + 0.5 - truth) / scatter) - norm.cdf((steps - 0.5 - truth) / scatter)
    return float(steps @ chances) - truth


@pytest.mark.parametrize("ratio", RATIOS)
def test_shared_rounding_by_integration(published: Published, ratio: float) -> None:
    variance, _ = quad(lambda truth: mean_error(truth, ratio) ** 2, 0.0, 1.0, points=[0.5], epsabs=1e-13, limit=400)
    published(
        quantity=f"rounding that readings share, scatter {ratio} step",
        source="mean over all truths of the squared mean error, scipy.integrate.quad and scipy.stats.norm",
        theirs=sqrt(variance) * STEP,
        ours=sqrt(shared_rounding(ratio * STEP, STEP)),
        tolerance=1e-7,
        unit="pt",
        standing="library",
    )


def test_without_scatter_all_of_the_rounding_is_shared(published: Published) -> None:
    published(
        quantity="rounding that readings share, no scatter, step 0.25",
        source="JCGM 100:2008 F.2.2.1, step / sqrt 12",
        theirs=0.0721687836487,
        ours=sqrt(shared_rounding(0.0, STEP)),
        tolerance=1e-12,
        unit="pt",
        standing="memory",
    )
    assert shared_rounding(1.0, 0.0) == 0.0
    assert shared_rounding(2 * STEP, STEP) < 1e-30
    assert shared_rounding(1.0, 5e-324) == 0.0


def test_series_and_closed_form_meet() -> None:
    """Below `SHORT_SCATTER` the series would be long; there the closed form is as good as exact."""
    for ratio in (SHORT_SCATTER * (1 - 1e-12), SHORT_SCATTER / 2, SHORT_SCATTER / 10):
        order = np.arange(1.0, 40_000.0)
        series = float(np.sum(np.exp(-((2 * pi * order * ratio) ** 2)) / (2 * pi**2 * order**2)))
        assert shared_rounding(ratio, 1.0) == pytest.approx(series, abs=1e-11)


@pytest.mark.parametrize("ratio", [0.004, 0.1, 0.25, 0.6])
def test_two_readings_of_one_club_drawn(published: Published, ratio: float) -> None:
    """Clubs of every true value, each read twice: what both errors have in common, and what the mean of both is worth."""
    generator = np.random.default_rng(11)
    truth = generator.uniform(0, 1, size=1_000_000)
    seen = truth[:, None] + generator.normal(0, ratio * STEP, size=(truth.size, 2))
    errors = np.round(seen / STEP) * STEP - truth[:, None]
    gauge = Instrument(name="scale", resolution=STEP, repeatability=ratio * STEP)
    published(
        quantity=f"covariance of two readings of one club, step 0.25, scatter {ratio} step",
        source="a million clubs drawn, read twice and rounded, numpy",
        theirs=float(np.mean(errors[:, 0] * errors[:, 1])),
        ours=gauge.shared_variance,
        tolerance=3e-5,
        unit="pt2",
        standing="library",
    )
    published(
        quantity=f"noise of the mean of two, step 0.25, scatter {ratio} step",
        source="a million clubs drawn, read twice and rounded, numpy",
        theirs=float(np.std(errors.mean(axis=1))),
        ours=gauge.noise(2),
        tolerance=3e-4,
        unit="pt",
        standing="library",
    )


def test_a_reading_on_the_edge_of_a_step_jumps_more_often_than_a_normal_would() -> None:
    """Why a reading is judged with its whole rounding: a whole step between two readings is common, not one in 1000."""
    gauge = Instrument(name="scale", resolution=1.0, repeatability=0.05)
    generator = np.random.default_rng(3)
    truth = generator.uniform(0, 1, size=400_000)
    first, second = np.round(truth[:, None] + generator.normal(0, 0.05, size=(truth.size, 2))).T
    assert float(np.mean(first != second)) == pytest.approx(2 * 0.05 / sqrt(pi), abs=0.002)
    assert sqrt(2 * gauge.own_variance) * INNOVATION_LIMIT < 1.0  # judged by what is its own, such a reading is refused
    assert sqrt(2) * gauge.noise() * INNOVATION_LIMIT > 1.0
