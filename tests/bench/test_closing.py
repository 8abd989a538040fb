"""A job is released and closed only when all that was ordered is read and within, or accepted by name as it stands."""

from __future__ import annotations

import msgspec
import pytest

from benchwork import JOB, Clock, run_to, worked
from closingwork import BEND, GRIP, WEIGHT, accept_all, points, take
from clubwright.errors import ClubwrightError, GateClosed, InputError, NotAllowed, RecordError
from clubwright.labels.sheet.from_work import sheet_data
from clubwright.services.actions import bench
from clubwright.services.answer.inspection import inspect
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session
from clubwright.services.report.as_built import as_built_record, as_built_rows
from clubwright.services.report.reading_states import reading_states
from clubwright.web.views.record_views import record_view

pytestmark = [pytest.mark.usefixtures("played"), pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)]


@pytest.mark.parametrize("document", [BEND, GRIP, WEIGHT], ids=["loft-lie", "regrip", "weight"])
def test_no_job_is_closed_unread(session: Session, document: dict[str, object]):
    job = take(session, document)
    with pytest.raises(GateClosed) as refused:
        bench.finish(session, job)
    for key in document["target"]:  # type: ignore[attr-defined]
        assert any(f"{points(session, job)[key].name}: not read, ordered" in reason for reason in refused.value.reasons)
    assert "read it on the finished club" in str(refused.value)
    assert f"clubwright accept {job}" in str(refused.value)
    assert session.job(job).finished is None
    accept_all(session, job)
    bench.finish(session, job)
    closed = session.job(job).finished
    assert closed is not None
    kept = closed.shown["accepted"]
    assert [item["quantity"] for item in kept] == list(points(session, job))
    assert {(item["verdict"], item["accepted_by"], item["reason"]) for item in kept} == {
        ("not read", "R. Ashdown", "plays it as it is")
    }


def test_what_is_within_closes_and_what_is_outside_does_not(session: Session):
    job = take(session, BEND)
    bench.note_reading(session, job, "loft", "34 deg")
    bench.note_reading(session, job, "lie", "63.5 deg")
    found = points(session, job)
    assert (found["loft"].verdict, found["loft"].open) == ("within", False)
    assert (found["lie"].verdict, found["lie"].open) == ("outside", True)
    with pytest.raises(GateClosed) as refused:
        bench.finish(session, job)
    assert len(refused.value.reasons) == 2, "the lie, and how to accept; nothing of the loft"
    assert (
        "out of spec, ordered 62 deg ± 1 deg, read 63.5 deg; mend the club and read it again"
        in refused.value.reasons[0]
    )
    bench.bend_head(session, job, lie="62 deg")
    bench.note_reading(session, job, "lie", "62 deg")
    bench.finish(session, job)


def test_cannot_tell_counts_as_open(session: Session):
    job = take(session, BEND)
    bench.note_reading(session, job, "loft", "34 deg")
    bench.note_reading(session, job, "lie", "63 deg")
    assert points(session, job)["lie"].verdict == "cannot tell"
    with pytest.raises(GateClosed, match="lie: cannot tell"):
        bench.finish(session, job)
    accept_all(session, job)
    bench.finish(session, job)


def test_an_acceptance_holds_for_what_was_shown_and_lapses_visibly(session: Session):
    job = take(session, BEND)
    bench.note_reading(session, job, "loft", "34 deg")
    first = bench.note_reading(session, job, "lie", "63.5 deg")
    bench.accept(session, job, "lie", name="R. Ashdown", reason="likes it upright")
    assert points(session, job)["lie"].accepted is not None
    again = bench.note_reading(session, job, "lie", "63.5 deg")
    lapsed = points(session, job)["lie"]
    assert lapsed.accepted is None, "a new reading, though of the same value, was never shown to who accepted"
    assert lapsed.lapsed is not None
    with pytest.raises(GateClosed, match=r"what R\. Ashdown accepted was 63\.5 deg, and no longer holds"):
        bench.finish(session, job)
    bench.undo(session, job, again.sequence)
    assert points(session, job)["lie"].accepted is not None, "it stands again as it was shown"
    bench.bend_head(session, job, lie="63 deg")
    assert points(session, job)["lie"].verdict == "not read"
    assert not points(session, job)["lie"].accepted
    bench.undo(session, job)
    bench.change_order(session, job, {"target.lie": "61 deg"}, said_by="R. Ashdown", reason="stands flatter")
    assert not points(session, job)["lie"].accepted, "another order was not what was accepted"
    bench.undo(session, job)
    assert points(session, job)["lie"].accepted
    bench.decide_reading(session, job, first.sequence, keep=False, reason="gauge was loose")
    assert not points(session, job)["lie"].accepted


def test_an_acceptance_unread_lapses_when_the_club_is_changed(session: Session):
    job = take(session, WEIGHT)
    accept_all(session, job)
    bench.change_part(session, job, "ticket", {"promised": "Fri 12:00"})
    assert points(session, job)["swing_weight"].accepted, "a promise is no part of the club"
    bench.fit_weights(session, job, ["lead 8"])
    assert points(session, job)["swing_weight"].lapsed
    bench.undo(session, job)
    assert points(session, job)["swing_weight"].accepted


def test_a_reading_with_other_weights_on_proves_nothing(session: Session):
    job = take(session, WEIGHT)
    believed = points(session, job)["swing_weight"].believed.partition(" ")[0]
    bench.change_order(session, job, {"target.swing_weight": believed}, said_by="R. Ashdown", reason="as it is")
    bench.note_reading(session, job, "swing_weight", believed)
    bench.note_reading(session, job, "length", "37 in")
    assert points(session, job)["swing_weight"].verdict == "within"
    bench.fit_weights(session, job, ["lead 8"])
    found = points(session, job)
    assert found["swing_weight"].verdict == "cannot tell"
    assert "with the weights that are on now" in found["swing_weight"].mend
    assert found["length"].verdict == "within", "the length does not feel a weight in the head"
    with pytest.raises(GateClosed, match="swing weight: cannot tell"):
        bench.finish(session, job)


def test_released_is_refused_while_a_target_is_open(session: Session, clock: Clock):
    run_to(session, clock, "bend")
    with pytest.raises(GateClosed, match="swing weight: not read") as refused:
        bench.sign_gate(session, JOB, "release")
    assert len(refused.value.reasons) == 7, "six targets and how to accept"
    accept_all(session)
    signed = bench.sign_gate(session, JOB, "release")
    assert {item["accepted_by"] for item in session.job(JOB).gates_signed["release"].shown["accepted"]} == {
        "R. Ashdown"
    }
    bench.note_reading(session, JOB, "swing_weight", "D8", instrument="swing scale")
    with pytest.raises(GateClosed, match="swing weight: cannot tell"):
        bench.finish(session, JOB)
    bench.undo(session, JOB)
    bench.finish(session, JOB)
    assert session.job(JOB).gates_signed["release"].sequence == signed.sequence


def test_all_reasons_come_at_once(session: Session, clock: Clock):
    run_to(session, clock, "glue")
    for action in (lambda: bench.sign_gate(session, JOB, "release"), lambda: bench.finish(session, JOB)):
        with pytest.raises(GateClosed) as refused:
            action()
        assert "not cured yet" in str(refused.value)
        assert "length: not read" in str(refused.value)


def test_what_may_not_be_accepted(session: Session):
    job = take(session, BEND)
    bench.note_reading(session, job, "loft", "34 deg")
    bench.note_reading(session, job, "lie", "63.5 deg")

    def refused(
        kind: type[ClubwrightError], quantity: str, name: str = "R. Ashdown", reason: str = "so", **more: str
    ) -> str:
        count = session.ledger.count()
        with pytest.raises(kind) as found:
            bench.accept(session, job, quantity, name=name, reason=reason, **more)
        assert session.ledger.count() == count
        return str(found.value)

    told = refused(InputError, "lies", " ", "")
    assert 'no target of this job. Did you mean "lie"' in told
    assert "who accepts it: nobody is named" in told
    assert "why it is accepted: nothing was typed" in told
    assert "in spec (34 deg): there is nothing to accept" in refused(RecordError, "loft")
    assert "no target" in refused(InputError, "swing_weight")
    assert "stands otherwise now (out of spec" in refused(RecordError, "lie", shown="0123456789ab")
    bench.accept(session, job, "lie", name="R. Ashdown", reason="so", shown=points(session, job)["lie"].mark)
    assert "accepted already, by R. Ashdown" in refused(RecordError, "lie", "A. Vane", "so too")
    bench.finish(session, job)


def test_a_closed_job_takes_no_acceptance_and_loses_none(session: Session):
    job = take(session, BEND)
    accept_all(session, job)
    line = session.job(job).last_standing_line()
    bench.finish(session, job)
    with pytest.raises(RecordError, match="is finished"):
        bench.undo(session, job, line.sequence)


def test_accepting_is_signing(session: Session):
    job = take(session, BEND)
    wil = msgspec.structs.replace(session, by="Wil", role="work")
    with pytest.raises(NotAllowed):
        bench.accept(wil, job, "lie", name="Wil", reason="fine")
    fact = bench.accept(session, job, "lie", name="R. Ashdown", reason="fine")
    with pytest.raises(NotAllowed):
        bench.undo(wil, job, fact.sequence)


def test_an_acceptance_sent_twice_is_kept_once(session: Session):
    job = take(session, BEND)
    first = bench.accept(session, job, "lie", name="R. Ashdown", reason="fine", key="k-1")
    assert bench.accept(session, job, "lie", name="R. Ashdown", reason="fine", key="k-1") == first


def test_a_reading_without_its_parts_is_kept_until_it_counts(session: Session):
    job = take(session, GRIP)
    bench.do_step(session, job, "strip grip")
    bench.slide_grip(session, job)
    bench.note_reading(session, job, "grip_diameter_2in", "0.916 in")
    state = session.job(job)
    now = answer_job(state, session.now())
    assert [item.state for item in reading_states(now).values()] == ["not used"]
    point = points(session, job)["grip_diameter_2in"]
    assert (point.verdict, point.read) == ("not used", ("0.916 in",))
    assert "[grip] core and" in point.mend
    assert "[shaft] butt_diameter" in point.mend
    [row] = as_built_rows(now, state)
    assert (row.read, row.verdict) == ("0.916 in", "")
    assert "core" in row.unused
    [shown] = record_view(state, now, ()).readings
    assert (shown.value, shown.counts) == ("0.916 in", False)
    assert "kept, not used: it needs" in shown.state
    assert sheet_data(now, state, "2026-03-02").readings == (
        "grip diameter at 2 in 0.916 in, finished (not used); Ann, 2026-03-02 08:00 UTC",
    )
    with pytest.raises(GateClosed, match="not used"):
        bench.finish(session, job)
    bench.change_part(session, job, "grip", {"core": "60"})
    bench.change_part(session, job, "shaft", {"butt_diameter": "0.600 in"})
    after = answer_job(session.job(job), session.now())
    assert [item.counts for item in reading_states(after).values()] == [True]
    assert set(inspect(after.club_state)) == {"grip_diameter_2in"}
    assert points(session, job)["grip_diameter_2in"].verdict == "within"
    bench.finish(session, job)


def test_what_nobody_can_read_is_named_and_accepted(session: Session):
    document = {**WEIGHT, "target": {"frequency": "320 cpm"}, "tolerance": {}}
    job = take(session, document)
    with pytest.raises(GateClosed, match=r"frequency: not read.*needs .*stiffness"):
        bench.finish(session, job)
    bench.accept(session, job, "frequency", name="A. Vane", reason="no meter here")
    bench.finish(session, job)
    assert (
        as_built_record(session.job(job), answer_job(session.job(job), session.now()))["rows"][0]["accepted_by"]
        == "A. Vane"
    )


def test_a_job_that_orders_nothing_closes(session: Session):
    document = {name: content for name, content in BEND.items() if name not in ("target", "tolerance")}
    job = take(session, document)
    bench.finish(session, job)


def test_the_wedge_that_was_read_needs_no_acceptance(session: Session, clock: Clock):
    run_to(session, clock, "done tag")
    closed = session.job(JOB).finished
    assert closed is not None
    assert closed.shown["accepted"] == []
    assert [row.accepted_by for row in as_built_rows(worked(session), session.job(JOB))] == [""] * 6
