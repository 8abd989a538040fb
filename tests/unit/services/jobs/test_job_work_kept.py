"""A job is worked once for what its document says; what the time and the record add is never an old one."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from benchwork import JOB, Clock, actions, answer_bytes, gates, session_on
from clubwright.services.actions import bench
from clubwright.services.answer.club_answer import work_ticket
from clubwright.services.jobs import job_answer
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session
from clubwright.store.engine import open_engine
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def session(tmp_path: Path, clock: Clock) -> Iterator[Session]:
    engine = open_engine(f"sqlite:///{tmp_path / 'record.sqlite'}")
    migrate(engine)
    found = session_on(Ledger(engine), clock)
    for name, do, hours in actions():
        clock.wait(hours=hours)
        do(found)
        if name == "glue":
            break
    yield found
    engine.dispose()


def forget() -> None:
    job_answer._worked.cache_clear()
    job_answer._plan.cache_clear()


def test_a_kept_answer_is_the_one_that_would_be_worked_now(session: Session, clock: Clock):
    for hours in (0.1, 5, 20):
        clock.wait(hours=hours)
        job = session.job(JOB)
        kept = answer_job(job, clock())
        forget()
        fresh = answer_job(job, clock())
        assert answer_bytes(kept.answer()) == answer_bytes(fresh.answer())
        assert kept.steps == fresh.steps


def test_the_cure_goes_on_though_the_document_stays(session: Session, clock: Clock):
    document = session.job(JOB).document
    assert not gates(session)["release"]
    clock.wait(hours=20)
    assert session.job(JOB).document == document
    assert gates(session)["release"]


def test_a_document_that_was_changed_in_place_is_worked_anew(session: Session, clock: Clock):
    job = session.job(JOB)
    before = answer_job(job, clock()).answer()["finished"]["total_weight"]
    job.document["grip"]["mass"] = "60 g"
    assert answer_job(job, clock()).answer()["finished"]["total_weight"] != before


def test_a_reading_is_worked_once(session: Session, clock: Clock, monkeypatch: pytest.MonkeyPatch):
    worked = []

    def counted(*given: object) -> object:
        worked.append(given)
        return work_ticket(*given)

    session.job(JOB)
    answer_job(session.job(JOB), clock())
    monkeypatch.setattr(job_answer, "work_ticket", counted)
    bench.note_reading(session, JOB, "swing_weight", "D3.9", stage="dry, gripped", instrument="swing scale")
    answer_job(session.job(JOB), clock())
    assert len(worked) == 1
