"""Tickets that are written from others: fields laid in as typed, and what a file of a club's own is told by."""

from __future__ import annotations

import pytest

from clubwright.journal.reducers.next_job import filled, holds_its_club
from clubwright.ticket.again import with_typed

FIRST = {"ticket": {"id": "T-1", "promised": "Tue", "priority": "now"}, "head": {"mass": "296 g"}}


def test_fields_are_laid_in_as_typed_and_an_empty_one_is_left_out() -> None:
    typed = {"ticket.promised": "", "ticket.priority": "rush", "head.loft": "54 deg", "shaft.mass": "120 g"}
    assert with_typed(FIRST, typed) == {
        "ticket": {"id": "T-1", "priority": "rush"},
        "head": {"mass": "296 g", "loft": "54 deg"},
        "shaft": {"mass": "120 g"},
    }
    assert FIRST["ticket"]["promised"] == "Tue", "the first is left as it was"


@pytest.mark.parametrize(
    ("rows", "whole"),
    [
        ([{"job": "T-1"}], True),
        ([{"quantity": "length"}, {"job": "T-1"}], True),
        ([{}], False),
        ([], False),
        ("no", False),
    ],
)
def test_a_file_holds_its_club_where_a_reading_names_the_job_it_was_read_in(rows: object, whole: bool) -> None:
    assert holds_its_club({"reading": rows}) is whole


def test_a_ticket_takes_the_words_of_the_club_and_keeps_its_own() -> None:
    left = {"ticket": {"id": "T-1", "kind": "wedge", "player": "I. Nvented", "note": "first"}}
    found = filled({"ticket": {"id": "T-2", "kind": "iron"}}, left)
    assert found["ticket"] == {"id": "T-2", "kind": "iron", "player": "I. Nvented"}
