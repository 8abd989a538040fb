"""A club in two open jobs: told on both, nothing is cut or glued until one closes; a job can begin anew."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from benchwork import Clock, session_on
from clubwright.errors import GateClosed
from clubwright.planning.gates.types import Check
from clubwright.services.actions import bench
from clubwright.services.actions.orders.clubs import jobs_of_club
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session
from clubwright.services.recording.merging import take_in
from clubwright.services.report.club_part import club_part
from forging import record_at

WORDS = {"kind": "iron", "hand": "right"}
HEAD = {"mass": "262 g", "bore_to_ground": "28 mm", "bore_depth": "32 mm", "lie": "62 deg", "loft": "30 deg"}
FIRST: dict[str, Any] = {
    "ticket": {**WORDS, "id": "T-1", "job": "weight", "player": "I. Nvented"},
    "head": HEAD,
    "shaft": {"cut_length": "910 mm", "cut_mass": "110 g"},
    "grip": {"mass": "50 g", "cap": "3 mm"},
}
NEW_SHAFT = {"raw_length": "1000 mm", "mass": "112 g"}


def again(number: str) -> dict[str, Any]:
    return {
        "ticket": {"id": number, "job": "reshaft", "club": "T-1"},
        "target": {"length": "940 mm"},
        "shaft": NEW_SHAFT,
        "grip": {"mass": "52 g", "cap": "3 mm"},
    }


def checks(session: Session, job: str, step: str) -> list[Check]:
    worked = answer_job(session.job(job), session.now())
    gate = next(gate for gate in worked.gates if gate.step == step)
    return [check for check in gate.checks if check.key == "club"]


def told(session: Session, job: str) -> list[tuple[str, str]]:
    findings = answer_job(session.job(job), session.now()).findings
    return [(item.severity, item.what) for item in findings if item.where == "club"]


def test_benches_that_took_a_club_apart_are_told_when_they_merge(tmp_path: Path) -> None:
    with record_at(tmp_path / "shop") as first, record_at(tmp_path / "van") as second:
        clock = Clock()
        shop, van = session_on(first, clock, site="shop"), session_on(second, clock, site="van")
        bench.take_ticket(shop, FIRST, "first")
        bench.finish(shop, "T-1")
        clock.wait(hours=1)
        take_in(van, first.facts())
        bench.take_ticket(shop, again("T-2"), "second")
        bench.take_ticket(van, again("T-3"), "third")
        assert checks(shop, "T-2", "cut") == checks(van, "T-3", "cut") == []
        bench.sign_gate(shop, "T-2", "cut")
        for _ in range(2):
            take_in(shop, second.facts())
            take_in(van, first.facts())
        for session in (shop, van):
            assert [job.id for job in jobs_of_club(session, "T-1")] == ["T-1", "T-2", "T-3"]
            assert club_part(jobs_of_club(session, "T-3")).club.plain() == {"site": "shop", "sequence": 1}
            for job, other in (("T-2", "T-3"), ("T-3", "T-2")):
                assert told(session, job) == [("error", f"it is in another open job too ({other})")]
                assert [check.met for step in ("cut", "glue") for check in checks(session, job, step)] == [False] * 2
                assert checks(session, job, "release") == [], "else none of the two could ever be closed"
                assert session.shop().job(job).also_open == (other,)
            assert told(session, "T-1") == []
        with pytest.raises(GateClosed, match="another open job"):
            bench.cut_shaft(shop, "T-2", "908 mm")
        ticket = next(fact for fact in second.facts() if fact.what.job == "T-3")
        bench.undo(van, "T-3", ticket.sequence, "it was taken at the shop", site=ticket.site)
        take_in(shop, second.facts())
        assert checks(shop, "T-2", "cut") == []
        bench.cut_shaft(shop, "T-2", "908 mm")
        assert [job.id for job in jobs_of_club(shop, "T-1")] == ["T-1", "T-2"]


def opened_twice(session: Session, clock: Clock) -> None:
    """The order at the counter is taken while the first job is still open."""
    bench.take_ticket(session, FIRST, "first")
    clock.wait(hours=1)
    bench.take_ticket(session, again("T-2"), "second")
    assert told(session, "T-1") == [("error", "it is in another open job too (T-2)")]
    assert len(told(session, "T-2")) == 1
    clock.wait(hours=1)


@pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)
def test_a_job_begins_anew_from_the_club_that_was_worked_on_since(session: Session, clock: Clock) -> None:
    opened_twice(session, clock)
    bench.bend_head(session, "T-1", lie="60 deg")
    bench.finish(session, "T-1")
    assert checks(session, "T-2", "cut") == []
    since = "work went on in T-1 after this job began from the club as that one had left it"
    assert told(session, "T-2") == [("warning", since)]
    assert session.job("T-2").document["head"]["lie"] == "62 deg"
    fact = bench.say_club(session, "T-2", "T-1", "it was bent meanwhile")
    assert told(session, "T-2") == []
    assert session.job("T-2").document["head"]["lie"] == "60 deg"
    assert session.job("T-2").document["shaft"] == NEW_SHAFT
    bench.undo(session, "T-2", fact.sequence, "no")
    assert told(session, "T-2") == [("warning", since)]
    assert session.job("T-2").document["head"]["lie"] == "62 deg"


@pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)
def test_opening_and_closing_again_is_no_work_on_the_club(session: Session, clock: Clock) -> None:
    bench.take_ticket(session, FIRST, "first")
    bench.finish(session, "T-1")
    clock.wait(hours=1)
    bench.take_ticket(session, again("T-2"), "second")
    bench.reopen(session, "T-1", "the tag is not printed")
    assert told(session, "T-2") == [("error", "it is in another open job too (T-1)")]
    bench.do_step(session, "T-1", "tag")
    bench.finish(session, "T-1")
    assert told(session, "T-2") == []
    bench.renumber(session, "T-1", "T-77")
    assert [job.id for job in jobs_of_club(session, "T-2")] == ["T-77", "T-2"]
    assert told(session, "T-2") == []


@pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)
def test_an_undone_ticket_is_undone_on_both_jobs(session: Session, clock: Clock) -> None:
    bench.take_ticket(session, FIRST, "first")
    bench.finish(session, "T-1")
    clock.wait(hours=1)
    fact = bench.take_ticket(session, again("T-2"), "second")
    assert [line.kind for line in session.job("T-1").trail if not line.undone][-1] == "club came back"
    bench.undo(session, "T-2", fact.sequence, "it is another club")
    assert [job.id for job in jobs_of_club(session, "T-1")] == ["T-1"]
    assert [line.kind for line in session.job("T-1").trail if not line.undone][1:] == ["finished", "undone"]
    bench.take_ticket(session, again("T-2"), "second, for good")
    assert [job.id for job in jobs_of_club(session, "T-1")] == ["T-1", "T-2"]
