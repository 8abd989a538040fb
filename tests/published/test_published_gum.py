"""Uncertainty of readings: worked examples of JCGM 100:2008 (the GUM)."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
import uncertainties

from clubwright.belief.instruments import Instrument
from clubwright.conformity.decision import verdict
from clubwright.conformity.settling import settle
from clubwright.errors import InputError

Published = Callable[..., None]


def test_step_of_a_display(published: Published) -> None:
    published(
        quantity="standard uncertainty of a display of step 1",
        source="JCGM 100:2008 F.2.2.1, u = 0.29 x step",
        theirs=0.29,
        ours=Instrument(name="display", resolution=1.0, repeatability=0.0).uncertainty(),
        tolerance=5e-3,
        standing="memory",
    )


@pytest.mark.parametrize(("repeatability", "how"), [(0.10, "scatter over the steps"), (0.0, "round alike")])
def test_mean_of_readings_that_share_their_bias(published: Published, repeatability: float, how: str) -> None:
    """The library carries the correlation: with two steps of scatter each rounds by itself, without scatter all alike."""
    step_u = 0.05 / math.sqrt(12)
    own, each = [0.0] * 5, [uncertainties.ufloat(0.0, step_u)] * 5
    if repeatability > 0:
        own = [uncertainties.ufloat(0.0, repeatability) for _ in range(5)]
        each = [uncertainties.ufloat(0.0, step_u) for _ in range(5)]
    bias = uncertainties.ufloat(0.0, 0.03)
    mean = sum(noise + rounding + bias for noise, rounding in zip(own, each, strict=True)) / 5
    published(
        quantity=f"mean of five readings of one gauge that {how}",
        source="package uncertainties, correlated propagation",
        theirs=mean.std_dev,
        ours=Instrument(name="gauge", resolution=0.05, repeatability=repeatability, bias=0.03).uncertainty(5),
        tolerance=1e-12,
        standing="library",
    )


def test_bad_input_says_where_and_how_to_mend() -> None:
    with pytest.raises(InputError) as refused:
        settle(
            verdict(10.0, 10.0, 0.5, 0.1, "simple"),
            Instrument(name="gauge", resolution=math.nan, repeatability=-0.1, bias=-1.0),
        )
    assert {finding.where for finding in refused.value.findings} == {"repeatability", "resolution", "bias"}
