"""Where a stiffness is given the frequency is foretold at every stage, ordered or not; without one nothing is said of it."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest

from clubwright.club.build import Build
from clubwright.club.frequency import frequency_hz
from clubwright.club.stages import STAGES
from clubwright.services.answer.club_answer import work_document
from repository import ROOT


def iron(*, ordered: bool, stiffness: bool = True) -> dict[str, Any]:
    document = tomllib.loads((ROOT / "examples" / "iron.toml").read_text(encoding="utf-8"))
    document["reading"] = []
    if not ordered:
        document["target"].pop("frequency", None)
        document["tolerance"].pop("frequency", None)
    if not stiffness:
        document["shaft"].pop("stiffness")
        document["shaft"].pop("stiffness_factor", None)
    return document


def test_every_stage_of_a_build_has_its_frequency_without_an_order():
    worked = work_document(iron(ordered=False))
    answer, state = worked.answer(), worked.club_state
    assert answer["finished"]["frequency"]["target"] is None
    for name, figures in answer["stages"].items():
        build = Build(club=state.club, stage=STAGES[name], fitted=(0.0,) * len(state.ticket.weights),
                      conventions=state.prior.conventions)  # fmt: skip
        assert figures["frequency"]["mean"] == pytest.approx(float(frequency_hz(build)), rel=1e-6), name
    assert all("frequency" in item["finished"] for item in answer["advice"] if item["kind"] in ("fit", "leave"))


def test_an_order_changes_nothing_of_what_is_foretold():
    free, ordered = (work_document(iron(ordered=said)).answer()["stages"] for said in (False, True))
    assert {name: one["frequency"]["mean"] for name, one in free.items()} == {
        name: one["frequency"]["mean"] for name, one in ordered.items()
    }


def test_without_a_stiffness_no_stage_has_one():
    answer = work_document(iron(ordered=False, stiffness=False)).answer()
    assert not any("frequency" in figures for figures in (answer["finished"], *answer["stages"].values()))
