"""Figures of several parts, sent as one action: all are kept or none, and every finding is told at once, and no other."""

from __future__ import annotations

from typing import Any

import pytest

from benchwork import JOB, document
from clubwright.errors import InputError
from clubwright.services.actions import bench
from clubwright.services.record.session import Session

pytestmark = [pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)]


@pytest.fixture
def taken(session: Session) -> Session:
    found: dict[str, Any] = document()
    # a figure of the ticket's own that is unusual: it stands as a warning, and is no reason to refuse anything else
    found["adhesive"] |= {"basis": "volume"}
    bench.take_ticket(session, found, "t.toml")
    return session


def refused_places(session: Session, changes: dict[str, dict[str, str]]) -> list[str]:
    before = session.ledger.count()
    with pytest.raises(InputError) as refused:
        bench.change_parts(session, JOB, changes, "k-1")
    assert session.ledger.count() == before, "nothing is kept unless all is"
    assert {finding.severity for finding in refused.value.findings} == {"error"}, "only what these values cause"
    return [str(finding.where).partition("[")[2] for finding in refused.value.findings]


def test_every_finding_is_told_at_once_and_nothing_is_kept(taken: Session) -> None:
    changes = {"head": {"mass": "297 lbs"}, "shaft": {"mass": "banana"}, "grip": {"mass": "-5 g"}}
    assert refused_places(taken, changes) == ["head] mass", "shaft] mass", "grip] mass"]


def test_a_sound_part_beside_a_refused_one_is_not_kept(taken: Session) -> None:
    assert refused_places(taken, {"head": {"mass": "297 g"}, "grip": {"mass": "lots"}}) == ["grip] mass"]


def test_a_part_that_is_refused_by_itself_is_told_beside_the_others(taken: Session) -> None:
    changes = {"shaft": {"cut_mass": "60 g"}, "grip": {"mass": "lots"}}
    assert refused_places(taken, changes) == ["shaft] cut_mass", "grip] mass"]


def test_one_part_alone_is_refused_for_its_own_errors_only(taken: Session) -> None:
    with pytest.raises(InputError) as refused:
        bench.change_part(taken, JOB, "head", {"mass": "297 lbs"})
    assert [finding.severity for finding in refused.value.findings] == ["error"]


def test_parts_are_kept_in_one_action_once(taken: Session) -> None:
    changes = {"head": {"mass": "297 g"}, "grip": {"mass": "50.1 g"}}
    first = bench.change_parts(taken, JOB, changes, "k-1")
    assert [fact.typed for fact in first] == ["head: mass 297 g", "grip: mass 50.1 g"]
    assert bench.change_parts(taken, JOB, changes, "k-1") == first
    bench.undo(taken, JOB, first[0].sequence)
    assert bench.change_parts(taken, JOB, changes, "k-1") == first, "sent again, it is the same action"
    for part in ("head", "grip"):
        assert taken.job(JOB).document[part]["mass"] == document()[part]["mass"], "one action is undone whole"


def test_no_part_is_nothing_to_change(taken: Session) -> None:
    with pytest.raises(InputError, match="nothing"):
        bench.change_parts(taken, JOB, {}, "k-1")
