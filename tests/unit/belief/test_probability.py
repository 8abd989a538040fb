"""The chance of a box: faces at infinity, quantities without spread, and what must hold of any chance."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.special import ndtr

from clubwright.belief.probability import box_probability


def chance(mean: list[float], covariance: list[list[float]], low: list[float], high: list[float]) -> float:
    return float(box_probability(np.array([mean]), np.array([covariance]), np.array(low), np.array(high))[0])


@pytest.mark.parametrize("dimensions", [1, 2, 3, 4, 5])
def test_no_faces_at_all_is_certain(dimensions: int) -> None:
    covariance = np.full((dimensions, dimensions), 0.3) + 0.7 * np.eye(dimensions)
    wide = [np.inf] * dimensions
    assert chance([0.0] * dimensions, covariance.tolist(), [-np.inf] * dimensions, wide) == pytest.approx(1.0)


def test_one_face_at_infinity_leaves_the_other_quantity() -> None:
    found = chance([0.0, 5.0], [[1.0, 0.4], [0.4, 2.0]], [-1.0, -np.inf], [1.0, np.inf])
    assert found == pytest.approx(ndtr(1) - ndtr(-1), abs=1e-6)


def test_only_a_lower_face() -> None:
    assert chance([0.0], [[4.0]], [1.0], [np.inf]) == pytest.approx(1 - ndtr(0.5))


@pytest.mark.parametrize(("value", "expected"), [(0.5, 1.0), (1.5, 0.0)])
def test_a_quantity_without_spread_is_inside_or_not(value: float, expected: float) -> None:
    inside = ndtr(1) - ndtr(-1)
    found = chance([0.0, value], [[1.0, 0.0], [0.0, 0.0]], [-1.0, 0.0], [1.0, 1.0])
    assert found == pytest.approx(expected * inside, abs=1e-6)


@pytest.mark.parametrize(
    ("low", "high"), [((-1.0, -0.3), (0.3, 1.0)), ((-2.0, -0.1), (0.2, 0.1)), ((0.2, -1.0), (1.0, 0.7))]
)
def test_two_names_for_one_quantity(low: tuple[float, float], high: tuple[float, float]) -> None:
    """Entirely correlated, the box is the overlap of the two windows."""
    found = chance([0.0, 0.0], [[1.0, 1.0], [1.0, 1.0]], list(low), list(high))
    assert found == pytest.approx(ndtr(min(high)) - ndtr(max(low)), abs=3e-3)


def test_many_candidates_are_as_one_by_one() -> None:
    generator = np.random.default_rng(5)
    mean = generator.normal(size=(6, 3))
    factor = generator.normal(size=(6, 3, 3))
    covariance = factor @ factor.swapaxes(1, 2)
    low, high = np.full(3, -1.0), np.array([0.5, 1.0, 2.0])
    together = box_probability(mean, covariance, low, high)
    alone = [box_probability(mean[[c]], covariance[[c]], low, high)[0] for c in range(6)]
    assert together == pytest.approx(alone, abs=1e-12)


def test_units_do_not_matter() -> None:
    """Kilograms beside points: scaling one quantity with its window leaves the chance."""
    covariance = np.array([[1.0, 0.5], [0.5, 1.0]])
    plain = chance([0.2, 0.1], covariance.tolist(), [-1.0, -0.5], [1.0, 0.8])
    scale = np.array([1.0, 1e-5])
    scaled = chance([0.2, 0.1e-5], (covariance * np.outer(scale, scale)).tolist(), [-1.0, -0.5e-5], [1.0, 0.8e-5])
    assert scaled == pytest.approx(plain, abs=1e-9)
