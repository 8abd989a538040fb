"""What came after the joint was closed: told by the trail, so that a clock that is set back makes no old cup a new one."""

from __future__ import annotations

import pytest

from benchwork import JOB, Clock, run_to
from clubwright.errors import GateClosed
from clubwright.services.actions import bench
from clubwright.services.jobs.clocks import pot_clock
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.jobs.mixed_batch import cup_findings
from clubwright.services.record.session import Session
from clubwright.services.recording.recording import signature_reasons
from clubwright.services.report.done_work import used_mix

pytestmark = [pytest.mark.usefixtures("played"), pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)]
BACK = -24.0
"""Hours by which the clock is set back, as it is when its day was wrong."""


def test_a_cup_is_used_up_by_its_joint_also_when_the_clock_was_set_back_in_between(
    session: Session, clock: Clock
) -> None:
    run_to(session, clock, "mix")
    clock.wait(hours=BACK)
    bench.sign_gate(session, JOB, "glue")
    bench.glue(session, JOB, "22 C")
    with pytest.raises(GateClosed, match="used up by the head that was glued before"):
        bench.glue(session, JOB, "22 C")
    job = session.job(JOB)
    ticket = answer_job(job, clock()).club_state.ticket
    assert pot_clock(job, ticket) is None
    clock.wait(hours=30)
    assert cup_findings(job, ticket, clock()) == (), "a cup that is empty has no pot life left to run out"
    assert used_mix(job) == job.mixes[0]


def test_a_new_cup_is_a_new_one_also_when_the_clock_was_set_back(session: Session, clock: Clock) -> None:
    run_to(session, clock, "glue")
    first = session.job(JOB).mixes[0]
    clock.wait(hours=BACK)
    bench.mix_adhesive(session, JOB, "4.0 g", "2.0 g", "22 C", "lot 8")
    job = session.job(JOB)
    ticket = answer_job(job, clock()).club_state.ticket
    assert pot_clock(job, ticket) is not None
    assert used_mix(job) == first, "the new cup is not what the joint was closed with"
    clock.wait(hours=2)
    assert any("pot life" in finding.what for finding in cup_findings(job, ticket, clock()))
    clock.wait(hours=-2)
    bench.glue(session, JOB, "22 C")
    assert used_mix(session.job(JOB)) == job.mixes[1]


def test_a_release_that_was_signed_for_the_joint_before_is_signed_again(session: Session, clock: Clock) -> None:
    run_to(session, clock, "sign release")
    job = session.job(JOB)
    assert signature_reasons(job, answer_job(job, clock()), "release") == []
    clock.wait(hours=BACK)
    bench.mix_adhesive(session, JOB, "4.0 g", "2.0 g", "22 C", "lot 8")
    bench.glue(session, JOB, "22 C")
    job = session.job(JOB)
    assert "glued again" in signature_reasons(job, answer_job(job, clock()), "release")[0]
