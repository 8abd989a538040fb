"""What a card tells to be read from two metres: grams needed at the head, the bends with their directions, the marks."""

from __future__ import annotations

import pytest

from benchwork import document
from clubwright.notation import parse
from clubwright.planning.said.phrases import Amount
from clubwright.planning.steps.types import Step
from clubwright.services.answer.club_answer import work_document
from clubwright.services.jobs.job_answer import JobAnswer, with_plan
from clubwright.words.step import say_step


@pytest.fixture
def wedge() -> JobAnswer:
    return with_plan(work_document(document(), "wedge-54.toml"))


def card(worked: JobAnswer, key: str) -> Step:
    return next(step for step in worked.steps if step.key == key)


def test_grams_at_the_head_are_what_is_missing_by_the_definition_of_a_point(wedge: JobAnswer) -> None:
    """A point of the 14-inch scale is 50 g in (docs/theory/swing-weight.md); a gram works at its distance from 14 in."""
    (label, needed), (_, of_weight) = card(wedge, "choose weight").act_on
    assert isinstance(needed, Amount) and isinstance(of_weight, Amount)
    missing = parse("swing_weight", "D4", where="target").value - float(
        wedge.club_state.predict(["swing_weight"]).mean[0, 0]
    )
    points = missing / parse("points", "1 pt", where="point").value
    arm_in = 35.25 + 5 / 25.4 - 14
    assert needed.value * 1000 == pytest.approx(points * 50 / arm_in, rel=0.03)
    assert of_weight.value == pytest.approx(0.472 - float(wedge.club_state.predict(["total_weight"]).mean[0, 0]))
    assert label is not None


def test_the_headlines_in_words(wedge: JobAnswer) -> None:
    assert say_step(card(wedge, "loft and lie"), None).act_on == (("loft", "1/4 deg strong"), ("lie", "1/2 deg flat"))
    names = [name for name, _ in say_step(card(wedge, "choose weight"), None).act_on]
    assert names == ["at the head, for swing weight", "at the head, for total weight"]
    marks = [text for _, text in say_step(card(wedge, "mark and cut"), None).act_on]
    assert marks == ["34 1/64 in", "35 7/64 in"]
