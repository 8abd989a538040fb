"""The list of open jobs remembers where each one stands, and never longer than that is so."""

from __future__ import annotations

import pytest

from benchwork import JOB, Clock, run_to
from clubwright.services.desk import Desk
from clubwright.services.waiting import Standing, Standings

pytestmark = [pytest.mark.usefixtures("played"), pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)]


def gate(standing: Standing, step: str) -> str:
    return dict(standing.gates)[step]


def test_a_cup_that_is_past_its_time_is_seen_on_a_list_that_stayed_open(desk: Desk, clock: Clock) -> None:
    run_to(desk, clock, "sign glue")
    standings = Standings()
    assert gate(standings.of(desk.job(JOB), clock()), "glue") == "signed"
    clock.wait(hours=2)
    assert gate(standings.of(desk.job(JOB), clock()), "glue") == "closed"


def test_a_clock_that_was_set_back_makes_no_cure_of_yesterday_today_s(desk: Desk, clock: Clock) -> None:
    run_to(desk, clock, "glue")
    standings = Standings()
    clock.wait(hours=30)
    assert gate(standings.of(desk.job(JOB), clock()), "release") == "open"
    clock.wait(hours=-29)
    assert gate(standings.of(desk.job(JOB), clock()), "release") == "closed"


def test_a_job_in_which_no_clock_runs_is_not_worked_again(desk: Desk, clock: Clock) -> None:
    run_to(desk, clock, "sign cut")
    standings = Standings()
    there = standings.of(desk.job(JOB), clock())
    clock.wait(hours=2)
    assert standings.of(desk.job(JOB), clock()) is there
