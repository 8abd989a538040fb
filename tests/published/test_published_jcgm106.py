"""Conformity: JCGM 106 and kin. Numbers are the sources'; where a number is ours, it was worked out apart from this code."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from scipy import stats

from clubwright.conformity.decision import Verdict, lower_limit, upper_limit, verdict
from clubwright.conformity.outcome import combined
from clubwright.conformity.risk import (
    conformance_probability,
    global_risks,
    guard_for_consumer_risk,
    measurement_capability,
    normal_risks,
    process_capability,
    specific_consumer_risk,
)
from clubwright.conformity.rules import RULES, DecisionRule
from clubwright.errors import InputError

Published = Callable[..., None]
SUNCAL = "as asserted in the tests of sandialabs/suncal"
RESISTOR = "JCGM 106:2012 9.5.4, wire-wound resistor"
BEARING = "JCGM 106:2012 ball bearing, as worked in a notebook of sandialabs/suncal (commit d44c2cc)"
BEARING_PRIOR = stats.gamma(4, scale=0.25)


@pytest.mark.parametrize(
    ("name", "mean", "u", "low", "high", "printed", "exact"),
    [
        ("Zener voltage, upper limit", -5.47, 0.05, -math.inf, -5.40, 0.92, 0.9192433407662273),
        ("burst pressure, lower limit", 509.7, 8.6, 490.0, math.inf, 0.99, 0.9890095473848222),
        ("kinematic viscosity, both limits", 13.6, 1.8, 12.5, 16.3, 0.66, 0.6626297864953079),
    ],
)
def test_conformance_probability(
    published: Published, name: str, mean: float, u: float, low: float, high: float, printed: float, exact: float
) -> None:
    ours = conformance_probability(mean, u, low, high)
    source = "JCGM 106:2012 clause 7 examples"
    published(quantity=name, source=source, theirs=printed, ours=ours, tolerance=5e-3, standing="memory")
    source = "the same inputs through the normal distribution, apart from this code"
    published(quantity=name, source=source, theirs=exact, ours=ours, tolerance=1e-12, standing="derived")
    other = float(stats.norm(mean, u).cdf(high) - stats.norm(mean, u).cdf(low))
    published(quantity=name, source="scipy.stats.norm", theirs=other, ours=ours, tolerance=1e-12, standing="library")
    assert specific_consumer_risk(mean, u, low, high) == pytest.approx(1 - ours, abs=1e-15)


def test_conformance_probability_far_in_the_tail_keeps_its_digits(published: Published) -> None:
    published(
        quantity="chance of lying 9 to 10 standard uncertainties above",
        source="scipy.stats.norm.sf",
        theirs=1.0,
        ours=conformance_probability(0.0, 1.0, 9.0, 10.0) / float(stats.norm.sf(9.0) - stats.norm.sf(10.0)),
        tolerance=1e-9,
        unit="of theirs",
        standing="library",
    )
    assert conformance_probability(1.0, 0.0, 0.0, 2.0) == 1.0
    assert conformance_probability(3.0, 0.0, 0.0, 2.0) == 0.0


def test_length_at_a_local_limit(published: Published) -> None:
    published(
        quantity="chance that a club read as 45.97 in (u = 0.02 in) is at most 46 in",
        source="Phi(1.5), table of the normal distribution",
        theirs=0.9331927987311419,
        ours=conformance_probability(45.97, 0.02, high=46.0),
        tolerance=1e-12,
        standing="derived",
    )


def test_resistor_before_any_reading(published: Published) -> None:
    published(
        quantity="resistor: chance of conformance, unmeasured",
        source=f"{RESISTOR}; inputs seen in a replication script, number worked out apart",
        theirs=0.9044,
        ours=conformance_probability(1500.0, 0.12, 1499.8, 1500.2),
        tolerance=5e-4,
        standing="derived",
    )


@pytest.mark.parametrize(
    ("name", "guard", "consumer", "producer"),
    [
        ("guard band 0.02 ohm", 0.02, 0.009878291521694497, 0.0690265104615649),
        ("simple acceptance", 0.0, 0.018942206716894224, 0.03720780017813553),
        ("relaxed by 0.02 ohm", -0.02, 0.03114455227307972, 0.017554168728097605),
    ],
)
def test_resistor_risks(published: Published, name: str, guard: float, consumer: float, producer: float) -> None:
    risks = normal_risks(1500.0, 0.12, 0.04, (1499.8, 1500.2), (1499.8 + guard, 1500.2 - guard))
    source = f"{RESISTOR}; double integral worked out apart"
    for what, theirs, ours in (("consumer", consumer, risks.consumer), ("producer", producer, risks.producer)):
        published(
            quantity=f"resistor, {name}: global {what} risk",
            source=source,
            theirs=theirs,
            ours=ours,
            tolerance=1e-9,
            standing="derived",
        )


def test_resistor_risks_as_printed(published: Published) -> None:
    risks = normal_risks(1500.0, 0.12, 0.04, (1499.8, 1500.2), (1499.82, 1500.18))
    for what, theirs, ours in (("consumer", 0.01, risks.consumer), ("producer", 0.07, risks.producer)):
        published(
            quantity=f"resistor: global {what} risk, as printed",
            source=RESISTOR,
            theirs=theirs,
            ours=ours,
            tolerance=5e-3,
            standing="memory",
        )


def test_resistor_capability(published: Published) -> None:
    published(
        quantity="resistor: measurement capability index",
        source="JCGM 106:2012, C_m = T / (4 u)",
        theirs=2.5,
        ours=measurement_capability(0.4, 0.04),
        tolerance=1e-12,
        standing="memory",
    )


def test_resistor_after_a_reading(published: Published) -> None:
    published(
        quantity="resistor read as 1500.18: chance of conformance of the posterior N(1500.162, 0.0379^2)",
        source="precision-weighted mean, worked out apart",
        theirs=0.841680350403502,
        ours=conformance_probability(1500.162, 0.03794733192202055, 1499.8, 1500.2),
        tolerance=1e-9,
        standing="derived",
    )


def test_bearing_uninspected_and_simply_accepted(published: Published) -> None:
    # A reading below zero of a run-out that cannot be negative is taken: no lower acceptance limit.
    risks = global_risks(BEARING_PRIOR, 0.25, (0.0, 2.0), (-math.inf, 2.0))
    published(
        quantity="bearing: nonconforming without inspection",
        source=BEARING,
        theirs=0.04238011199168401,
        ours=risks.nonconforming,
        tolerance=1e-9,
    )
    published(
        quantity="bearing: global consumer risk, simple acceptance",
        source=BEARING,
        theirs=0.008019111884303471,
        ours=risks.consumer,
        tolerance=1e-8,
    )
    published(
        quantity="bearing: global producer risk, readings below 0 taken",
        source="double integral worked out apart",
        theirs=0.0174,
        ours=risks.producer,
        tolerance=5e-5,
        standing="derived",
    )
    strict = global_risks(BEARING_PRIOR, 0.25, (0.0, 2.0), (0.0, 2.0))
    published(
        quantity="bearing: global producer risk, readings below 0 refused",
        source="double integral worked out apart",
        theirs=0.0313,
        ours=strict.producer,
        tolerance=5e-5,
        standing="derived",
    )
    assert strict.consumer == pytest.approx(risks.consumer, abs=1e-12)


def test_bearing_guard_band(published: Published) -> None:
    guard = guard_for_consumer_risk(BEARING_PRIOR, 0.25, (-math.inf, 2.0), 0.001)
    published(
        quantity="bearing: guard band for a consumer risk of 0.1 %",
        source=BEARING,
        theirs=0.3281712284559932,
        ours=guard,
        tolerance=1e-6,
        unit="um",
    )
    published(
        quantity="bearing: acceptance limit for a consumer risk of 0.1 %",
        source=BEARING,
        theirs=1.6718287715440068,
        ours=2.0 - guard,
        tolerance=1e-6,
        unit="um",
    )


RP19 = {
    60: (4.83860326, 8.26008199),
    70: (3.92234109, 5.72322042),
    80: (2.85583037, 3.63227145),
    90: (1.59995312, 1.7988043),
    95: (0.87100925, 0.92389664),
    99: (0.19991684, 0.20243866),
}


@pytest.mark.parametrize(("low", "high"), [(-1.0, 1.0), (0.1, 0.7), (1499.8, 1500.2)])
def test_a_two_sided_guard_band_carries_the_risk_it_was_made_for(low: float, high: float) -> None:
    prior, u = stats.norm((low + high) / 2, (high - low) / 3), (high - low) / 10
    for wanted in (0.02, 0.001, 1e-6):
        guard = guard_for_consumer_risk(prior, u, (low, high), wanted)
        risks = global_risks(prior, u, (low, high), (low + guard, high - guard))
        assert risks.consumer == pytest.approx(wanted, rel=1e-6)


@pytest.mark.parametrize("percent", RP19)
def test_false_accept_table(published: Published, percent: int) -> None:
    sd = 1 / float(stats.norm.ppf((1 + percent / 100) / 2))
    risks = normal_risks(0.0, sd, sd / 4, (-1.0, 1.0), (-1.0, 1.0))
    source = f"draft RP-19 tables, {SUNCAL}"
    unconditional, conditional = RP19[percent]
    name = f"{percent} % in tolerance, process 4 times the gauge"
    published(
        quantity=f"{name}: false accepts",
        source=source,
        theirs=unconditional,
        ours=100 * risks.consumer,
        tolerance=1e-6,
        unit="%",
    )
    published(
        quantity=f"{name}: false accepts among the accepted",
        source=source,
        theirs=conditional,
        ours=100 * risks.conditional_false_accept,
        tolerance=1e-6,
        unit="%",
    )
    assert risks.accepted + risks.producer + (risks.nonconforming - risks.consumer) == pytest.approx(1, abs=1e-12)


@pytest.mark.parametrize(
    ("limit_sd", "ratio", "factor", "false_accept", "false_reject"),
    [
        (2.0, 4.0, 1.0, (0.008, 1e-4), (0.015, 5e-4)),
        (2.5, 4.0, 1.0, (0.0025, 1e-4), None),
        (2.5, 1.0, 1.0, (0.005, 1e-3), None),
        (2.0, 2.0, 0.91, (0.008, 5e-4), (0.066, 1e-3)),
    ],
)
def test_calibration_interval_paper(
    published: Published,
    limit_sd: float,
    ratio: float,
    factor: float,
    false_accept: tuple[float, float],
    false_reject: tuple[float, float] | None,
) -> None:
    edge = limit_sd * factor
    risks = normal_risks(0.0, 1.0, 1 / ratio, (-limit_sd, limit_sd), (-edge, edge))
    source = f"D. Deaver, How to maintain confidence..., {SUNCAL}"
    name = f"limits {limit_sd:g} sd, process/gauge {ratio:g}, acceptance {factor:g}"
    theirs, tolerance = false_accept
    published(quantity=f"{name}: false accepts", source=source, theirs=theirs, ours=risks.consumer, tolerance=tolerance)
    if false_reject is not None:
        theirs, tolerance = false_reject
        published(
            quantity=f"{name}: false rejects", source=source, theirs=theirs, ours=risks.producer, tolerance=tolerance
        )


def _risk_at_the_acceptance_limit(rule: str) -> float:
    """Chance of being outside one upper limit, for the worst reading that the rule still calls within."""
    inside, outside = 0.0, 10.0
    for _ in range(60):
        middle = (inside + outside) / 2
        if upper_limit(middle, 10.0, 0.5, rule).verdict == "within":
            inside = middle
        else:
            outside = middle
    return specific_consumer_risk(inside, 0.5, high=10.0)


def test_worst_risk_of_each_rule(published: Published) -> None:
    guide = "ILAC-G8:09/2019 table 1, quoted by two laboratories"
    worst = _risk_at_the_acceptance_limit("guard 2u")
    published(
        quantity='risk at the acceptance limit, rule "guard 2u"',
        source=f"{guide}; value at k = 2 from the normal distribution",
        theirs=0.022750131948179195,
        ours=worst,
        tolerance=1e-10,
    )
    assert worst < 0.025
    published(
        quantity='risk at the acceptance limit, rule "simple"',
        source=guide,
        theirs=0.5,
        ours=_risk_at_the_acceptance_limit("simple"),
        tolerance=1e-10,
    )
    published(
        quantity='chance of conformance at the acceptance limit, rule "guard 95 %"',
        source="ISO 14253-1:2017 default",
        theirs=0.95,
        ours=1 - _risk_at_the_acceptance_limit("guard 95 %"),
        tolerance=1e-10,
        standing="memory",
    )
    published(
        quantity='guard band of "guard 95 %" over u',
        source="one-sided 95 % quantile of the normal distribution (ISO 14253-1:2017)",
        theirs=1.6448536269514722,
        ours=RULES["guard 95 %"].guard_factor,
        tolerance=1e-12,
        standing="memory",
    )


@pytest.mark.parametrize(("mean", "capability", "outside"), [(10.0, 0.8333333, 0.01242), (10.5, 0.416667, 0.10574)])
def test_process_capability(published: Published, mean: float, capability: float, outside: float) -> None:
    published(
        quantity=f"C_pk of N({mean:g}, 0.4^2) within 9 to 11",
        source=SUNCAL,
        theirs=capability,
        ours=process_capability(mean, 0.4, 9.0, 11.0),
        tolerance=1e-3 * capability,
    )
    published(
        quantity=f"nonconforming share of N({mean:g}, 0.4^2) within 9 to 11",
        source=SUNCAL,
        theirs=outside,
        ours=1 - conformance_probability(mean, 0.4, 9.0, 11.0),
        tolerance=0.01 * outside,
    )


FIELD = DecisionRule(
    name="field sheet",
    guard_factor=1.0,
    meaning="the reading must clear the limit by the guard band of the sheet",
    source="USGA Supplement B, Groove Measurement Data Sheet (before 2010)",
    standing="seen",
)
FIELD_WORDS = {"within": "accept", "cannot tell": "undecided", "outside": "reject"}


def _threshold(judge: Callable[[float], Verdict], wanted: str, start: float, end: float) -> float:
    """Where, on the way from start to end, the answer stops being the one wanted."""
    assert judge(start).verdict == wanted
    assert judge(end).verdict != wanted
    for _ in range(60):
        middle = (start + end) / 2
        if judge(middle).verdict == wanted:
            start = middle
        else:
            end = middle
    return start


def test_three_zone_field_rule_on_groove_width(published: Published) -> None:
    span_in, guard_in = 0.528, 0.002

    def judge(width_in: float) -> Verdict:
        return upper_limit(width_in, span_in / 16, guard_in, FIELD)

    answers = [judge(width_in).verdict for width_in in (0.030, 0.032, 0.034, 0.0355)]
    assert [FIELD_WORDS[a] for a in answers] == ["accept", "undecided", "undecided", "reject"]
    assert combined(answers[:3]) == "cannot tell"
    assert combined(answers) == "outside"
    for what, wanted, start, end, theirs in (
        ("accept up to", "within", 0.02, 0.034, 0.031),
        ("reject from", "outside", 0.04, 0.034, 0.035),
    ):
        published(
            quantity=f"three-zone groove width rule, {what}",
            source=FIELD.source,
            theirs=theirs,
            ours=_threshold(judge, wanted, start, end),
            tolerance=1e-12,
            unit="in",
        )


def test_three_zone_field_rule_on_land_width(published: Published) -> None:
    def judge(land_in: float) -> Verdict:
        return lower_limit(land_in, 0.075, 0.002, FIELD)

    answers = [FIELD_WORDS[judge(land_in).verdict] for land_in in (0.0725, 0.075, 0.0775)]
    assert answers == ["reject", "undecided", "accept"]
    for what, wanted, start, end, theirs in (
        ("reject up to", "outside", 0.06, 0.075, 0.073),
        ("accept from", "within", 0.09, 0.075, 0.077),
    ):
        published(
            quantity=f"three-zone land width rule, {what}",
            source=f"{FIELD.source}, line 9",
            theirs=theirs,
            ours=_threshold(judge, wanted, start, end),
            tolerance=1e-12,
            unit="in",
        )


def test_bad_risks_and_limits_say_what_to_mend() -> None:
    with pytest.raises(InputError, match="wanted consumer risk"):
        guard_for_consumer_risk(stats.norm(5.0, 1.0), 2.0, (-1.0, math.inf), 0.0)
    assert guard_for_consumer_risk(stats.norm(0.0, 0.1), 0.1, (-1.0, 1.0), 0.01) == 0.0
    with pytest.raises(InputError, match="lower limit first"):
        conformance_probability(0.0, 1.0, 2.0, 1.0)
    with pytest.raises(InputError, match="standard uncertainty"):
        normal_risks(0.0, 1.0, 0.0, (-1.0, 1.0), (-1.0, 1.0))


def test_verdict_and_chance_agree_for_two_sided_limits() -> None:
    found = verdict(10.3, 10.0, 0.5, 0.1, "guard 95 %")
    assert found.verdict == "within"
    assert conformance_probability(10.3, 0.1, found.low, found.high) >= 0.95
