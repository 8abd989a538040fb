"""The sanity figure of the glue step: its numbers, what is said with them, and what it lacks."""

from __future__ import annotations

import math
from typing import Any

import pytest

from clubwright.planning.joint.lines import joint_lines
from clubwright.planning.said.phrases import phrase
from clubwright.services.answer.club_answer import work_document
from clubwright.services.jobs.job_answer import with_plan
from clubwright.words.say import say
from clubwright.words.step import say_steps

ONLY_SANITY = say(phrase("joint.meaning"), None)


def document(kind: str = "iron", **shaft: str) -> dict[str, Any]:
    return {
        "ticket": {"id": "T-1", "kind": kind, "hand": "right"},
        "target": {"length": "37 in"},
        "head": {"mass": "256 g", "bore_depth": "1.25 in"},
        "shaft": {"material": "steel", "tip_diameter": "0.370 in", **shaft},
    }


def told(found: dict[str, Any], *fitted: float) -> tuple[dict[str, str], tuple[str, ...]]:
    numbers, said = joint_lines(work_document(found).club_state, fitted)
    return {say(label, None): say(text, None) for label, text in numbers}, tuple(say(item, None) for item in said)


def test_figures_of_an_iron_by_hand() -> None:
    """pi x .370 x 1.25 in = 937 mm2; .256 x 38^2 / 1.5 = 246 N; 13 MPa x 937 mm2 = 12.2 kN; 12186 / 246 = 49."""
    numbers, said = told(document())
    assert numbers["bond area"] == "937 mm2"
    assert numbers["load on the joint in the swing"].startswith("246 N (taken: 38 m/s on 1.5 m)")
    assert numbers["load that meets its strength"].startswith("12.2 kN at 13 MPa (epoxy to degreased steel")
    assert numbers["reserve"] == "49 times"
    assert said == (ONLY_SANITY,)


def test_a_weight_under_the_tip_takes_its_thickness_off_the_bond() -> None:
    found = document()
    found["weight"] = [{"name": "tip 4", "mass": "4 g", "seat": "tip", "lifts_shaft": "6.35 mm"}]
    assert told(found, 0.0)[0]["bond area"] == "937 mm2"
    assert told(found, 1.0)[0]["bond area"] == f"{math.pi * 9.398 * 25.4:.0f} mm2"  # .370 in, and 1 in left of 1 1/4


def test_a_tip_that_leaves_the_bore_is_said_and_stops_no_plan() -> None:
    found = document()
    found["head"]["bore_depth"] = "0.75 in"
    found["weight"] = [{"name": "tip 4", "mass": "4 g", "seat": "tip", "count": "2", "lifts_shaft": "11 mm"}]
    numbers, said = told(found, 2.0)
    assert numbers == {}
    assert "bond depth" in said[0]


def test_graphite_is_said_to_be_another_surface() -> None:
    assert any("graphite" in text for text in told(document(material="graphite"))[1])


@pytest.mark.parametrize(("section", "key"), [("shaft", "tip_diameter"), ("head", "bore_depth"), ("head", "mass")])
def test_what_is_missing_is_named(section: str, key: str) -> None:
    found = document()
    del found[section][key]
    assert told(found) == ({}, (f"No sanity figure for the joint; not on the ticket: [{section}] {key}.",))


def test_a_putter_has_none() -> None:
    assert told(document("putter")) == ({}, ())


def test_the_glue_step_shows_it() -> None:
    (step,) = [step for step in say_steps(with_plan(work_document(document())).steps, None) if step.key == "glue"]
    assert dict(step.numbers)["reserve"] == "49 times"
    assert ONLY_SANITY in step.what
