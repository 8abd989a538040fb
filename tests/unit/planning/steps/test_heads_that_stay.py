"""Heads that nobody bends: woods by their make, and heads of metals that break. Nothing waits for a bend of theirs."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest

from clubwright.planning.advice.weights import choices
from clubwright.planning.steps.plan import plan_of
from clubwright.services.answer.club_answer import work_document
from clubwright.words.gate import lack_of
from clubwright.words.step import StepWords, say_steps
from repository import ROOT


def example(name: str, **tables: dict[str, str] | None) -> dict[str, Any]:
    document = tomllib.loads((ROOT / "examples" / f"{name}.toml").read_text(encoding="utf-8"))
    for table, values in tables.items():
        document[table] = {**document.get(table, {}), **values} if values is not None else None
    return {table: values for table, values in document.items() if values is not None}


def steps(document: dict[str, Any]) -> dict[str, StepWords]:
    worked = work_document(document)
    best = choices(worked.club_state)[0]
    return {item.key: item for item in say_steps(plan_of(worked.club_state, worked.cut, best, worked.gates), None)}


OFF = {"lie": "60 deg", "loft": "10 1/2 deg"}


@pytest.mark.parametrize(
    ("name", "tables"),
    [
        ("driver", {"target": OFF}),
        ("driver", {"target": OFF, "adapter": None}),
        ("fairway", {"target": {"lie": "61 deg"}}),
        ("putter", {"target": {"lie": "74 deg"}, "head": {"metal": "zinc"}}),
    ],
)
def test_the_cut_does_not_wait_for_a_bend_that_nobody_makes(name: str, tables: dict[str, Any]) -> None:
    worked = work_document(example(name, **tables))
    cut = next(gate for gate in worked.gates if gate.step == "cut")
    assert [check.key for check in cut.checks if check.key == "bends"] == []
    assert cut.open, [lack_of(check) for check in cut.checks if not check.met]


def test_a_head_that_is_bent_still_keeps_the_cut_waiting() -> None:
    worked = work_document(example("wedge-54", target={"lie": "67 deg"}))
    assert not next(gate for gate in worked.gates if gate.step == "cut").open


def test_a_driver_is_set_by_its_sleeve_and_offered_no_bending_bar() -> None:
    plan = steps(example("driver", target=OFF))
    keys, card = list(plan), plan["loft and lie"]
    assert keys.index("loft and lie") == keys.index("grip") + 1
    assert card.title == "Set the sleeve to loft and lie"
    assert "bending bar" not in " ".join(card.instrument)
    said = " ".join((*card.what, *card.cautions, *(text for pair in card.numbers for text in pair)))
    assert "Turn the sleeve" in said
    assert "pull" not in said
    assert "graphite" not in said


def test_a_wood_without_a_sleeve_is_only_measured() -> None:
    plan = steps(example("driver", target=OFF, adapter=None))
    card = plan["loft and lie"]
    assert list(plan).index("loft and lie") < list(plan).index("mark and cut")
    assert card.gate is None
    assert card.title == "Measure loft and lie"
    said = " ".join((*card.what, *card.cautions))
    assert "Turn the sleeve" not in said
    assert "Take a head that measures loft 10.50 deg and lie 60.00 deg" in said


def test_a_head_that_measures_as_ordered_says_so_and_no_more() -> None:
    card = steps(example("driver"))["loft and lie"]
    assert any("Nothing is bent" in text or "as ordered" in text for text in card.what)
