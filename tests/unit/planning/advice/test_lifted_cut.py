"""A weight under the tip, before and after the cut: before it the shaft is cut for the weight, after it the club grows."""

from __future__ import annotations

from copy import deepcopy
from typing import Any

from clubwright.planning.advice.weights import moved_goals
from clubwright.services.answer.club_answer import work_document

DOCUMENT: dict[str, Any] = {
    "ticket": {"id": "T-0001", "kind": "wedge", "hand": "right"},
    "target": {"length": "35 1/4 in", "swing_weight": "D4"},
    "tolerance": {"length": "1/64 in"},
    "head": {"mass": "297 g", "bore_to_ground": "1.1 in", "bore_depth": "1.25 in", "lie": "64 deg"},
    "shaft": {"raw_length": "37 in", "mass": "125 g", "balance_from_tip": "19.25 in"},
    "grip": {"mass": "50 g", "cap": "1/8 in"},
    "weight": [{"name": "tip 5", "mass": "5 g", "seat": "tip", "lifts_shaft": "3 mm"}],
}


def lengths(document: dict[str, Any]) -> dict[tuple[str, ...], float]:
    worked = work_document(document)
    return {item.weights: item.finished["length"][0] for item in worked.advice if "length" in item.finished}


def test_before_the_cut_the_shaft_is_cut_for_the_weight():
    found = lengths(DOCUMENT)
    assert abs(found[("tip 5",)] - found[()]) < 1e-9
    worked = work_document(DOCUMENT)
    assert worked.cut is not None
    assert abs(worked.cut.lifted[0].shaft_length_m - (worked.cut.shaft_length_m - 0.003)) < 1e-9
    assert [goal.key for goal in moved_goals(worked.club_state)] == ["swing_weight"]


def test_after_the_cut_the_weight_makes_the_club_longer():
    document = deepcopy(DOCUMENT)
    document["shaft"]["cut_length"] = "34.025 in"
    found = lengths(document)
    assert abs(found[("tip 5",)] - found[()] - 0.003) < 1e-9
    assert [goal.key for goal in moved_goals(work_document(document).club_state)] == ["length", "swing_weight"]
