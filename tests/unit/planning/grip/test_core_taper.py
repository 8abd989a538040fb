"""A core narrows with the shaft that it is made for: an ordinary club asks for no tape, and a measured core wins."""

from __future__ import annotations

from copy import deepcopy
from typing import Any

import pytest

from clubwright.planning.grip.tape_advice import tape_advice
from clubwright.planning.said.actions import Tape
from clubwright.services.answer.club_answer import work_document

ORDINARY: dict[str, Any] = {
    "ticket": {"id": "T-0001", "kind": "iron", "hand": "right", "job": "regrip"},
    "target": {"grip_diameter_2in": "0.900 in", "grip_diameter_6in": "0.800 in"},
    "shaft": {"butt_diameter": "0.600 in", "lower_diameter": "0.570 in"},
    "grip": {"mass": "50 g", "core": "60", "diameter_2in": "0.900 in", "diameter_6in": "0.800 in"},
    "tape": [{"name": "double-sided", "mass": "1.6 g"}],
}


def advised(document: dict[str, Any]) -> Tape:
    action = tape_advice(work_document(document).club_state)
    assert action is not None and isinstance(action.data, Tape)
    return action.data


def lower(text: str, **grip: str) -> dict[str, Any]:
    document = deepcopy(ORDINARY)
    document["shaft"]["lower_diameter"] = text
    document["grip"] |= grip
    return document


def test_an_ordinary_club_asks_for_no_wraps():
    found = advised(ORDINARY)
    assert (found.full_layers, found.lower_hand_layers, found.is_laid) == (0, 0, True)


@pytest.mark.parametrize("text", ["0.560 in", "0.575 in"])
def test_a_butt_a_little_thinner_asks_for_one_wrap_at_most(text: str):
    assert advised(lower(text)).lower_hand_layers <= 1


def test_a_measured_core_wins_over_the_default():
    straight = work_document(lower("0.560 in", core_taper="0 in")).club_state
    own = work_document(lower("0.560 in", core_taper="0.040 in")).club_state
    assert advised(lower("0.560 in", core_taper="0 in")).lower_hand_layers == 4
    assert advised(lower("0.560 in", core_taper="0.040 in")).lower_hand_layers == 0
    sizes = [float(one.predict(["grip_diameter_6in"]).mean[0, 0]) / 0.0254 for one in (straight, own)]
    assert sizes[1] == pytest.approx(0.800, abs=1e-9)
    assert sizes[0] < 0.775
    assert own.belief.sd_of("grip.core_taper_m") < 0.005 * 0.0254


def test_the_default_is_said_where_the_size_at_six_inches_matters_and_nowhere_else():
    wanted = [item for item in work_document(ORDINARY).findings if str(item.where).endswith("core_taper")]
    assert [item.severity for item in wanted] == ["note"]
    assert "0.030 in" in wanted[0].what and "no source" in wanted[0].what
    document = deepcopy(ORDINARY)
    del document["target"]["grip_diameter_6in"]
    assert [item for item in work_document(document).findings if "core_taper" in str(item.where)] == []


def test_wraps_under_the_lower_hand_that_are_wanted_and_laid_are_left():
    document = deepcopy(ORDINARY)
    document["target"]["grip_diameter_6in"] = "0.820 in"
    wraps = advised(document).lower_hand_layers
    assert wraps >= 2
    document["tape"].append(
        {"name": "lower", "layers": str(wraps), "mass": "2 g", "thickness": "0.005 in", "covers": "lower"}
    )
    assert advised(document).is_laid
    document["target"]["grip_diameter_6in"] = "0.800 in"
    assert not advised(document).is_laid
