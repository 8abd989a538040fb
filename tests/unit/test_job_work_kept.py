"""A job is worked once for what its document says; what the time and the record add is never an old one."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from benchwork import JOB, Clock, actions, answer_bytes, desk_on, gates
from clubwright.services import bench, job_work
from clubwright.services.desk import Desk
from clubwright.services.job_work import work_job
from clubwright.services.work import work_ticket
from clubwright.store.engine import open_engine
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def desk(tmp_path: Path, clock: Clock) -> Iterator[Desk]:
    engine = open_engine(f"sqlite:///{tmp_path / 'record.sqlite'}")
    migrate(engine)
    found = desk_on(Ledger(engine), clock)
    for name, do, hours in actions():
        clock.wait(hours=hours)
        do(found)
        if name == "glue":
            break
    yield found
    engine.dispose()


def forget() -> None:
    job_work._worked.cache_clear()
    job_work._plan.cache_clear()


def test_a_kept_answer_is_the_one_that_would_be_worked_now(desk: Desk, clock: Clock):
    for hours in (0.1, 5, 20):
        clock.wait(hours=hours)
        job = desk.job(JOB)
        kept = work_job(job, clock())
        forget()
        fresh = work_job(job, clock())
        assert answer_bytes(kept.answer()) == answer_bytes(fresh.answer())
        assert kept.steps == fresh.steps


def test_the_cure_goes_on_though_the_document_stays(desk: Desk, clock: Clock):
    document = desk.job(JOB).document
    assert not gates(desk)["release"]
    clock.wait(hours=20)
    assert desk.job(JOB).document == document
    assert gates(desk)["release"]


def test_a_document_that_was_changed_in_place_is_worked_anew(desk: Desk, clock: Clock):
    job = desk.job(JOB)
    before = work_job(job, clock()).answer()["finished"]["total_weight"]
    job.document["grip"]["mass"] = "60 g"
    assert work_job(job, clock()).answer()["finished"]["total_weight"] != before


def test_a_reading_is_worked_once(desk: Desk, clock: Clock, monkeypatch: pytest.MonkeyPatch):
    worked = []

    def counted(*given: object) -> object:
        worked.append(given)
        return work_ticket(*given)

    desk.job(JOB)
    work_job(desk.job(JOB), clock())
    monkeypatch.setattr(job_work, "work_ticket", counted)
    bench.note_reading(desk, JOB, "swing_weight", "D3.9", stage="dry, gripped", instrument="swing scale")
    work_job(desk.job(JOB), clock())
    assert len(worked) == 1
