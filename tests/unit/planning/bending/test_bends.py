"""The bend plan: order, words for either hand, limits by metal, what else moves, and refusals that help."""

from __future__ import annotations

from math import nan, radians

import pytest

from clubwright.club.length import length_change_from_lie_m, plane_length_change_from_lie_m
from clubwright.errors import InputError
from clubwright.planning.bending.head_choice import rank_heads
from clubwright.planning.bending.plan import plan_bends, pulls
from clubwright.planning.bending.request import Angles, BendRequest, BentSoFar
from clubwright.planning.bending.words import amount_words
from clubwright.planning.said.bends import bend_amount, push
from clubwright.words.say import say

DEG = radians(1)


def angles(loft: float | None = None, lie: float | None = None, bounce: float | None = None) -> Angles:
    return Angles(
        loft_rad=None if loft is None else radians(loft),
        lie_rad=None if lie is None else radians(lie),
        bounce_rad=None if bounce is None else radians(bounce),
    )


def wedge(now: Angles, target: Angles, **given) -> BendRequest:
    given = {"kind": "wedge", "hand": "right", "metal": "forged carbon steel"} | given
    return BendRequest(now=now, target=target, **given)


BOTH = wedge(angles(56, 64, 10), angles(54.5, 63.5), bent_so_far=BentSoFar())


def test_loft_comes_first_then_lie_then_loft_again():
    plan = plan_bends(BOTH)
    assert [bend.angle for bend in plan.bends] == ["loft", "lie"]
    assert say(plan.steps[0], None).startswith("Bend the loft 1 1/2 deg strong (-1.50 deg) to 54.50 deg")
    assert say(plan.steps[1], None).startswith("Bend the lie 1/2 deg flat (-0.50 deg) to 63.50 deg")
    assert say(plan.steps[2], None).startswith("Measure the loft again: 54.50 deg")
    assert say(plan.steps[3], None).startswith("Measure the bounce: 8.50 deg")
    assert plan.findings == ()
    assert plan.total_rad == pytest.approx(2 * DEG)


def test_the_result_is_what_was_ordered():
    result = plan_bends(BOTH).result
    assert result.loft_rad == pytest.approx(radians(54.5))
    assert result.lie_rad == pytest.approx(radians(63.5))
    assert result.bounce_rad == pytest.approx(radians(8.5))


@pytest.mark.parametrize(
    ("angle", "degrees", "words"),
    [
        ("lie", -0.5, "1/2 deg flat (-0.50 deg)"),
        ("lie", 2, "2 deg upright (+2.00 deg)"),
        ("loft", -1.55, "1 1/2 deg strong (-1.55 deg)"),
        ("loft", 0.75, "3/4 deg weak (+0.75 deg)"),
        ("loft", -0.1, "under 1/4 deg strong (-0.10 deg)"),
    ],
)
def test_the_amount_in_words_with_the_sign_beside_it(angle, degrees: float, words: str):
    assert amount_words(angle, radians(degrees)) == say(bend_amount(angle, radians(degrees)), None) == words


@pytest.mark.parametrize(
    ("hand", "amount", "target", "side"),
    [
        ("right", -1, "away from the target", "right"),
        ("right", 1, "toward the target", "left"),
        ("left", -1, "away from the target", "left"),
        ("left", 1, "toward the target", "right"),
    ],
)
def test_a_loft_bend_is_pushed_the_other_way_for_the_other_hand(hand, amount: int, target: str, side: str):
    words = say(push("loft", amount * DEG, hand), None)
    assert f"grip end {target}" in words
    assert f"to the {side} " in words


def test_a_lie_bend_is_pushed_the_same_way_for_either_hand():
    for amount, whither in ((1, "away from the player"), (-1, "toward the player")):
        right, left = (say(push("lie", amount * DEG, hand), None) for hand in ("right", "left"))
        assert right == left
        assert f"grip end {whither}" in right


def test_pulls_are_of_a_degree_at_most():
    assert [round(pull / DEG, 9) for pull in pulls(radians(-2.5))] == [-1, -1, -0.5]
    assert [round(pull / DEG, 9) for pull in pulls(2 * DEG)] == [1, 1]
    assert pulls(0.25 * DEG) == (0.25 * DEG,)


def test_the_shaft_swings_less_than_the_loft_gains():
    bend = plan_bends(wedge(angles(56, 64), angles(57))).bends[0]
    assert 0.89 < bend.bar_rad / bend.amount_rad < 0.90


def test_a_bend_to_the_limit_itself_is_made_and_a_hair_beyond_is_not():
    assert not plan_bends(wedge(angles(56, 64), angles(54))).refused
    assert plan_bends(wedge(angles(56, 64), angles(53.99))).refused


def test_beyond_the_limit_the_whole_plan_is_refused_and_another_head_named():
    plan = plan_bends(wedge(angles(56, 64, 10), angles(52, 63.5)))
    assert plan.refused
    assert plan.bends == plan.steps == ()
    assert plan.result == angles(56, 64, 10)
    assert plan.axis_length_change_m == plan.plane_length_change_m == plan.cg_from_cap_change_m == 0
    [finding] = plan.findings
    assert "4 deg strong (-4.00 deg)" in finding.what
    assert "2.00 deg in all" in finding.what
    assert "nearer to 52.00 deg" in finding.mend
    assert "54.00 deg to 58.00 deg" in finding.mend


def test_bends_made_before_count_whatever_their_sign():
    used = BentSoFar(loft_rad=1.5 * DEG)
    plan = plan_bends(wedge(angles(56, 64), angles(57), bent_so_far=used))
    assert plan.refused
    assert "after 1 1/2 deg of earlier bends" in plan.findings[0].what
    assert "55.50 deg to 56.50 deg" in plan.findings[0].mend
    assert not plan_bends(wedge(angles(56, 64), angles(56.5), bent_so_far=used)).refused


def test_unrecorded_earlier_bends_are_said_to_count_as_none():
    [note] = plan_bends(wedge(angles(56, 64), angles(57))).findings
    assert note.severity == "note"
    assert "not recorded" in note.what


def test_an_expert_may_go_further_with_a_warning_and_no_further_than_that():
    plan = plan_bends(wedge(angles(56, 64), angles(53), expert=True))
    assert not plan.refused
    assert plan.findings[0].severity == "warning"
    assert plan_bends(wedge(angles(56, 64), angles(52.5), expert=True)).refused


@pytest.mark.parametrize("metal", [None, "stainless", "forged", "unobtainium"])
def test_a_metal_that_is_not_known_is_not_bent(metal: str | None):
    plan = plan_bends(wedge(angles(56, 64), angles(55), metal=metal))
    assert plan.refused
    [finding] = plan.findings
    assert str(finding.where) == "[head] metal"
    assert "cast 17-4 stainless" in finding.mend


def test_titanium_is_refused_with_the_head_to_look_for():
    [finding] = plan_bends(wedge(angles(56, 64), angles(55, 63), metal="titanium")).findings
    assert "titanium head is not bent" in finding.what
    assert "loft 55.00 deg and lie 63.00 deg" in finding.mend


def test_nothing_to_bend_asks_for_no_metal():
    plan = plan_bends(wedge(angles(56, 64, 10), angles(56.1, 64), metal=None))
    assert not plan.refused
    assert plan.bends == plan.steps == plan.findings == ()
    assert plan.result.loft_rad == pytest.approx(radians(56))


def test_a_bounce_that_the_loft_bend_misses_is_said():
    [finding] = plan_bends(wedge(angles(56, 64, 10), angles(55, None, 11), bent_so_far=BentSoFar())).findings
    assert str(finding.where) == "bounce"
    assert "ends at 9.00 deg and 11.00 deg is ordered" in finding.what
    assert "loft less its bounce is 44.00 deg" in finding.mend


def test_a_bounce_alone_bends_nothing_and_says_what_it_would_take():
    plan = plan_bends(wedge(angles(56, 64, 10), angles(None, None, 9)))
    assert plan.bends == ()
    assert "to 55.00 deg" in plan.findings[0].mend


def test_what_a_lie_bend_does_to_length_and_head():
    plan = plan_bends(wedge(angles(56, 64), angles(None, 62), cg_from_ground_m=-0.004, cg_off_axis_m=0.0381))
    assert plan.axis_length_change_m == float(length_change_from_lie_m(-2 * DEG, 64 * DEG))
    assert plan.plane_length_change_m == float(plane_length_change_from_lie_m(-2 * DEG, 64 * DEG, 0.25, 0.055))
    assert plan.cg_from_cap_change_m is not None
    assert plan.cg_from_ground_change_m is not None
    assert plan.cg_from_cap_change_m == pytest.approx(0.0381 * 2 * DEG, rel=0.03)
    assert plan.cg_from_cap_change_m == pytest.approx(
        plan.axis_length_change_m - plan.cg_from_ground_change_m, abs=1e-15
    )
    assert plan.plane_length_change_m > 2 * plan.axis_length_change_m > 0


def test_a_head_whose_centre_is_not_known_has_no_change_of_it():
    plan = plan_bends(wedge(angles(56, 64), angles(None, 62)))
    assert plan.cg_from_cap_change_m is None
    assert plan.cg_from_ground_change_m is None


def test_a_measured_sole_is_used():
    flat = plan_bends(wedge(angles(56, 64), angles(None, 62), sole_camber_m=0.4, sole_contact_m=0.03))
    assert flat.plane_length_change_m < plan_bends(wedge(angles(56, 64), angles(None, 62))).plane_length_change_m


def test_cautions_of_the_metal_are_shown():
    said = [say(item, None) for item in plan_bends(BOTH).cautions]
    assert any("eye protection" in sentence for sentence in said)
    assert any("plating" in sentence for sentence in said)
    assert said[-1].startswith("The product's safety data sheet")


def test_numbers_that_cannot_be_are_refused_all_at_once():
    request = BendRequest(
        kind="wedge",
        hand="right",
        now=Angles(loft_rad=56.0, lie_rad=nan),
        target=Angles(loft_rad=radians(55), lie_rad=radians(63), bounce_rad=-1.0),
        bent_so_far=BentSoFar(lie_rad=-0.01),
        cg_off_axis_m=nan,
    )
    with pytest.raises(InputError) as refused:
        plan_bends(request)
    assert [str(finding.where) for finding in refused.value.findings] == [
        "loft as measured",
        "lie as measured",
        "bounce as ordered",
        "lie bent so far",
        "centre of gravity off the axis",
    ]


def test_an_angle_that_was_not_measured_is_asked_for():
    with pytest.raises(InputError, match="Measure the lie first"):
        plan_bends(wedge(angles(56), angles(55, 63)))


def test_kind_and_hand_must_be_known_ones():
    with pytest.raises(InputError, match="kind 'spoon'") as refused:
        plan_bends(wedge(angles(56), angles(55), kind="spoon", hand="both"))
    assert len(refused.value.findings) == 2


def test_the_head_that_needs_the_least_bending_is_first():
    ranked = rank_heads(
        {
            "56-10": BOTH,
            "54-8": wedge(angles(54, 64, 8), angles(54.5, 63.5)),
            "60-8": wedge(angles(60, 64, 8), angles(54.5, 63.5)),
        }
    )
    assert [choice.name for choice in ranked] == ["54-8", "56-10", "60-8"]
    assert ranked[2].plan.refused


def test_a_head_whose_bounce_fits_goes_before_one_bent_less():
    target = angles(54.5, 64, 8.5)
    ranked = rank_heads({"near": wedge(angles(54, 64, 12), target), "far": wedge(angles(56, 64, 10), target)})
    assert [choice.name for choice in ranked] == ["far", "near"]
