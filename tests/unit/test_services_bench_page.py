"""What the bench page is told: clocks, targets, bends, a reading read back, what each reading taught."""

from __future__ import annotations

from datetime import timedelta

import pytest

from benchwork import JOB, Clock, run_to, worked
from clubwright.journal.facts import ReadingTaken
from clubwright.services import bench
from clubwright.services.aside import asides_of
from clubwright.services.belief_trail import belief_trail
from clubwright.services.bend_rows import bend_rows
from clubwright.services.chances import percent
from clubwright.services.clocks import cure_clock, pot_clock
from clubwright.services.desk import Desk, moment_of
from clubwright.services.reading_back import read_back
from clubwright.services.targets import target_lines
from clubwright.services.usual_gauge import usual_gauge_of

pytestmark = [pytest.mark.usefixtures("played"), pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)]


def test_the_cup_runs_from_the_mix_to_the_joint_and_the_cure_from_there(desk: Desk, clock: Clock) -> None:
    """The ticket's sheet says 30 min of pot life, 15 h at 20 C and 12 h at 25 C: at 22 C the cure lies between."""
    run_to(desk, clock, "mix")
    job, ticket = desk.job(JOB), worked(desk).situation.ticket
    cup = pot_clock(job, ticket)
    assert cup is not None
    assert moment_of(cup.until) - moment_of(cup.since) == timedelta(minutes=30)
    assert cure_clock(job, ticket) is None
    bench.sign_gate(desk, JOB, "glue")
    bench.glue(desk, JOB, "22 C")
    job = desk.job(JOB)
    assert pot_clock(job, ticket) is None
    cure = cure_clock(job, ticket)
    assert cure is not None
    assert timedelta(hours=12) < moment_of(cure.until) - moment_of(cure.since) < timedelta(hours=15)


def test_bends_are_told_before_and_after(desk: Desk, clock: Clock) -> None:
    run_to(desk, clock, "grip")
    rows = {row.angle: row for row in bend_rows(worked(desk).situation)}
    assert (rows["loft"].now, rows["loft"].after) == ("54.25 deg", "54.0 deg")
    assert "strong" in rows["loft"].words and "-0.25" in rows["loft"].words
    assert (rows["lie"].now, rows["lie"].after) == ("64.0 deg", "63.5 deg")
    assert "flat" in rows["lie"].words and "grip end" in rows["lie"].push
    assert (rows["bounce"].after, rows["bounce"].words) == ("9.75 deg", ""), "a loft bend takes the bounce along"


def test_what_is_still_to_be_read_comes_first(desk: Desk, clock: Clock) -> None:
    run_to(desk, clock, "read swing_weight D4.1 finished")
    lines = target_lines(worked(desk))
    assert [line.key for line in lines[:2]] == ["total_weight", "grip_diameter_2in"]
    assert all(line.settle.startswith("still to read") for line in lines[:2])
    found = {line.key: line for line in lines}
    assert (found["length"].read, found["length"].verdict) == (("35 1/4 in",), "within")
    assert found["swing_weight"].verdict == "cannot tell" and found["swing_weight"].settle


def test_a_misfit_is_told_short_with_its_causes_as_a_list(desk: Desk, clock: Clock) -> None:
    run_to(desk, clock, "read total_weight 477.2 g finished")
    (aside,) = asides_of(worked(desk))
    assert aside.what == "total weight 477.2 g (finished)"
    assert "477.2 g" in aside.off and "Likeliest" not in aside.off
    assert len(aside.causes) >= 2 and "misread" in aside.causes[0]
    bench.decide_reading(desk, JOB, aside.fact, keep=False, reason=aside.causes[0])
    assert asides_of(worked(desk)) == ()


def test_a_reading_is_read_back_beside_what_was_expected(desk: Desk, clock: Clock) -> None:
    run_to(desk, clock, "done mark and cut")
    now = worked(desk)
    good = read_back(now, "total_weight", "465.4 g", "dry, gripped")
    assert "465.4 g" in good.text and good.expected.startswith("465.") and not good.far
    assert read_back(now, "total_weight", "495.4 g", "dry, gripped").far
    assert read_back(now, "total_weight", "465,4 g", "dry, gripped").findings
    assert read_back(now, "nothing", "1", "finished").findings


def test_each_reading_narrows_what_is_believed(desk: Desk, clock: Clock) -> None:
    run_to(desk, clock, "read swing_weight D3.8 dry, gripped")
    points = belief_trail(worked(desk), "swing_weight")
    assert [point.after for point in points] == [
        "parts only",
        "swing weight D1.3",
        "total weight 465.4 g",
        "swing weight D3.8",
    ]
    assert points[0].sd > 5 * points[1].sd > 5 * points[-1].sd
    last = worked(desk).situation.predict(["swing_weight"])
    assert points[-1].mean == pytest.approx(float(last.mean[0, 0]), abs=1e-9), "it ends at the belief of now"


def test_a_gauge_of_the_ticket_is_taken_by_its_usual_name(desk: Desk, clock: Clock) -> None:
    run_to(desk, clock, "take")
    ticket = worked(desk).situation.ticket
    assert usual_gauge_of(ticket, "loft") == "angle gauge"
    assert usual_gauge_of(ticket, "moi") is None


def test_a_reading_without_a_gauge_named_is_of_the_tickets_own(desk: Desk, clock: Clock) -> None:
    run_to(desk, clock, "take")
    fact = bench.note_reading(desk, JOB, "swing_weight", "D1.3", stage="dry, gripped", key="one")
    assert isinstance(fact.what, ReadingTaken)
    assert fact.what.instrument == "swing scale"
    again = bench.note_reading(desk, JOB, "swing_weight", "D1.3", stage="dry, gripped", key="one")
    assert again == fact, "sent again, it is the same action"
    bare = bench.note_reading(desk, JOB, "moi", "2700 kg cm2", stage="finished")
    assert isinstance(bare.what, ReadingTaken)
    assert bare.what.instrument is None, "this ticket has no gauge for it: the usual one is assumed, not named"


def test_no_chance_is_told_as_a_promise(desk: Desk) -> None:
    assert [percent(chance) for chance in (0.0, 0.004, 0.5, 0.99, 0.9999, 1.0)] == [
        "under 1 %",
        "under 1 %",
        "50 %",
        "99 %",
        "over 99 %",
        "over 99 %",
    ]
