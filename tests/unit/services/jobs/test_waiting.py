"""The list of open jobs remembers where each one stands, and never longer than that is so."""

from __future__ import annotations

import pytest

from benchwork import JOB, Clock, run_to
from clubwright.services.jobs.job_list import JobStatus, JobStatuses
from clubwright.services.record.session import Session

pytestmark = [pytest.mark.usefixtures("played"), pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)]


def gate(standing: JobStatus, step: str) -> str:
    return dict(standing.gates)[step]


def test_a_cup_that_is_past_its_time_is_seen_on_a_list_that_stayed_open(session: Session, clock: Clock) -> None:
    run_to(session, clock, "sign glue")
    standings = JobStatuses()
    assert gate(standings.of(session.job(JOB), clock()), "glue") == "signed"
    clock.wait(hours=2)
    assert gate(standings.of(session.job(JOB), clock()), "glue") == "closed"


def test_a_clock_that_was_set_back_makes_no_cure_of_yesterday_today_s(session: Session, clock: Clock) -> None:
    run_to(session, clock, "glue")
    standings = JobStatuses()
    clock.wait(hours=30)
    assert gate(standings.of(session.job(JOB), clock()), "release") == "open"
    clock.wait(hours=-29)
    assert gate(standings.of(session.job(JOB), clock()), "release") == "closed"


def test_a_job_in_which_no_clock_runs_is_not_worked_again(session: Session, clock: Clock) -> None:
    run_to(session, clock, "sign cut")
    standings = JobStatuses()
    there = standings.of(session.job(JOB), clock())
    clock.wait(hours=2)
    assert standings.of(session.job(JOB), clock()) is there
