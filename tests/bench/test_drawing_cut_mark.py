"""The drawing shows a mark to saw by only when the cut's gate is open; before that it says about where, and how coarsely."""

from __future__ import annotations

import copy
import re
from typing import Any

import pytest

from benchwork import document
from clubwright.labels.sheet.drawing import draw_club
from clubwright.labels.sheet.drawing_from_work import drawing_of
from clubwright.services.answer.club_answer import work_document


def drawn(without: tuple[str, ...]) -> tuple[Any, str]:
    ticket = copy.deepcopy(document())
    ticket["head"]["hand"] = "right"
    ticket["head"] = {key: value for key, value in ticket["head"].items() if key not in without}
    club = drawing_of(work_document(ticket, "ticket"), None)
    return club, str(draw_club(club, width_mm=180.0))


def test_with_everything_measured_the_mark_is_there_to_the_last_place():
    club, picture = drawn(())
    assert club.cut is not None
    assert not club.cut.about
    assert re.search(r"cut .*\.\d{3} in", club.cut.text)
    assert "cut-mark" in picture
    assert "waste side" in picture


def test_before_the_bore_is_measured_no_mark_is_drawn_and_one_place_of_doubt_is_said():
    club, picture = drawn(("bore_to_ground", "bore_depth"))
    assert club.cut is not None
    assert club.cut.about
    found = re.match(r"about (\d\d\.\d) in ± (0\.\d) in from tip", club.cut.text)
    assert found, club.cut.text
    assert "cut-mark" not in picture
    assert "waste side" not in picture
    assert "hatch" not in picture


@pytest.mark.parametrize("key", ["lie"])
def test_a_closed_gate_for_another_reason_shows_no_mark_either(key: str):
    club, picture = drawn((key,))
    assert club.cut is None or club.cut.about
    assert "cut-mark" not in picture
