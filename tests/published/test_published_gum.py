"""Uncertainty of readings: worked examples of JCGM 100:2008 (the GUM)."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
import uncertainties

from clubwright.belief.instruments import Instrument
from clubwright.conformity.decision import verdict
from clubwright.conformity.settling import settle
from clubwright.conformity.uncertainty import (
    combined_u,
    coverage_factor,
    effective_dof,
    rectangular_u,
    resolution_u,
    triangular_u,
    type_a,
)
from clubwright.errors import InputError

Published = Callable[..., None]
GTC = "JCGM 100:2008 H.1, via MSLNZ/GTC (commit 1c165fc)"

GAUGE_LENGTH_NM = 50_000_623.0
EXPANSION_PER_K = 1.15e-5
MEAN_OFFSET_K = -0.1
"""End gauge of H.1: standard, comparator (scatter, two of its own errors), expansion and temperature differences."""
END_GAUGE = {
    "l_s": (25.0, 18.0),
    "d_rep": (5.8, 24.0),
    "d_random": (3.9, 5.0),
    "d_system": (6.7, 8.0),
    "d_alpha": (GAUGE_LENGTH_NM * abs(MEAN_OFFSET_K) * rectangular_u(1e-6), 50.0),
    "d_theta": (GAUGE_LENGTH_NM * EXPANSION_PER_K * rectangular_u(0.05), 2.0),
}


def test_end_gauge_budget(published: Published) -> None:
    for key, theirs in (("d_theta", 16.599), ("d_alpha", 2.88679)):
        published(
            quantity=f"end gauge: contribution of {key}",
            source=GTC,
            theirs=theirs,
            ours=END_GAUGE[key][0],
            tolerance=1e-3,
            unit="nm",
        )


def test_end_gauge_length(published: Published) -> None:
    contributions = [u for u, _ in END_GAUGE.values()]
    dof = effective_dof(contributions, [v for _, v in END_GAUGE.values()])
    published(
        quantity="end gauge: combined standard uncertainty",
        source=GTC,
        theirs=32,
        ours=combined_u(contributions),
        tolerance=0.5,
        unit="nm",
    )
    published(
        quantity="end gauge: effective degrees of freedom (the guide cuts to a whole number)",
        source=GTC,
        theirs=16,
        ours=dof,
        tolerance=1.0,
    )


def test_end_gauge_expanded(published: Published) -> None:
    k = coverage_factor(0.99, 16)
    source = "JCGM 100:2008 H.1.6"
    published(quantity="end gauge: k for 99 %", source=source, theirs=2.92, ours=k, tolerance=5e-3, standing="memory")
    published(
        quantity="end gauge: expanded uncertainty for 99 %, from u rounded as in the guide",
        source=source,
        theirs=93,
        ours=k * round(combined_u([u for u, _ in END_GAUGE.values()])),
        tolerance=0.5,
        unit="nm",
        standing="memory",
    )


def test_comparator_difference(published: Published) -> None:
    contributions, dof = [5.8, 3.9, 6.7], [24.0, 5.0, 8.0]
    source = "JCGM 100:2008 H.1.3.2"
    published(
        quantity="comparator difference: standard uncertainty",
        source=f"{source}, as asserted in the tests of sandialabs/suncal",
        theirs=9.7,
        ours=combined_u(contributions),
        tolerance=0.05,
        unit="nm",
    )
    published(
        quantity="comparator difference: effective degrees of freedom",
        source=f"{source}, unrounded, as asserted in the tests of MSLNZ/GTC (commit 1c165fc)",
        theirs=25.4472507774,
        ours=effective_dof(contributions, dof),
        tolerance=1e-10,
    )


def test_one_component_known_well(published: Published) -> None:
    published(
        quantity="effective degrees of freedom, one component with infinitely many",
        source="a university course's example, as asserted in the tests of sandialabs/suncal",
        theirs=12.8,
        ours=effective_dof([0.57, 0.25], [9.0, math.inf]),
        tolerance=0.05,
    )


def test_product_of_three(published: Published) -> None:
    u, dof = [0.25, 0.57, 0.82], [10.0 - 1, 5.0 - 1, 15.0 - 1]
    k = coverage_factor(0.95, math.floor(effective_dof(u, dof) + 0.5))
    for what, theirs, ours, tolerance, unit in (
        ("relative standard uncertainty", 1.03, combined_u(u), 5e-3, "%"),
        ("effective degrees of freedom", 19.0, effective_dof(u, dof), 0.05, ""),
        ("k for 95 %", 2.09, k, 5e-3, ""),
        ("relative expanded uncertainty", 2.2, k * combined_u(u), 0.05, "%"),
    ):
        published(
            quantity=f"product of three: {what}",
            source="JCGM 100:2008 G.4.1 example",
            theirs=theirs,
            ours=ours,
            tolerance=tolerance,
            unit=unit,
            standing="memory",
        )


def test_twenty_temperatures(published: Published) -> None:
    readings = [96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07]
    readings += [100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72]
    found = type_a(readings)
    for what, theirs, ours in (
        ("mean", 100.145, found.mean),
        ("standard deviation", 1.489, found.sd),
        ("standard uncertainty of the mean", 0.333, found.u),
    ):
        published(
            quantity=f"twenty temperatures: {what}",
            source="JCGM 100:2008 4.4.3 table 1",
            theirs=theirs,
            ours=ours,
            tolerance=5e-4,
            unit="degC",
            standing="memory",
        )
    assert found.dof == 19


def test_shapes_of_half_width_four(published: Published) -> None:
    for what, theirs, ours in (
        ("rectangular", 2.3094010767585034, rectangular_u(4.0)),
        ("triangular", 1.6329931618554523, triangular_u(4.0)),
        ("step of 8 on a scale", 2.3094010767585034, resolution_u(8.0)),
    ):
        published(
            quantity=f"standard uncertainty, {what}, half-width 4",
            source="a / sqrt 3 and a / sqrt 6 (JCGM 100:2008 4.3.7, 4.3.9, F.2.2.1)",
            theirs=theirs,
            ours=ours,
            tolerance=1e-12,
            standing="memory",
        )


def test_step_of_a_display(published: Published) -> None:
    published(
        quantity="standard uncertainty of a display of step 1",
        source="JCGM 100:2008 F.2.2.1, u = 0.29 x step",
        theirs=0.29,
        ours=resolution_u(1.0),
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
    with pytest.raises(InputError, match="at least two"):
        type_a([1.0])
    with pytest.raises(InputError, match="one for each"):
        effective_dof([1.0, 2.0], [3.0])
    with pytest.raises(InputError, match="not above 0"):
        effective_dof([1.0], [0.0])
    with pytest.raises(InputError, match="reading 2"):
        type_a([1.0, math.nan])
    assert effective_dof([1.0], [math.inf]) == math.inf
