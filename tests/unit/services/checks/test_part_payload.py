"""Another part in the place of one: who said so and why, asked of new facts and not of those from before."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest

from clubwright.journal.facts import PartChanged
from clubwright.services.checks.payloads import payload_findings

WHO, WHY = "who said so: nobody is named", "why it is changed: nothing was typed"


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ({}, []),  # as it was written before that was asked
        ({"said_by": "Ann", "reason": "the hosel is cracked"}, []),
        ({"said_by": "", "reason": " "}, [WHO, WHY]),
        ({"said_by": "Ann"}, [WHY]),
        ({"reason": "worn"}, [WHO]),
    ],
)
def test_another_part_says_both_or_is_from_before(said: dict[str, str], told: list[str]) -> None:
    what = PartChanged(job="T-1", section="head", values={}, another=True, **said)
    assert [f"{item.where}: {item.what}" for item in payload_findings(what)] == told


def test_of_the_same_part_nobody_says_it() -> None:
    what = PartChanged(job="T-1", section="head", values={"mass": "296 g"}, said_by="Ann", reason="worn")
    assert [item.what for item in payload_findings(what)] == ["that is said of another part in its place only"]


def test_all_that_is_wrong_is_told_at_once() -> None:
    said: dict[str, Any] = {"said_by": "", "reason": ""}
    what = PartChanged(job="T-1", section="tape", values={"name": "base"}, another=True, **said)
    assert len(payload_findings(what)) == 3


def test_a_fact_from_before_is_the_bytes_it_was() -> None:
    old = PartChanged(job="T-1", section="head", values={}, another=True)
    assert msgspec.json.encode(old) == (
        b'{"kind":"part changed","job":"T-1","section":"head","values":{},"another":true}'
    )
