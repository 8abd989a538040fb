"""The as-built record and the sheet of a closed job say what was recorded as done, and nothing that was only planned."""

from __future__ import annotations

import msgspec
import pytest

from benchwork import JOB, Clock, run_to, worked
from closingwork import BEND, GRIP, WEIGHT, accept_all, take
from clubwright.labels.sheet.data import SheetData
from clubwright.labels.sheet.from_work import sheet_data
from clubwright.labels.tag.from_work import tag_data
from clubwright.labels.tag.tag import tag_label
from clubwright.services.actions import bench
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session
from clubwright.services.report.as_built import as_built_record
from clubwright.services.report.build_again import recipe
from clubwright.services.report.done_work import done_work

pytestmark = [pytest.mark.usefixtures("played"), pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)]
TAPED_GRIP = {
    **GRIP,
    "ticket": {**GRIP["ticket"], "id": "T-10"},
    "tape": [{"name": "build-up", "layers": "2", "mass": "2.9 g", "cg_from_cap": "5 in"}],
    "weight": [{"name": "lead 8", "mass": "8 g", "seat": "head", "fitted": "1"}],
}


def built(session: Session, job: str) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for item in as_built_record(session.job(job), answer_job(session.job(job), session.now())).done:
        found.setdefault(item.part, []).append(item.text)
    return found


def sheet(session: Session, job: str) -> SheetData:
    return sheet_data(answer_job(session.job(job), session.now()), session.job(job), "2026-03-02")


@pytest.mark.parametrize("document", [BEND, GRIP, WEIGHT, TAPED_GRIP], ids=["loft-lie", "regrip", "weight", "taped"])
def test_a_job_on_which_nothing_was_recorded_says_that_nothing_was_done(session: Session, document: dict[str, object]):
    job = take(session, document)
    accept_all(session, job)
    bench.finish(session, job)
    state = session.job(job)
    record = as_built_record(state, answer_job(state, session.now()))
    assert record.done == ()
    assert record["cut_length_m"] is None, "the ticket gives a length; nobody cut it here"
    assert record["recipe"] == f"as {job}"
    assert state.finished is not None
    assert state.finished.shown["done"] == []
    printed = sheet(session, job)
    assert (printed.cut, printed.weights, printed.adhesive, printed.bends) == ((), (), (), ())


def test_what_was_recorded_is_said(session: Session):
    job = take(session, TAPED_GRIP)
    bench.lay_tape(session, job, "build-up", "3", "4.2 g")
    bench.do_step(session, job, "strip grip")
    bench.slide_grip(session, job)
    assert built(session, job) == {"tape": ["build-up x 3"], "grip": ["put on"]}
    assert recipe(session.job(job), answer_job(session.job(job), session.now())) == f"as {job}; tape build-up x 3"
    bench.undo(session, job)
    assert built(session, job) == {"tape": ["build-up x 3"]}


def test_weights_are_fitted_when_somebody_fitted_them(session: Session):
    job = take(session, WEIGHT)
    assert built(session, job) == {}
    bench.fit_weights(session, job, ["lead 8"])
    assert built(session, job) == {"weights": ["lead 8"]}
    bench.fit_weights(session, job, [])
    assert built(session, job) == {"weights": ["none"]}


def test_a_bend_is_what_was_measured_after_it(session: Session):
    job = take(session, BEND)
    bench.bend_head(session, job, lie="62 deg")
    assert built(session, job) == {"head": ["lie 62 deg (was 63.5 deg)"]}
    accept_all(session, job)
    bench.finish(session, job)
    assert sheet(session, job).bends == ("lie 62 deg (was 63.5 deg)",)


def test_the_whole_wedge(session: Session, clock: Clock):
    run_to(session, clock, "read grip_diameter_2in 0.916 in finished")
    planned = sheet(session, JOB)
    assert any("mark" in line.name for line in planned.cut)
    run_to(session, clock, "done tag")
    found = done_work(session.job(JOB), worked(session))
    assert [{"part": item.part, "text": item.text} for item in found] == [
        {"part": "shaft", "text": "cut to 34.01 in"},
        {"part": "weights", "text": "port 6"},
        {"part": "adhesive", "text": "mixed 4.0 g + 2.0 g (2.00:1 by weight) at 22 C, lot 7"},
        {"part": "adhesive", "text": "glued 2026-03-02 09:24 UTC at 22 C"},
        {"part": "adhesive", "text": "cured"},
        {"part": "grip", "text": "put on"},
        {"part": "head", "text": "loft 54 deg (was 54.25 deg)"},
        {"part": "head", "text": "lie 63.5 deg (was 64 deg)"},
        {"part": "head", "text": "bounce 9.75 deg (was 10 deg)"},
    ], "no tape: nobody recorded that any was laid"
    closed = session.job(JOB).finished
    assert closed is not None
    assert closed.shown["done"] == [msgspec.to_builtins(item) for item in done_work(session.job(JOB), worked(session))]
    printed = sheet(session, JOB)
    assert printed.cut[-1].text == "cut to 34.01 in: Ann, 2026-03-02 08:36 UTC"
    assert printed.weights == ("port 6 6.05 g",)
    assert "tape" not in as_built_record(session.job(JOB), worked(session))["recipe"]


def test_a_tag_is_printed_while_the_joint_cures_and_warns_until_the_release_is_signed(session: Session, clock: Clock):
    run_to(session, clock, "glue")
    held = tag_data(worked(session), session.job(JOB), "2026-03-02")
    assert {line.standing for line in held.finals} == {"believed"}, "what is believed is marked so"
    assert held.caution
    assert tag_label(held, format="pdf").startswith(b"%PDF")
    run_to(session, clock, "read total_weight 477.2 g finished")
    cured = tag_data(worked(session), session.job(JOB), "2026-03-02")
    assert cured.caution, "cured, and nobody has released it"
    finals = {line.name: line for line in cured.finals}
    assert finals["total"].standing == "believed", "a reading set aside is no final figure"
    assert finals["total"].text != "477.2 g"
    assert (finals["swing"].text, finals["swing"].standing) == ("D4", "read")
    run_to(session, clock, "sign release")
    assert not tag_data(worked(session), session.job(JOB), "2026-03-02").caution
