"""What the bench page is told: clocks, targets, bends, a reading read back, what each reading taught."""

from __future__ import annotations

from datetime import timedelta

import pytest

from benchwork import JOB, Clock, run_to, worked
from clubwright.journal.facts import ReadingTaken
from clubwright.services.actions import bench
from clubwright.services.answer.belief_trail import belief_trail
from clubwright.services.answer.misfit_to_decide import misfits_to_decide
from clubwright.services.checks.usual_gauge import usual_gauge_of
from clubwright.services.jobs.clocks import cure_clock, pot_clock
from clubwright.services.jobs.targets import target_lines
from clubwright.services.record.session import Session, moment_of
from clubwright.services.report.bend_rows import bend_rows
from clubwright.services.report.reading_back import read_back
from clubwright.words.say import percent

pytestmark = [pytest.mark.usefixtures("played"), pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)]


def test_the_cup_runs_from_the_mix_to_the_joint_and_the_cure_from_there(session: Session, clock: Clock) -> None:
    """The ticket's sheet says 30 min of pot life, 15 h at 20 C and 12 h at 25 C: at 22 C the cure lies between."""
    run_to(session, clock, "mix")
    job, ticket = session.job(JOB), worked(session).club_state.ticket
    cup = pot_clock(job, ticket)
    assert cup is not None
    assert moment_of(cup.until) - moment_of(cup.since) == timedelta(minutes=30)
    assert cure_clock(job, ticket) is None
    bench.sign_gate(session, JOB, "glue")
    bench.glue(session, JOB, "22 C")
    job = session.job(JOB)
    assert pot_clock(job, ticket) is None
    cure = cure_clock(job, ticket)
    assert cure is not None
    assert timedelta(hours=12) < moment_of(cure.until) - moment_of(cure.since) < timedelta(hours=15)


def test_bends_are_told_before_and_after(session: Session, clock: Clock) -> None:
    run_to(session, clock, "grip")
    rows = {row.angle: row for row in bend_rows(worked(session).club_state)}
    assert (rows["loft"].now, rows["loft"].after) == ("54.25 deg", "54.0 deg")
    assert "strong" in rows["loft"].words and "-0.25" in rows["loft"].words
    assert (rows["lie"].now, rows["lie"].after) == ("64.0 deg", "63.5 deg")
    assert "flat" in rows["lie"].words and "grip end" in rows["lie"].push
    assert (rows["bounce"].after, rows["bounce"].words) == ("9.75 deg", ""), "a loft bend takes the bounce along"


def test_what_is_still_to_be_read_comes_first(session: Session, clock: Clock) -> None:
    run_to(session, clock, "read swing_weight D4.1 finished")
    lines = target_lines(worked(session))
    assert [line.key for line in lines[:2]] == ["total_weight", "grip_diameter_2in"]
    assert all(line.settle.startswith("still to read") for line in lines[:2])
    found = {line.key: line for line in lines}
    assert (found["length"].read, found["length"].verdict) == (("35 1/4 in",), "within")
    assert found["swing_weight"].verdict == "cannot tell" and found["swing_weight"].settle


def test_a_misfit_is_told_short_with_its_causes_as_a_list(session: Session, clock: Clock) -> None:
    run_to(session, clock, "read total_weight 477.2 g finished")
    (aside,) = misfits_to_decide(worked(session))
    assert aside.what == "total weight 477.2 g (finished)"
    assert "477.2 g" in aside.off and "Likeliest" not in aside.off
    assert len(aside.causes) >= 2 and "misread" in aside.causes[0]
    bench.decide_reading(session, JOB, aside.fact, keep=False, reason=aside.causes[0])
    assert misfits_to_decide(worked(session)) == ()


def test_a_reading_is_read_back_beside_what_was_expected(session: Session, clock: Clock) -> None:
    run_to(session, clock, "done mark and cut")
    now = worked(session)
    good = read_back(now, "total_weight", "465.4 g", "dry, gripped")
    assert "465.4 g" in good.text and good.expected.startswith("465.") and not good.far
    assert read_back(now, "total_weight", "495.4 g", "dry, gripped").far
    assert read_back(now, "total_weight", "465,4 g", "dry, gripped").findings
    assert read_back(now, "nothing", "1", "finished").findings


def test_each_reading_narrows_what_is_believed(session: Session, clock: Clock) -> None:
    run_to(session, clock, "read swing_weight D3.8 dry, gripped")
    points = belief_trail(worked(session), "swing_weight")
    assert [point.after for point in points] == [
        "parts only",
        "swing weight D1.3",
        "total weight 465.4 g",
        "swing weight D3.8",
    ]
    assert points[0].sd > 5 * points[1].sd > 5 * points[-1].sd
    last = worked(session).club_state.predict(["swing_weight"])
    assert points[-1].mean == pytest.approx(float(last.mean[0, 0]), abs=1e-9), "it ends at the belief of now"


def test_a_gauge_of_the_ticket_is_taken_by_its_usual_name(session: Session, clock: Clock) -> None:
    run_to(session, clock, "take")
    ticket = worked(session).club_state.ticket
    assert usual_gauge_of(ticket, "loft") == "angle gauge"
    assert usual_gauge_of(ticket, "moi") is None


def test_a_reading_without_a_gauge_named_is_of_the_tickets_own(session: Session, clock: Clock) -> None:
    run_to(session, clock, "take")
    fact = bench.note_reading(session, JOB, "swing_weight", "D1.3", stage="dry, gripped", key="one")
    assert isinstance(fact.what, ReadingTaken)
    assert fact.what.instrument == "swing scale"
    again = bench.note_reading(session, JOB, "swing_weight", "D1.3", stage="dry, gripped", key="one")
    assert again == fact, "sent again, it is the same action"
    bare = bench.note_reading(session, JOB, "moi", "2700 kg cm2", stage="finished")
    assert isinstance(bare.what, ReadingTaken)
    assert bare.what.instrument is None, "this ticket has no gauge for it: the usual one is assumed, not named"


def test_no_chance_is_told_as_a_promise(session: Session) -> None:
    assert [percent(chance) for chance in (0.0, 0.004, 0.5, 0.99, 0.9999, 1.0)] == [
        "under 1 %",
        "under 1 %",
        "50 %",
        "99 %",
        "over 99 %",
        "over 99 %",
    ]
