"""The risk that a quantity found within is outside all the same, against the normal distribution of the standard library."""

from __future__ import annotations

from statistics import NormalDist
from typing import Any

import pytest

from clubwright.services.answer.club_answer import work_document
from clubwright.services.answer.inspection import inspect, risk_words


def document(value: str, rule: str = "simple", repeatability: str = "0.1 pt") -> dict[str, Any]:
    return {
        "ticket": {"id": "T-1", "kind": "wedge", "hand": "right"},
        "target": {"swing_weight": "D4"},
        "tolerance": {"swing_weight": "1/4 pt"},
        "instrument": {"scale": {"resolution": "0.1 pt", "repeatability": repeatability, "bias": "0 pt"}},
        "shop": {"decision_rule": rule},
        "reading": [
            {"quantity": "swing_weight", "value": value, "stage": "finished", "instrument": "scale", "keep": "yes"}
        ],
    }


@pytest.mark.parametrize(("value", "points"), [("D4.2", 34.2), ("D3.8", 33.8), ("D4.1", 34.1), ("D4", 34.0)])
def test_the_risk_is_the_tail_of_the_gauge(value: str, points: float) -> None:
    found = inspect(work_document(document(value)).club_state)["swing_weight"]
    u = (0.1**2 + 0.1**2 / 12) ** 0.5
    true = NormalDist(points, u)
    expected = true.cdf(33.75) + 1 - true.cdf(34.25)
    assert found.verdict == "within"
    assert found.risk == pytest.approx(expected, rel=1e-6)
    assert found.rule.endswith(f"Chance that it is out of spec all the same: {expected * 100:.2g} %.")


def test_a_guard_band_of_two_u_leaves_at_most_the_risk_it_promises() -> None:
    """ILAC-G8:09/2019: a guard band of 2 u leaves a risk below 2.5 %."""
    found = inspect(work_document(document("D4", "guard 2u")).club_state)["swing_weight"]
    assert found.verdict == "within"
    assert found.risk is not None
    assert found.risk < 0.025


@pytest.mark.parametrize("value", ["D4.2", "D4.3", "D5"])
def test_only_what_is_within_has_one(value: str) -> None:
    found = inspect(work_document(document(value, "guard 2u")).club_state)["swing_weight"]
    assert found.verdict != "within"
    assert found.risk is None
    assert "all the same" not in found.rule


def test_the_answer_keeps_its_documented_keys() -> None:
    answer = work_document(document("D4")).answer()
    assert set(answer["verdicts"]["swing_weight"]) == {"figures", "named", "rule", "settle", "verdict"}


@pytest.mark.parametrize(
    ("risk", "words"),
    [(0.0124, "1.2 %"), (0.31, "31 %"), (0.001, "0.1 %"), (1e-9, "below 0.1 %"), (0.0, "below 0.1 %")],
)
def test_a_small_risk_is_never_rounded_to_nothing(risk: float, words: str) -> None:
    assert risk_words(risk) == f"Chance that it is out of spec all the same: {words}."
