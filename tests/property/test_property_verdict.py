"""Laws that every verdict keeps, whatever the numbers."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from clubwright.belief.instruments import Instrument
from clubwright.conformity.decision import lower_limit, upper_limit, verdict
from clubwright.conformity.rules import RULES
from clubwright.conformity.settling import settle

values = st.floats(-2000, 2000)
sizes = st.floats(0, 50)
shares = st.floats(0, 1)
rules = st.sampled_from(sorted(RULES))
RANK = {"outside": 0, "cannot tell": 1, "within": 2}


@given(values, values, sizes, sizes, shares, rules)
def test_a_tighter_tolerance_never_helps(
    measured: float, target: float, half: float, u: float, share: float, rule: str
) -> None:
    tighter = verdict(measured, target, half * share, u, rule)
    assert RANK[tighter.verdict] <= RANK[verdict(measured, target, half, u, rule).verdict]


@given(values, values, sizes, sizes, shares, rules)
def test_a_better_gauge_never_overturns_what_was_decided(
    measured: float, target: float, half: float, u: float, share: float, rule: str
) -> None:
    before = verdict(measured, target, half, u, rule).verdict
    after = verdict(measured, target, half, u * share, rule).verdict
    assert before in ("cannot tell", after)


@given(values, values, sizes, sizes, rules)
def test_both_sides_of_the_target_are_judged_alike(
    measured: float, target: float, half: float, u: float, rule: str
) -> None:
    found, mirrored = verdict(measured, target, half, u, rule), verdict(-measured, -target, half, u, rule)
    assert (found.verdict, found.margin) == (mirrored.verdict, mirrored.margin)
    above, below = verdict(measured, 0.0, half, u, rule), verdict(-measured, 0.0, half, u, rule)
    assert above.verdict == below.verdict


@given(values, values, sizes, rules)
def test_an_upper_limit_is_a_lower_limit_in_the_mirror(measured: float, limit: float, u: float, rule: str) -> None:
    assert upper_limit(measured, limit, u, rule).verdict == lower_limit(-measured, -limit, u, rule).verdict


@given(values, values, sizes, sizes)
def test_the_simple_rule_always_decides_and_the_stricter_rule_never_contradicts(
    measured: float, target: float, half: float, u: float
) -> None:
    simple = verdict(measured, target, half, u, "simple").verdict
    middle = verdict(measured, target, half, u, "guard 95 %").verdict
    strict = verdict(measured, target, half, u, "guard 2u").verdict
    assert simple != "cannot tell"
    assert middle in ("cannot tell", simple)
    assert strict in ("cannot tell", middle)


@given(values, values, st.floats(1e-3, 50), st.floats(1e-3, 50), rules)
def test_a_verdict_never_says_within_where_the_gauge_cannot_prove(
    measured: float, target: float, half: float, u: float, rule: str
) -> None:
    found = verdict(measured, target, half, u, rule)
    if not found.can_prove:
        assert found.verdict != "within"
        assert ("cannot prove" in found.settle) == (found.verdict == "cannot tell")


@given(st.floats(-1, 1), st.floats(0.1, 0.9), st.floats(0.01, 0.5), st.floats(0, 0.2), st.floats(0, 0.2))
def test_the_repeats_that_are_asked_for_do_decide(
    measured: float, half: float, repeatability: float, resolution: float, bias: float
) -> None:
    gauge = Instrument(name="gauge", resolution=resolution, repeatability=repeatability, bias=bias)
    found = verdict(measured, 0.0, half, gauge.uncertainty(), "guard 2u")
    repeats = settle(found, gauge).repeats
    if repeats is not None and repeats < 1_000_000:
        u = gauge.uncertainty(repeats) * (1 - 1e-6)
        assert verdict(measured, 0.0, half, u, "guard 2u").verdict != "cannot tell"
