"""Learning by family: how the forecast moves, and every number that cannot be one said at once."""

from __future__ import annotations

from math import inf, nan

import pytest

from clubwright.belief.family import STIFFNESS_FACTOR, FamilyPrior, PastPart, forecast_next
from clubwright.errors import InputError


def part(name: str, value: float, sd: float = 0.01) -> PastPart:
    return PastPart(name=name, value=value, sd=sd)


def test_more_parts_make_the_next_one_surer() -> None:
    values = (1.04, 1.05, 1.045, 1.055, 1.05, 1.048, 1.052, 1.047)
    sds = [
        forecast_next([part(str(i), v) for i, v in enumerate(values[:n])], STIFFNESS_FACTOR).sd for n in (0, 1, 3, 8)
    ]
    assert sds == sorted(sds, reverse=True)
    assert sds[-1] < sds[0] / 3


def test_parts_that_differ_leave_the_next_one_as_open_as_they_differ() -> None:
    alike = forecast_next([part("a", 1.0), part("b", 1.001), part("c", 0.999)], STIFFNESS_FACTOR)
    apart = forecast_next([part("a", 1.0), part("b", 1.08), part("c", 0.92)], STIFFNESS_FACTOR)
    assert apart.spread > 3 * alike.spread
    assert apart.sd > 0.05


def test_the_order_of_parts_does_not_matter() -> None:
    parts = [part("a", 1.02), part("b", 0.97, 0.02), part("c", 1.05, 0.005)]
    one, other = forecast_next(parts, STIFFNESS_FACTOR), forecast_next(parts[::-1], STIFFNESS_FACTOR)
    assert one.mean == pytest.approx(other.mean, rel=1e-12)
    assert one.sd == pytest.approx(other.sd, rel=1e-12)


def test_the_unit_does_not_matter() -> None:
    grams = forecast_next(
        [part("a", 49.0, 0.1), part("b", 50.5, 0.1)], FamilyPrior(mean=50.0, sd=1.0, spread_scale=1.0)
    )
    kilograms = forecast_next(
        [part("a", 0.049, 1e-4), part("b", 0.0505, 1e-4)], FamilyPrior(mean=0.05, sd=1e-3, spread_scale=1e-3)
    )
    assert (grams.mean, grams.sd) == pytest.approx((1e3 * kilograms.mean, 1e3 * kilograms.sd), rel=1e-9)


def test_every_number_that_cannot_be_one_is_said_at_once() -> None:
    with pytest.raises(InputError) as refused:
        forecast_next(
            [part("a", nan), part("b", 1.0, 0.0), part("c", 1.0), part("c", 1.1)],
            FamilyPrior(mean=1.0, sd=-1.0, spread_scale=0.03),
        )
    assert [item.where for item in refused.value.findings] == ["a", "b", "c", "family"]


def test_nothing_known_and_nothing_measured_is_refused() -> None:
    with pytest.raises(InputError, match="give a prior"):
        forecast_next([], FamilyPrior(mean=1.0, sd=inf, spread_scale=0.03))
