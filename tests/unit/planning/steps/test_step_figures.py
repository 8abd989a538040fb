"""Figures of the cards, held against sums by hand: grams for one point on the grip, and what tape is worth."""

from __future__ import annotations

import tomllib

import pytest

from clubwright.planning.said.phrases import Amount, Phrase
from clubwright.planning.steps.types import Step
from clubwright.services.answer.club_answer import work_document
from clubwright.services.jobs.job_answer import with_plan
from repository import ROOT

IN = 0.0254
POINT_KG_M = 1.75 * 0.028349523125 * IN
"""One point of the 14-inch scale: 1.75 in oz."""


def card(example: str, key: str) -> Step:
    document = tomllib.loads((ROOT / "examples" / example).read_text(encoding="utf-8"))
    return next(step for step in with_plan(work_document(document)).steps if step.key == key)


def amount(step: Step, label: str) -> Amount:
    found = next(value for name, value in step.numbers if isinstance(name, Phrase) and name.key == label)
    assert isinstance(found, Amount)
    return found


def test_grams_for_one_point_on_the_grip_are_its_lever() -> None:
    """A mass 4 in below the cap hangs 10 in behind the fulcrum: some 5 g a point, and never thousands."""
    document = tomllib.loads((ROOT / "examples" / "regrip.toml").read_text(encoding="utf-8"))
    cg_in = float(document["grip"]["cg_from_cap"].partition(" ")[0])
    found = amount(card("regrip.toml", "strip grip"), "label.heavier grip")
    assert found.kind == "mass"
    assert found.value == pytest.approx(POINT_KG_M / ((14 - cg_in) * IN), rel=1e-9)


def test_tape_takes_off_the_swing_weight_what_it_hangs_behind_the_fulcrum() -> None:
    """Sum over the strips: mass times (14 in less its place behind the butt), in points; the cap is not on yet."""
    document = tomllib.loads((ROOT / "examples" / "wedge-50.toml").read_text(encoding="utf-8"))
    found = amount(card("wedge-50.toml", "tape"), "label.all tape")
    rows = document["tape"]
    cap_in = 0.125
    by_hand = sum(
        float(row["mass"].partition(" ")[0]) * 1e-3 * (float(row["cg_from_cap"].partition(" ")[0]) - cap_in - 14) * IN
        for row in rows
    )
    assert by_hand < 0
    assert found.value == pytest.approx(by_hand / POINT_KG_M, rel=0.02)
