"""Words of misfits and verdicts: limits are not rounded away, causes name what can be looked at."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from clubwright.services.answer.club_answer import answer_document

CLUB: dict[str, Any] = {
    "ticket": {"id": "T-1", "kind": "wedge", "hand": "right"},
    "target": {"length": "35 1/4 in", "swing_weight": "D4"},
    "tolerance": {"swing_weight": "1/4 pt"},
    "head": {"mass": "296.4 g", "lie": "64 deg", "bore_to_ground": "1.1 in", "bore_depth": "1.25 in"},
    "shaft": {"raw_length": "37 in", "mass": "125.2 g", "balance_from_tip": "19 1/4 in", "butt_density": "3.6 g/in"},
    "grip": {"mass": "49.6 g", "cap": "1/8 in", "cg_from_cap": "4.1 in"},
    "instrument": {"scale": {"resolution": "0.1 pt", "repeatability": "0.1 pt"}},
}


def answer(*readings: dict[str, Any]) -> dict[str, Any]:
    return answer_document({**copy.deepcopy(CLUB), "reading": list(readings)})


def swing(value: str, **more: Any) -> dict[str, Any]:
    return {
        "quantity": "swing_weight",
        "value": value,
        "stage": "finished",
        "weights": [],
        "instrument": "scale",
        **more,
    }


def aside(found: dict[str, Any]) -> str:
    (text,) = [item["what"] for item in found["findings"] if "kept aside" in item["what"]]
    return str(text)


def test_limits_of_a_quarter_point_are_written_to_the_hundredth() -> None:
    verdict = answer(swing("D3.7 ± 0.01", keep="yes"))["verdicts"]["swing_weight"]
    assert verdict["verdict"] == "outside"
    assert "Reading D3.7," in verdict["rule"]
    assert "from D3.75 to D4.25" in verdict["rule"]


def test_two_readings_with_one_gauge_count_as_their_mean() -> None:
    one = answer(swing("D3.9", keep="yes"))["verdicts"]["swing_weight"]["rule"]
    two = answer(swing("D3.9", keep="yes"), swing("D4.1", keep="yes", repeats="3"))["verdicts"]["swing_weight"]["rule"]
    assert "Reading D3.9, standard uncertainty 0.1 pt" in one
    # (33.9 + 3 x 34.1) / 4 = 34.05; u = sqrt((0.1^2 + 0.1^2/12) / 4) = 0.052: four readings that scatter over the steps
    assert "Reading D4.05, standard uncertainty 0.052 pt" in two


def test_a_reading_with_other_weights_is_no_reading_of_this_club() -> None:
    document = {**copy.deepcopy(CLUB), "weight": [{"name": "port 2", "mass": "2 g", "seat": "port"}]}
    document["reading"] = [swing("D0.5", keep="yes"), swing("D1.5", keep="yes", weights=["port 2"])]
    assert "Reading D1.5," in answer_document(document)["verdicts"]["swing_weight"]["rule"]


def test_a_verdict_with_no_reading_that_stands_asks_for_a_decision_or_another_reading() -> None:
    undecided = answer(swing("C1"))["verdicts"]["swing_weight"]
    assert undecided["verdict"] == "cannot tell"
    assert "Decide about the reading" in undecided["settle"]
    left_out = answer(swing("C1", keep="no"))["verdicts"]["swing_weight"]
    assert left_out["settle"] == "Read it again."


@pytest.mark.parametrize(("value", "word"), [("70 deg", "more"), ("58 deg", "less")])
def test_a_lie_that_does_not_fit_is_the_lie_of_the_head_and_nothing_that_cannot_move_it(value: str, word: str) -> None:
    text = aside(answer({"quantity": "lie", "value": value, "stage": "finished"}))
    assert "the lie of the head is" in text
    assert f"{word} than entered" in text
    assert "gauge" in text
    assert "shaft" not in text
    assert "centre of gravity" not in text


def test_a_wrong_stage_is_among_the_causes() -> None:
    bare = answer()["stages"]["dry, no grip"]["swing_weight"]["text"].split(" ±")[0]
    text = aside(answer(swing(bare, stage="dry, gripped")))
    assert 'it was read at the stage "dry, no grip"' in text


def test_a_part_that_weighs_otherwise_is_named_with_its_size() -> None:
    text = aside(answer({"quantity": "grip.mass", "value": "53.6 g", "stage": "finished"}))
    assert "reads 53.6 g, expected 49.6 g" in text
    assert "the grip is 4.00 g heavier than entered, or it is another grip" in text
