"""A weight under the tip, before and after the cut: before it the shaft is cut for the weight, after it the club grows."""

from __future__ import annotations

from copy import deepcopy
from typing import Any

import pytest

from clubwright.planning.advice.weights import moved_goals
from clubwright.services.answer.club_answer import ClubAnswer, work_document
from clubwright.units import INCH_M

POINT_G_IN = 1.75 * 28.349523125

DOCUMENT: dict[str, Any] = {
    "ticket": {"id": "T-0001", "kind": "wedge", "hand": "right"},
    "target": {"length": "35 1/4 in", "swing_weight": "D4"},
    "tolerance": {"length": "1/64 in"},
    "head": {"mass": "297 g", "bore_to_ground": "1.1 in", "bore_depth": "1.25 in", "lie": "64 deg"},
    "shaft": {"raw_length": "37 in", "mass": "125 g", "balance_from_tip": "19.25 in"},
    "grip": {"mass": "50 g", "cap": "1/8 in"},
    "weight": [{"name": "tip 5", "mass": "5 g", "seat": "tip", "lifts_shaft": "3 mm"}],
}


def figures(worked: ClubAnswer, key: str) -> dict[tuple[str, ...], float]:
    return {item.weights: item.finished[key][0] for item in worked.advice if key in item.finished}


def lengths(document: dict[str, Any]) -> dict[tuple[str, ...], float]:
    return figures(work_document(document), "length")


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


def test_before_the_cut_the_advice_weighs_the_club_that_would_be_cut_for_the_weight():
    """By hand, in g and inches from the cap: what stays of the shaft sits nearer to the hands, the butt end is offcut."""
    worked = work_document(DOCUMENT)
    found = figures(worked, "swing_weight")
    shaft, club = worked.club_state.club.shaft, worked.club_state.club
    lift, butt_g_in = 3.0 / 25.4, float(shaft.butt_density_kg_m) * 1e3 * INCH_M
    off_g = butt_g_in * float(shaft.raw_length_m - shaft.length_m) / INCH_M
    more_off_g = butt_g_in * lift
    left_g = float(shaft.mass_kg) * 1e3 - off_g - more_off_g
    cap = float(club.grip.cap_m) / INCH_M
    moved = -left_g * lift - more_off_g * (cap + lift / 2 - 14)
    by_weight = 5.0 * (35.25 - float(club.weights[0].place_m) / INCH_M - 14)
    assert abs(found[("tip 5",)] - found[()] - (by_weight + moved) / POINT_G_IN) < 1e-6
    assert moved / POINT_G_IN < -0.14  # 0.05 pt for each mm


@pytest.mark.parametrize("key", ["swing_weight", "total_weight"])
def test_a_weight_that_is_in_and_one_that_would_be_promise_one_figure(key: str):
    document = deepcopy(DOCUMENT)
    document["weight"][0]["fitted"] = "1"
    out, fitted = figures(work_document(DOCUMENT), key), figures(work_document(document), key)
    assert set(out) == {(), ("tip 5",)}
    assert all(abs(out[weights] - fitted[weights]) < 1e-9 for weights in out)


def test_a_weight_that_is_taken_out_before_the_cut_makes_no_club_shorter():
    document = deepcopy(DOCUMENT)
    document["weight"][0]["fitted"] = "1"
    found = lengths(document)
    assert abs(found[()] - found[("tip 5",)]) < 1e-9
