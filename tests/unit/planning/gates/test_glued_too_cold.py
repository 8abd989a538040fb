"""A part colder than the coldest row of its adhesive's table is not glued; one that was says so, and how to go on."""

from __future__ import annotations

import pytest

from bench_fixtures import clock, played, session
from benchwork import JOB, Clock, run_to
from clubwright.errors import GateClosed
from clubwright.journal.facts import Glued
from clubwright.services.actions import bench
from clubwright.services.checks.cold_joint import no_release
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session
from clubwright.services.recording.recording import keep_what
from clubwright.web.views.card_view import card_of

__all__ = ["clock", "played", "session"]

pytestmark = pytest.mark.usefixtures("played")


@pytest.mark.parametrize("cold", ["10 C", "19.9 C", "50 F"])
def test_a_part_colder_than_the_table_is_not_glued(session: Session, clock: Clock, cold: str) -> None:
    """The ticket's table begins at 20 C."""
    run_to(session, clock, "sign glue")
    count = session.ledger.count()
    with pytest.raises(GateClosed, match=r"colder than the coldest row.*warm the part to at least 20\.0 C first"):
        bench.glue(session, JOB, cold)
    assert session.ledger.count() == count
    bench.glue(session, JOB, "68 F")


def test_a_joint_that_was_glued_too_cold_says_so_and_how_to_go_on(session: Session, clock: Clock) -> None:
    """Older records have such joints, and other benches write them."""
    run_to(session, clock, "sign glue")
    keep_what(session, Glued(job=JOB, temperature="10 C"), "glued at 10 C", None)
    job = session.job(JOB)
    worked = answer_job(job, session.now())
    (said,) = card_of(worked, job, key="k", step="cure").form.open_points
    assert "10.0 C is colder than the coldest row of the table, 20.0 C, and does not cure" in said
    assert "Warm the part" in said and "undo" in said


def test_a_joint_within_the_table_has_its_clock_and_nothing_to_say(session: Session, clock: Clock) -> None:
    run_to(session, clock, "glue")
    job = session.job(JOB)
    worked = answer_job(job, session.now())
    form = card_of(worked, job, key="k", step="cure").form
    assert form.clock is not None and form.open_points == ()


def test_a_joint_that_is_open_says_so(session: Session, clock: Clock) -> None:
    run_to(session, clock, "sign glue")
    job = session.job(JOB)
    (found,) = no_release(job, answer_job(job, session.now()).club_state.ticket)
    assert "not glued" in found.what


def test_after_a_wrong_cup_the_glue_card_leads_back_to_the_mix(session: Session, clock: Clock) -> None:
    run_to(session, clock, "mix")
    job = session.job(JOB)
    assert card_of(answer_job(job, session.now()), job, key="k", step="glue").form.back == ()
    bench.mix_adhesive(session, JOB, "4.0 g", "3.0 g", "22 C", "lot 7")
    job = session.job(JOB)
    form = card_of(answer_job(job, session.now()), job, key="k", step="glue").form
    assert form.back == ("Mix anew", "mix") and form.blocked
