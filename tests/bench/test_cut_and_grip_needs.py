"""A cut far short of its mark is asked about, and a grip goes on when its time has come: by every door."""

from __future__ import annotations

import tomllib

import pytest

from benchwork import JOB, Clock, run_to
from clubwright.errors import InputError, StepNotReady
from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from repository import ROOT

pytestmark = [pytest.mark.usefixtures("played"), pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)]


def test_a_cut_far_short_of_the_mark_is_kept_only_when_it_is_meant(session: Session, clock: Clock) -> None:
    run_to(session, clock, "sign cut")
    with pytest.raises(InputError, match="short of the mark") as refused:
        bench.cut_shaft(session, JOB, "30 in")
    assert "Measure again" in refused.value.findings[0].mend and "--short" in refused.value.findings[0].mend
    assert "cut_length" not in session.job(JOB).document["shaft"]
    bench.cut_shaft(session, JOB, "30 in", short=True)
    assert session.job(JOB).document["shaft"]["cut_length"] == "30 in"


@pytest.mark.parametrize("length", ["33.80 in", "34.02 in"])
def test_a_cut_near_its_mark_is_not_asked_about(session: Session, clock: Clock, length: str) -> None:
    run_to(session, clock, "sign cut")
    bench.cut_shaft(session, JOB, length)


def test_no_grip_goes_on_a_build_on_which_nothing_was_done(session: Session, clock: Clock) -> None:
    run_to(session, clock, "take")
    with pytest.raises(StepNotReady, match="not glued yet") as refused:
        bench.slide_grip(session, JOB)
    assert all(finding.mend for finding in refused.value.findings)
    assert not session.job(JOB).gripped


def test_no_grip_goes_on_before_the_joint_is_released_by_its_table(session: Session, clock: Clock) -> None:
    run_to(session, clock, "glue")
    clock.wait(hours=0.5)
    with pytest.raises(StepNotReady, match="not cured yet"):
        bench.slide_grip(session, JOB)
    clock.wait(hours=15)
    bench.slide_grip(session, JOB)
    assert session.job(JOB).gripped


def test_in_a_regrip_the_old_grip_is_off_first(session: Session) -> None:
    found = tomllib.loads((ROOT / "examples" / "regrip.toml").read_text(encoding="utf-8"))
    job = found["ticket"]["id"]
    bench.take_ticket(session, found, "regrip.toml")
    with pytest.raises(StepNotReady, match="the old grip is not off"):
        bench.slide_grip(session, job)
    bench.do_step(session, job, "strip grip")
    bench.slide_grip(session, job)
    assert session.job(job).gripped
