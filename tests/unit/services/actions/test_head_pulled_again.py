"""A head pulled again opens its joint: nothing glued, mixed or signed of it stays, and the cut does."""

from __future__ import annotations

from typing import Any

import pytest

from benchwork import JOB, Clock, gates, run_to, worked
from clubwright.errors import GateClosed, InputError, RecordError
from clubwright.services.actions import bench
from clubwright.services.actions.making.pulling import pull_cautions
from clubwright.services.jobs.signatures import void_signatures
from clubwright.services.record.session import Session

pytestmark = [pytest.mark.usefixtures("played"), pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)]

ANOTHER: dict[str, Any] = {"another": True, "said_by": "Ann", "reason": "it rattled"}


def pull(session: Session) -> None:
    bench.pull_head(session, JOB, said_by="A. Example", reason="it rattles", heat=True)


def test_the_joint_is_open_and_its_steps_are_to_do_again(session: Session, clock: Clock) -> None:
    run_to(session, clock, "sign release")
    before = session.job(JOB)
    pull(session)
    job = session.job(JOB)
    assert (job.glued_at, job.glued, job.mixes) == (None, None, ())
    assert not {"mix", "glue", "cure"} & set(job.steps_done)
    assert "mark and cut" in job.steps_done
    assert set(job.gates_signed) == {"cut"}
    assert {item.gate: item.short for item in void_signatures(job, worked(session))} == {
        "glue": "the head was pulled again",
        "release": "the head was pulled again",
    }
    assert not gates(session)["release"]
    assert "it rattles" in job.trail[-1].text
    with pytest.raises(GateClosed):
        bench.glue(session, JOB, "22 C")
    bench.undo(session, JOB)
    after = session.job(JOB)
    assert (after.document, after.glued_at, after.gates_signed) == (
        before.document,
        before.glued_at,
        before.gates_signed,
    )


def test_what_was_read_of_the_club_goes_on_counting_with_the_joint_as_it_was(session: Session, clock: Clock) -> None:
    run_to(session, clock, "sign release")
    sd = worked(session).club_state.belief.sd_of("head.mass_kg")
    pull(session)
    assert all("before" in row for row in session.job(JOB).document["reading"])
    assert worked(session).club_state.belief.sd_of("head.mass_kg") <= sd * 1.05


def test_another_head_goes_into_a_joint_only_once_it_is_open(session: Session, clock: Clock) -> None:
    run_to(session, clock, "glue")
    with pytest.raises(InputError, match="pull-again"):
        bench.change_part(session, JOB, "head", {"mass": "297 g"}, **ANOTHER)
    pull(session)
    bench.change_part(session, JOB, "head", {"mass": "297 g"}, **ANOTHER)


def test_it_asks_who_and_why_and_for_a_joint(session: Session, clock: Clock) -> None:
    run_to(session, clock, "mix")
    with pytest.raises(RecordError, match="is open"):
        pull(session)
    run = session.ledger.count()
    with pytest.raises(InputError, match=r"(?s)nobody is named.*nothing was typed"):
        bench.pull_head(session, JOB, said_by="", reason=" ", heat=False)
    assert session.ledger.count() == run
    assert any("weakened the tip" in text for text in pull_cautions(session.job(JOB)))
