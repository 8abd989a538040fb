"""Verdicts and what settles them, at and around every boundary."""

from __future__ import annotations

import math

import pytest

from clubwright.belief.instruments import Instrument
from clubwright.conformity.decision import lower_limit, upper_limit, verdict
from clubwright.conformity.rules import RULES, DecisionRule, decision_rule
from clubwright.conformity.settling import settle, settle_text
from clubwright.errors import InputError
from clubwright.ticket.fields import fields


@pytest.mark.parametrize(
    ("measured", "rule", "answer"),
    [
        (10.0, "guard 2u", "within"),
        (10.3, "guard 2u", "within"),
        (10.31, "guard 2u", "cannot tell"),
        (10.69, "guard 2u", "cannot tell"),
        (10.7, "guard 2u", "outside"),
        (9.7, "guard 2u", "within"),
        (9.31, "guard 2u", "cannot tell"),
        (9.3, "guard 2u", "outside"),
        (10.335, "guard 95 %", "within"),
        (10.336, "guard 95 %", "cannot tell"),
        (10.664, "guard 95 %", "cannot tell"),
        (10.665, "guard 95 %", "outside"),
        (10.5, "simple", "within"),
        (10.5000001, "simple", "outside"),
    ],
)
def test_the_guard_band_splits_the_line_in_three(measured: float, rule: str, answer: str) -> None:
    assert verdict(measured, 10.0, 0.5, 0.1, rule).verdict == answer


def test_a_reading_on_the_limit_is_within_whatever_unit_it_was_typed_in() -> None:
    inch_m = 0.0254
    limits = [k / 64 for k in range(64 * 33, 64 * 48)]
    answers = {verdict((x + 1 / 32) * inch_m, x * inch_m, inch_m / 32, 0.0, "simple").verdict for x in limits}
    assert answers == {"within"}


def test_one_sided_limits_take_the_right_side() -> None:
    assert upper_limit(47.9, 48.0, 0.02, "guard 2u").verdict == "within"
    assert upper_limit(47.97, 48.0, 0.02, "guard 2u").verdict == "cannot tell"
    assert upper_limit(48.05, 48.0, 0.02, "guard 2u").verdict == "outside"
    assert lower_limit(48.05, 48.0, 0.02, "guard 2u").verdict == "within"
    assert lower_limit(48.03, 48.0, 0.02, "guard 2u").verdict == "cannot tell"
    assert lower_limit(47.95, 48.0, 0.02, "guard 2u").verdict == "outside"


def test_the_rule_sentence_names_rule_and_numbers_in_the_notation_asked_for() -> None:
    found = verdict(10.4, 10.0, 0.5, 0.1, "guard 2u", render=lambda x: f"<{x:.2f} deg>")
    for part in ('"guard 2u"', "<10.40 deg>", "<0.10 deg>", "<0.20 deg>", "from <9.50 deg> to <10.50 deg>"):
        assert part in found.rule
    assert "<0.05 deg>" in found.settle
    assert "at most 46" in upper_limit(45.0, 46.0, 0.1, "simple").rule
    assert "at least 18" in lower_limit(45.0, 18.0, 0.1, "simple").rule


def test_a_gauge_of_a_quarter_degree_cannot_prove_a_quarter_degree() -> None:
    gauge_u = 0.25 / math.sqrt(3)
    for reading in (0.0, 0.2, 0.3, 0.9):
        found = verdict(reading, 0.0, 0.25, gauge_u, "guard 2u")
        assert found.verdict != "within"
        assert not found.can_prove
        if found.verdict == "outside":
            continue
        assert "cannot prove this tolerance" in found.settle
        assert "0.125" in found.settle
    assert settle(verdict(0.0, 0.0, 0.25, gauge_u, "guard 2u")).move is None


def test_a_gauge_that_just_proves_the_tolerance_is_told_apart_from_one_that_does_not() -> None:
    assert verdict(0.0, 0.0, 0.25, 0.125, "guard 2u").verdict == "within"
    assert verdict(0.0, 0.0, 0.25, 0.125, "guard 2u").can_prove
    assert not verdict(0.0, 0.0, 0.25, 0.1251, "guard 2u").can_prove


def gauge(repeatability: float, resolution: float = 0.0, bias: float = 0.0) -> Instrument:
    return Instrument(name="scale", resolution=resolution, repeatability=repeatability, bias=bias)


@pytest.mark.parametrize(("repeatability", "resolution"), [(0.10, 0.05), (0.05, 0.10), (0.02, 0.16)])
def test_the_number_of_repeats_is_the_smallest_that_decides(repeatability: float, resolution: float) -> None:
    scale = gauge(repeatability, resolution, 0.02)
    found = verdict(10.4, 10.0, 0.5, scale.uncertainty(), "guard 2u")
    repeats = settle(found, scale).repeats
    assert repeats is not None
    assert repeats > 1
    enough, too_few = scale.uncertainty(repeats), scale.uncertainty(repeats - 1)
    assert verdict(10.4, 10.0, 0.5, enough, "guard 2u").verdict == "within"
    assert verdict(10.4, 10.0, 0.5, too_few, "guard 2u").verdict == "cannot tell"
    text = settle_text(settle(found, scale))
    assert f"The mean of {repeats} readings decides" in text


def test_a_whole_number_of_repeats_is_not_rounded_up() -> None:
    found = verdict(10.4, 10.0, 0.5, 0.1, "guard 2u")
    assert settle(found, gauge(0.1)).repeats == 4


def test_when_the_bias_alone_is_too_large_another_gauge_is_named() -> None:
    found = verdict(10.4, 10.0, 0.5, gauge(0.05, 0.0, 0.08).uncertainty(), "guard 2u")
    settling = settle(found, gauge(0.05, bias=0.08))
    assert settling.repeats is None
    assert settling.floor_u == pytest.approx(0.08)
    text = settle_text(settling)
    assert "More readings do not help" in text
    assert "0.05 or less" in text
    assert "wider tolerance" in text


def test_too_many_repeats_name_a_gauge_instead() -> None:
    found = verdict(10.49, 10.0, 0.5, 0.1, "guard 2u")
    settling = settle(found, gauge(0.1))
    assert settling.repeats == 400
    assert "more than anyone takes" in settle_text(settling)


def test_on_the_limit_itself_no_gauge_decides_but_a_nudge_does() -> None:
    found = verdict(10.5, 10.0, 0.5, 0.1, "guard 2u")
    settling = settle(found, gauge(0.1))
    assert settling.repeats is None
    assert settling.needed_u == 0
    assert "no gauge decides" in settle_text(settling)
    assert settling.move == pytest.approx(0.2)
    assert verdict(10.5 - settling.move, 10.0, 0.5, 0.1, "guard 2u").verdict == "within"


@pytest.mark.parametrize("reading", [10.4, 10.6, 9.35])
def test_the_nudge_that_is_asked_for_is_just_enough(reading: float) -> None:
    move = settle(verdict(reading, 10.0, 0.5, 0.1, "guard 2u")).move
    assert move is not None
    inward = math.copysign(1.0, 10.0 - reading)
    assert verdict(reading + inward * move, 10.0, 0.5, 0.1, "guard 2u").verdict == "within"
    assert verdict(reading + inward * move * 0.99, 10.0, 0.5, 0.1, "guard 2u").verdict == "cannot tell"


def test_nothing_to_settle_when_the_reading_decides() -> None:
    assert verdict(10.0, 10.0, 0.5, 0.1, "guard 2u").settle == ""
    assert verdict(12.0, 10.0, 0.5, 0.1, "guard 2u").settle == ""


def test_bad_numbers_are_refused_all_at_once() -> None:
    with pytest.raises(InputError) as refused:
        verdict(math.nan, math.inf, -0.5, -0.1, "guard 2u")
    assert len(refused.value.findings) == 4
    with pytest.raises(InputError, match="standard uncertainty"):
        upper_limit(1.0, 2.0, math.nan, "simple")
    with pytest.raises(InputError, match="bias"):
        settle(verdict(0.0, 0.0, 1.0, 0.1, "simple"), gauge(0.1, bias=-1.0))


def test_an_unknown_rule_is_refused_and_there_is_none_that_widens_a_tolerance() -> None:
    with pytest.raises(InputError, match='"guard 2u"'):
        verdict(1.0, 1.0, 1.0, 0.1, "relaxed")
    assert all(rule.guard_factor >= 0 for rule in RULES.values())
    own = DecisionRule(name="own", guard_factor=3.0, meaning="m", source="s", standing="seen")
    assert decision_rule(own) is own


def test_every_rule_that_a_ticket_may_name_is_known_here() -> None:
    assert set(fields.RULES) == set(RULES)


def test_no_tolerance_is_called_unprovable_that_the_mean_of_some_readings_proves() -> None:
    open_one = verdict(10.0, 10.0, 0.5, 0.3, "guard 2u")
    assert not open_one.can_prove
    said = settle_text(settle(open_one, gauge(0.3)))
    assert "The mean of" in said and "cannot prove" not in said
    said = settle_text(settle(open_one, gauge(0.1, bias=0.3)))
    assert "cannot prove this tolerance" in said and "The mean of" not in said


def test_a_reading_that_is_plainly_outside_needs_no_other_gauge() -> None:
    outside = verdict(12.0, 10.0, 0.5, 0.3, "guard 2u")
    assert outside.verdict == "outside" and not outside.can_prove
    assert settle_text(settle(outside, gauge(0.1, bias=0.3))) == ""
