"""Sheet and record say the mix that was used and the cut as it was typed, and no cup that was thrown away."""

from __future__ import annotations

import pytest

from benchwork import JOB, Clock, run_to, worked
from clubwright.labels.sheet.data import SheetData
from clubwright.labels.sheet.from_work import sheet_data
from clubwright.planning.cautions import CAUTIONS, cautions, weight_cautions
from clubwright.services.actions import bench
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session
from clubwright.services.report.done_work import done_work
from clubwright.words.say import say

pytestmark = [pytest.mark.usefixtures("played"), pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)]


def sheet(session: Session) -> SheetData:
    return sheet_data(answer_job(session.job(JOB), session.now()), session.job(JOB), "2026-03-02")


def adhesive(session: Session) -> list[str]:
    return [item.text for item in done_work(session.job(JOB), worked(session)) if item.part == "adhesive"]


def test_the_sheet_says_the_mix_that_was_used_with_lot_masses_and_ratio(session: Session, clock: Clock):
    run_to(session, clock, "read swing_weight D3.8 dry, gripped")
    assert any(line.startswith("part A: ") for line in sheet(session).adhesive), "before, what to weigh"
    run_to(session, clock, "mix")
    printed = sheet(session).adhesive
    assert "mixed 4.0 g + 2.0 g (2.00:1 by weight) at 22 C, lot 7" in printed
    assert not any(line.startswith("part A: ") for line in printed)


def test_a_cup_that_another_one_replaced_is_not_in_the_club(session: Session, clock: Clock):
    run_to(session, clock, "mix")
    bench.mix_adhesive(session, JOB, "6.0 g", "3.0 g", "22 C", "lot 8")
    assert adhesive(session) == ["mixed 6.0 g + 3.0 g (2.00:1 by weight) at 22 C, lot 8"]
    bench.sign_gate(session, JOB, "glue")
    bench.glue(session, JOB, "22 C")
    clock.wait(hours=1)
    bench.mix_adhesive(session, JOB, "5.0 g", "2.0 g", "22 C", "lot 9")
    assert [text for text in adhesive(session) if text.startswith("mixed")] == [
        "mixed 6.0 g + 3.0 g (2.00:1 by weight) at 22 C, lot 8"
    ], "what was mixed after the joint was closed is not in it"


def test_the_cut_is_what_was_typed(session: Session, clock: Clock):
    run_to(session, clock, "cut")
    texts = [item.text for item in done_work(session.job(JOB), worked(session)) if item.part == "shaft"]
    assert texts == ["cut to 34.01 in"]


def test_a_figure_of_a_step_is_set_off_from_its_name(session: Session, clock: Clock):
    run_to(session, clock, "hand")
    weighing = next(step for step in sheet(session).steps if "port" in step.numbers or "weight" in step.numbers)
    assert all(": " in part for part in weighing.numbers.split("; "))


@pytest.mark.usefixtures("session")
def test_the_first_caution_at_a_weight_is_about_that_weight():
    said = cautions("weight")
    assert "works loose" in say(weight_cautions(["port 6"], said)[0], None)
    assert say(weight_cautions(["port 6", "lead 8"], said)[0], None).startswith("Lead")
    assert set(weight_cautions(["lead 8"], said)) == set(said) >= set(CAUTIONS["weight"])
