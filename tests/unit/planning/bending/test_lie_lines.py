"""What the plan says of a lie that does not fit: side by hand, size by geometry, at the steps where it can be mended."""

from __future__ import annotations

import math
from typing import Any

import pytest

from clubwright.planning.bending.lie_lines import lie_lines, lie_said, rule_direction_rad
from clubwright.services.answer.club_answer import work_document
from clubwright.services.jobs.job_answer import with_plan
from clubwright.words.say import say
from clubwright.words.step import say_steps

DEG = math.pi / 180
LABEL = "what the lie does as it stands"


def document(**head: str) -> dict[str, Any]:
    return {
        "ticket": {"id": "T-1", "kind": "wedge", "hand": "right"},
        "target": {"loft": "54 deg", "lie": "63 1/2 deg"},
        "head": {"loft": "54 deg", "lie": "64 deg", **head},
    }


def lie_text(loft_rad: float, error_rad: float, hand: Any) -> str:
    return say(lie_said(loft_rad, error_rad, hand), None)


def told(found: dict[str, Any]) -> dict[str, str]:
    return {say(label, None): say(text, None) for label, text in lie_lines(work_document(found).club_state)}


@pytest.mark.parametrize(
    ("error_deg", "hand", "said"),
    [(0.5, "right", "left"), (0.5, "left", "right"), (-0.5, "right", "right"), (-0.5, "left", "left")],
)
def test_the_side_goes_with_the_hand(error_deg: float, hand: Any, said: str) -> None:
    words = lie_text(54 * DEG, error_deg * DEG, hand)
    assert f"0.7 deg {said} of target" in words
    assert words.startswith(f"0.5 deg {'upright' if error_deg > 0 else 'flat'}: ")


def test_size_is_that_of_the_turned_face() -> None:
    """Vector arithmetic written here: the face normal (0, cos L, sin L) turned about the target line by the error."""
    loft, error = 46 * DEG, 4 * DEG
    across, forward = math.sin(loft) * math.sin(error), math.cos(loft)
    direction, miss_yd = math.degrees(math.atan2(across, forward)), 100 * across / forward
    words = lie_text(loft, error, "right")
    assert f"{direction:.1f} deg left of target, {miss_yd:.1f} yd at 100 yd" in words
    # a published article on this very case says 4 deg (otlgolf.com); the linear rule gives half of it
    assert round(direction) == 4
    assert "a rule linear in loft says 2.0 deg" in words
    assert rule_direction_rad(loft, error) / DEG == pytest.approx(46 * 4 / 90)


def test_it_is_told_where_it_can_be_mended() -> None:
    plan = say_steps(with_plan(work_document(document())).steps, None)
    steps = {step.key for step in plan if LABEL in dict(step.numbers)}
    assert steps == {"head check", "loft and lie", "inspect"}


def test_nothing_is_told_of_a_lie_that_fits_is_unknown_or_turns_no_face() -> None:
    assert LABEL in told(document())
    assert told(document(lie="63.5 deg")) == {}
    unknown = document()
    del unknown["head"]["loft"]
    assert told(unknown) == {}
    putter = document()
    putter["ticket"]["kind"] = "putter"
    putter["target"], putter["head"] = {"lie": "70 deg"}, {"loft": "3 deg", "lie": "71 deg"}
    assert told(putter) == {}


def test_a_face_that_hardly_turns_points_at_the_target() -> None:
    assert lie_text(1 * DEG, 0.1 * DEG, "right") == "0.1 deg upright: the face still points at the target"
