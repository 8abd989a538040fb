"""Conformity: JCGM 106 and kin. Numbers are the sources'; where a number is ours, it was worked out apart from this code."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from scipy import stats

from clubwright.conformity.decision import Verdict, lower_limit, upper_limit, verdict
from clubwright.conformity.risk import conformance_probability, specific_consumer_risk
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


def test_resistor_after_a_reading(published: Published) -> None:
    published(
        quantity="resistor read as 1500.18: chance of conformance of the posterior N(1500.162, 0.0379^2)",
        source="precision-weighted mean, worked out apart",
        theirs=0.841680350403502,
        ours=conformance_probability(1500.162, 0.03794733192202055, 1499.8, 1500.2),
        tolerance=1e-9,
        standing="derived",
    )


RP19 = {
    60: (4.83860326, 8.26008199),
    70: (3.92234109, 5.72322042),
    80: (2.85583037, 3.63227145),
    90: (1.59995312, 1.7988043),
    95: (0.87100925, 0.92389664),
    99: (0.19991684, 0.20243866),
}


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
        source="scipy.stats.norm.sf at k = 2; ILAC-G8:09/2019 table 1, quoted by two laboratories, says below 2.5 %",
        theirs=float(stats.norm.sf(2.0)),
        ours=worst,
        tolerance=1e-10,
        standing="library",
    )
    assert worst < 0.025
    published(
        quantity='risk at the acceptance limit, rule "simple"',
        source=guide,
        theirs=0.5,
        ours=_risk_at_the_acceptance_limit("simple"),
        tolerance=1e-10,
        standing="seen",
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


@pytest.mark.parametrize(("mean", "outside"), [(10.0, 0.01242), (10.5, 0.10574)])
def test_share_outside_of_a_normal_process(published: Published, mean: float, outside: float) -> None:
    published(
        quantity=f"nonconforming share of N({mean:g}, 0.4^2) within 9 to 11",
        source=SUNCAL,
        theirs=outside,
        ours=1 - conformance_probability(mean, 0.4, 9.0, 11.0),
        tolerance=0.01 * outside,
        standing="seen",
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
            standing="seen",
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
            standing="seen",
        )


def test_bad_risks_and_limits_say_what_to_mend() -> None:
    with pytest.raises(InputError, match="lower limit first"):
        conformance_probability(0.0, 1.0, 2.0, 1.0)


def test_verdict_and_chance_agree_for_two_sided_limits() -> None:
    found = verdict(10.3, 10.0, 0.5, 0.1, "guard 95 %")
    assert found.verdict == "within"
    assert conformance_probability(10.3, 0.1, found.low, found.high) >= 0.95
