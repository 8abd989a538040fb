"""The normal distribution function and its inverse, beside scipy and the standard library."""

from __future__ import annotations

from collections.abc import Callable
from statistics import NormalDist

import numpy as np
import pytest
from scipy.special import log_ndtr, ndtr, ndtri

from clubwright.belief.normal import chance_below, quantile

Published = Callable[..., None]

PLACES = np.concatenate([np.linspace(-9, 9, 3601), [0.46875 * 2**0.5, 4 * 2**0.5, -4 * 2**0.5, 0.0, np.inf, -np.inf]])
CHANCES = np.concatenate([np.linspace(0.0005, 0.9995, 1999), 0.5 + 0.425 * np.array([-1.0, 1.0]), [0.0, 1.0]])


def test_the_distribution_function(published: Published) -> None:
    for z in (-4.2, -1.0, 0.3, 2.5, 6.0):
        given = {"quantity": f"chance below {z:g} sd", "theirs": float(ndtr(z)), "standing": "library"}
        source = "scipy.special.ndtr"
        published(source=source, ours=float(chance_below(np.array([z]))[0]), tolerance=1e-14 * float(ndtr(z)), **given)
        assert chance_below(z) == pytest.approx(ndtr(z), rel=1e-14)


def test_the_distribution_function_all_along() -> None:
    np.testing.assert_allclose(chance_below(PLACES), ndtr(PLACES), rtol=2e-14, atol=0)
    np.testing.assert_allclose(
        chance_below(PLACES[1:].reshape(2, -1)), ndtr(PLACES[1:]).reshape(2, -1), rtol=2e-14, atol=0
    )


def test_the_far_tail_keeps_its_digits() -> None:
    far = -np.linspace(9, 37, 2801)
    # the logarithm is another algorithm of the library: it would not share a fault of the first
    np.testing.assert_allclose(np.log(chance_below(far)), log_ndtr(far), rtol=1e-14, atol=0)
    np.testing.assert_allclose(chance_below(far), ndtr(far), rtol=2e-13, atol=0)


def test_many_at_once_are_worked_as_few() -> None:
    many = np.random.default_rng(1).normal(size=(3, 9001))
    np.testing.assert_array_equal(chance_below(many), np.stack([chance_below(row) for row in many]))
    assert chance_below(np.zeros((0, 3))).shape == (0, 3)


def test_the_quantile(published: Published) -> None:
    for p in (1e-9, 0.05, 0.95, 0.99999):
        theirs = NormalDist().inv_cdf(p)
        where = f"{p:g} of a normal quantity lie below"
        published(
            quantity=where, source="statistics.NormalDist", theirs=theirs, ours=quantile(p), tolerance=1e-14, unit="sd",
            standing="library",
        )  # fmt: skip
        assert quantile(p) == pytest.approx(ndtri(p), rel=1e-14)


def test_the_quantile_all_along() -> None:
    np.testing.assert_allclose(quantile(CHANCES), ndtri(CHANCES), rtol=2e-14, atol=1e-16)
    tails = 10.0 ** -np.arange(4, 300)
    np.testing.assert_allclose(quantile(tails), ndtri(tails), rtol=1e-14, atol=0)
    np.testing.assert_allclose(chance_below(quantile(tails)), tails, rtol=1e-11, atol=0)


def test_what_is_no_number_stays_none() -> None:
    assert np.isnan(chance_below(np.array([np.nan, 0.0]))).tolist() == [True, False]
    assert np.isnan(quantile(np.array([np.nan, -0.1, 1.1, 0.5]))).tolist() == [True, True, True, False]
