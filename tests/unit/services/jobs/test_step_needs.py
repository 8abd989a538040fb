"""A step is said done only when what it leaves behind stands; what was done completes its step by itself."""

from __future__ import annotations

import tomllib
from collections.abc import Callable
from typing import Any

import pytest

from benchwork import JOB, Clock, document, run_to
from clubwright.errors import InputError, StepNotReady
from clubwright.journal.facts import StepDone
from clubwright.journal.reducers.completion import COMPLETED_BY
from clubwright.services.actions import bench
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.jobs.step_needs import STEP_NEEDS, lacking
from clubwright.services.record.session import Session
from clubwright.state.steps import STEPS
from repository import ROOT

pytestmark = [pytest.mark.usefixtures("played"), pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)]
Act = Callable[[Session], object]


def test_every_step_is_in_the_table(session: Session) -> None:
    assert set(STEP_NEEDS) <= set(STEPS)
    assert all(STEP_NEEDS.get(step) for step in COMPLETED_BY), "a step that a fact completes needs the fact"


def take(session: Session, *without: tuple[str, str]) -> None:
    """Take the wedge without some figures of its parts."""
    found = document()
    for section, key in without:
        del found[section][key]
    bench.take_ticket(session, found, "t.toml")


MEASURED: dict[str, tuple[str, str, str, str, str]] = {
    "pull": ("pull", "head", "hand", "right", "nobody has looked at the hand"),
    "weigh": ("weigh", "grip", "mass", "49.6 g", "the grip is not weighed"),
    "loft": ("head check", "head", "loft", "54.25 deg", "the loft is not measured"),
    "depth": ("head check", "head", "bore_depth", "1.25 in", "the bore depth is not measured"),
    "bore": ("bore to ground", "head", "bore_to_ground", "1.10 in", "the bore is not measured"),
}


@pytest.mark.parametrize("case", MEASURED)
def test_a_step_that_measures_needs_its_figure(session: Session, case: str) -> None:
    step, section, key, value, said = MEASURED[case]
    take(session, *[(section, key)] if key in document()[section] else [])
    with pytest.raises(StepNotReady, match=said) as refused:
        bench.do_step(session, JOB, step)
    assert all(finding.mend for finding in refused.value.findings)
    assert len(session.ledger.facts()) == 1, "nothing is kept"
    bench.change_part(session, JOB, section, {key: value})
    bench.do_step(session, JOB, step)
    assert session.job(JOB).steps_done == (step,)


def test_a_head_of_the_other_hand_is_not_pulled(session: Session) -> None:
    take(session)
    bench.change_part(session, JOB, "head", {"hand": "left"})
    with pytest.raises(StepNotReady, match=r"this head is left-handed, the ticket is right\. Put it back"):
        bench.do_step(session, JOB, "pull")


DONE_BY: dict[str, tuple[str, str, Act]] = {
    "mark and cut": ("sign cut", "the shaft is not cut", lambda d: bench.cut_shaft(d, JOB, "34.01 in")),
    "mix": ("fit", "no mix is on the record", lambda d: bench.mix_adhesive(d, JOB, "4 g", "2 g", "22 C", "7")),
    "glue": ("sign glue", "is not glued", lambda d: bench.glue(d, JOB, "22 C")),
    "grip": ("done cure", "no grip is on", lambda d: bench.slide_grip(d, JOB)),
    "loft and lie": ("grip", "a bend of the .* is planned", lambda d: bench.bend_head(d, JOB, loft="54 deg")),
    "tag": ("read grip_diameter_2in 0.916 in finished", "nobody has signed", lambda d: _end(d)),
}


def _end(session: Session) -> None:
    bench.sign_gate(session, JOB, "release")
    bench.finish(session, JOB)


@pytest.mark.parametrize("step", DONE_BY)
def test_what_was_done_completes_its_step_and_its_undo_opens_it(session: Session, clock: Clock, step: str) -> None:
    start, said, act = DONE_BY[step]
    run_to(session, clock, start)
    count = len(session.ledger.facts())
    with pytest.raises(StepNotReady, match=said):
        bench.do_step(session, JOB, step)
    assert len(session.ledger.facts()) == count
    act(session)
    assert step in session.job(JOB).steps_done
    assert not lacking(step, answer_job(session.job(JOB), session.now()), session.job(JOB))  # type: ignore[arg-type]
    assert not [line for line in session.job(JOB).trail if line.kind == "step done" and step in line.text]
    bench.undo(session, JOB)
    assert step not in session.job(JOB).steps_done


def test_the_cure_is_done_when_the_table_releases_the_joint(session: Session, clock: Clock) -> None:
    """15 h at 20 C and 12 h at 25 C: log-linear between them, 15 h (12/15)^(2/5) = 13.72 h at 22 C."""
    run_to(session, clock, "glue")
    for wait in ({"seconds": 5}, {"hours": 13, "minutes": 40}):
        clock.wait(**wait)
        with pytest.raises(StepNotReady, match="not cured yet by the adhesive's own table, which asks for 13 h 44 min"):
            bench.do_step(session, JOB, "cure")
    clock.wait(minutes=5)
    bench.do_step(session, JOB, "cure")


def test_no_club_is_inspected_or_tagged_before_the_release(session: Session, clock: Clock) -> None:
    run_to(session, clock, "glue")
    for step in ("inspect", "tag"):
        with pytest.raises(StepNotReady, match="not cured yet"):
            bench.do_step(session, JOB, step)


def test_an_inspection_names_what_was_not_read_and_may_pass_it_over_by_name(session: Session, clock: Clock) -> None:
    run_to(session, clock, "read total_weight 472.2 g finished")
    with pytest.raises(StepNotReady) as refused:
        bench.do_step(session, JOB, "inspect")
    assert [finding.where for finding in refused.value.findings] == ["grip_diameter_2in"]
    fact = bench.do_step(session, JOB, "inspect", skipped="grip diameter: the caliper is away")
    assert fact.typed == "done: inspect (skipped: grip diameter: the caliper is away)"
    job = session.job(JOB)
    assert job.steps_skipped == {"inspect": "grip diameter: the caliper is away"}
    bench.note_reading(session, JOB, "grip_diameter_2in", "0.916 in", instrument="caliper")
    bench.do_step(session, JOB, "inspect")
    assert session.job(JOB).steps_skipped == {}, "it was done after all"


@pytest.mark.parametrize("step", [step for step, item in STEPS.items() if not item.may_skip and step != "tip trim"])
def test_what_no_gate_would_catch_is_not_passed_over(session: Session, step: str) -> None:
    take(session)
    with pytest.raises(InputError, match="is not passed over"):
        bench.do_step(session, JOB, step, skipped="no time")
    with pytest.raises(InputError, match="nothing was said about what is left out"):
        bench.do_step(session, JOB, "weigh", skipped=" ")
    assert len(session.ledger.facts()) == 1


def test_dry_readings_and_weights_are_read_and_fitted_or_passed_over(session: Session, clock: Clock) -> None:
    run_to(session, clock, "done mark and cut")
    with pytest.raises(StepNotReady, match="nothing was read dry"):
        bench.do_step(session, JOB, "dry reading")
    with pytest.raises(StepNotReady, match="no weight is fitted by the record, and one is advised"):
        bench.do_step(session, JOB, "choose weight")
    bench.do_step(session, JOB, "choose weight", skipped="no weight is fitted")
    bench.note_reading(session, JOB, "swing_weight", "D1.3", stage="dry, gripped", instrument="swing scale")
    bench.do_step(session, JOB, "dry reading")
    assert {"dry reading", "choose weight"} <= set(session.job(JOB).steps_done)


def test_tape_is_weighed_before_it_is_laid(session: Session) -> None:
    found = document()
    del found["tape"][0]["mass"]
    bench.take_ticket(session, found, "t.toml")
    with pytest.raises(StepNotReady, match="the double-sided base was not weighed"):
        bench.do_step(session, JOB, "tape")
    bench.lay_tape(session, JOB, "double-sided base", "1", "1.6 g")
    bench.do_step(session, JOB, "tape")


def test_a_club_that_came_for_a_grip_is_read_first(session: Session) -> None:
    found: dict[str, Any] = tomllib.loads((ROOT / "examples" / "regrip.toml").read_text(encoding="utf-8"))
    number = found["ticket"]["id"]
    readings, found["reading"] = found["reading"], []
    bench.take_ticket(session, found, "regrip.toml")
    with pytest.raises(StepNotReady, match="the club as it came was not read"):
        bench.do_step(session, number, "weigh")
    with pytest.raises(StepNotReady, match="no grip is on"):
        bench.do_step(session, number, "grip")
    read = next(row for row in readings if row["quantity"] in ("total_weight", "swing_weight"))
    bench.note_reading(session, number, read["quantity"], read["value"], stage="as it came")
    bench.do_step(session, number, "weigh")


def test_a_record_from_before_keeps_what_it_says(session: Session) -> None:
    """Older versions wrote the step without looking: it stands as it was written."""
    take(session)
    old = [StepDone(job=JOB, step="pull"), StepDone(job=JOB, step="glue", note="by hand")]
    for number, what in enumerate(old):
        session.ledger.append("van", [what], by="Ann", at="2026-03-02T08:30:00.000Z", typed="done", key=f"old-{number}")
    job = session.job(JOB)
    assert job.steps_done == ("pull", "glue")
    assert job.steps_skipped == {}
    assert not next(gate for gate in answer_job(job, session.now()).gates if gate.step == "glue").open


def test_the_same_action_again_is_the_same_fact_whatever_became_of_the_job(session: Session, clock: Clock) -> None:
    run_to(session, clock, "hand")
    first = bench.do_step(session, JOB, "pull", key="k-1")
    bench.change_part(session, JOB, "head", {"hand": ""})
    assert bench.do_step(session, JOB, "pull", key="k-1") == first
    with pytest.raises(StepNotReady):
        bench.do_step(session, JOB, "pull", key="k-2")
