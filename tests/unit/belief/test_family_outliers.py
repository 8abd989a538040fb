"""A part that is none of its family is named and left out: the next part is foretold as if it had never been measured."""

from __future__ import annotations

import numpy as np
import pytest

from clubwright.belief.family import STIFFNESS_FACTOR, PastPart, forecast_next, outliers_of


def parts(*values: float, sd: float = 0.005) -> list[PastPart]:
    return [PastPart(name=f"T-{place}", value=value, sd=sd) for place, value in enumerate(values)]


def test_the_one_far_off_is_named_and_the_forecast_is_that_of_the_others():
    sound, all_of = parts(1.02, 1.03, 1.025, 1.015), parts(1.02, 1.03, 1.025, 1.015, 1.17)
    (far,) = outliers_of(all_of, STIFFNESS_FACTOR)
    assert far.value == 1.17
    with_it, without = (forecast_next(each, STIFFNESS_FACTOR) for each in (all_of, sound))
    assert with_it.mean - without.mean > 0.015, "it drew the next one to itself"
    assert with_it.sd > 2.5 * without.sd


def test_two_far_off_are_both_found_of_six():
    found = outliers_of(parts(1.02, 1.03, 1.025, 1.015, 1.19, 0.84), STIFFNESS_FACTOR)
    assert {part.value for part in found} == {1.19, 0.84}


@pytest.mark.parametrize("values", [(), (1.0,), (1.0, 1.2), (1.0, 1.0, 1.2, 1.2)])
def test_where_nothing_tells_which_it_is_none_is_left_out(values: tuple[float, ...]):
    assert outliers_of(parts(*values), STIFFNESS_FACTOR) == ()


def test_honest_families_lose_next_to_none():
    """400 families of six drawn from the prior, read with scatter: at 3.29 standard deviations few are ever called out."""
    random = np.random.default_rng(7)
    lost = 0
    for _ in range(400):
        mean, spread = random.normal(1, STIFFNESS_FACTOR.sd), abs(random.normal(0, STIFFNESS_FACTOR.spread_scale))
        values = random.normal(mean, spread, 6) + random.normal(0, 0.005, 6)
        lost += len(outliers_of(parts(*values), STIFFNESS_FACTOR))
    assert lost <= 0.005 * 400 * 6
