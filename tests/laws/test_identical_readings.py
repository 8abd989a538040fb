"""The same figure again, off a gauge whose step does not scatter, decides nothing: for every quantity that is ordered."""

from __future__ import annotations

from math import radians, sqrt

import pytest

from clubwright.club.quantities import QUANTITIES, TARGETS
from clubwright.services.answer.club_answer import work_document
from clubwright.services.answer.inspection import Inspected, inspect
from repository import ROOT
from shopwork import completed_example

STEPS = {
    "length": ("1 mm", "0.001 mm", "0.5 mm", 1e-3),
    "mass": ("1 g", "0.001 g", "0.5 g", 1e-3),
    "angle": ("0.5 deg", "0.001 deg", "0.25 deg", radians(0.5)),
    "points": ("1/2 pt", "0.001 pt", "1/4 pt", 0.5),
    "diameter": ("0.01 in", "0.0001 in", "0.005 in", 0.254e-3),
    "moi": ("10 kg cm2", "0.001 kg cm2", "5 kg cm2", 1e-3),
    "frequency": ("1 cpm", "0.001 cpm", "0.5 cpm", 1 / 60),
}
"""Of each kind of notation: the step of a gauge, a scatter within it, half a step as the window, and the step in SI."""


def inspected(key: str, count: int) -> Inspected:
    value = TARGETS[key].example
    step, scatter, half, _ = STEPS[QUANTITIES[key].tolerance_kind]
    content = completed_example(ROOT / "examples" / "iron.toml")
    row = {"quantity": key, "value": value, "stage": "finished", "instrument": "still", "keep": "yes", "weights": []}
    content |= {
        "target": {key: value},
        "tolerance": {key: half},
        "reading": [row] * count,
        "instrument": {"still": {"resolution": step, "repeatability": scatter}},
        "shop": {**content.get("shop", {}), "decision_rule": "guard 2u"},
    }
    return inspect(work_document(content).club_state)[key]


@pytest.mark.parametrize("key", TARGETS)
def test_n_identical_readings_never_turn_cannot_tell_into_within(key: str) -> None:
    step = STEPS[QUANTITIES[key].tolerance_kind][3]
    for count in (1, 2, 16):
        found = inspected(key, count)
        assert found.verdict == "cannot tell", (key, count)
        assert found.u == pytest.approx(step / sqrt(12), rel=0.05)
