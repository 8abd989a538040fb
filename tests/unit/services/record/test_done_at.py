"""A fact says when it was done and when it was written: clocks run from the one, and a release is signed with both."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta, timezone

import msgspec
import pytest

from benchwork import JOB, Clock, gates, run_to, session_on, worked
from clubwright.errors import GateClosed, InputError
from clubwright.journal.facts import Glued, Undone
from clubwright.services.actions import bench
from clubwright.services.checks.job_ticket import ticket_of
from clubwright.services.jobs.clocks import cure_clock, pot_clock
from clubwright.services.jobs.closing import closing_points
from clubwright.services.record.done_at import read_done_at
from clubwright.services.record.session import Session, moment_of, utc_text
from clubwright.services.recording.merging import take_in
from clubwright.words.say import say
from forging import forged, record_at

pytestmark = [
    pytest.mark.usefixtures("played"),
    pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True),
]


def ago(session: Session, **span: float) -> str:
    return utc_text(session.now() - timedelta(**span))


@pytest.fixture
def to_glue(session: Session, clock: Clock) -> Session:
    """The gate of the glue is signed; the cup was mixed six minutes before that."""
    run_to(session, clock, "sign glue")
    return session


def test_pot_life_and_cure_run_from_when_it_was_done(session: Session, clock: Clock) -> None:
    run_to(session, clock, "read swing_weight D3.8 dry, gripped")
    clock.wait(minutes=30)
    mixed = ago(session, minutes=20)
    bench.mix_adhesive(session, JOB, "4.0 g", "2.0 g", "22 C", "lot 7", done_at=mixed)
    state = session.job(JOB)
    pot = pot_clock(state, ticket_of(state))
    assert pot is not None
    assert pot.since == mixed
    bench.sign_gate(session, JOB, "glue")
    clock.wait(minutes=3)
    closed = ago(session, minutes=2)
    fact = bench.glue(session, JOB, "22 C", done_at=closed)
    assert (fact.done_at, fact.at) == (closed, utc_text(session.now()))
    assert "done at 2026-03-02" in fact.typed
    state = session.job(JOB)
    cure = cure_clock(state, ticket_of(state))
    assert cure is not None
    assert cure.since == state.glued_at == closed
    assert state.trail[-1].when == closed


def test_a_joint_closed_within_the_pot_life_may_be_written_down_after_it(to_glue: Session, clock: Clock) -> None:
    closed = utc_text(clock.time + timedelta(minutes=1))
    clock.wait(hours=2)
    with pytest.raises(GateClosed, match="pot life"):
        bench.glue(to_glue, JOB, "22 C")
    bench.glue(to_glue, JOB, "22 C", done_at=closed)
    assert to_glue.job(JOB).glued_at == closed


def cured_by_word(session: Session, clock: Clock) -> str:
    """Close the joint hours before that is written down, so that it has cured by its own time and not by the written one."""
    closed = utc_text(clock.time + timedelta(minutes=1))
    clock.wait(hours=30)
    bench.glue(session, JOB, "22 C", done_at=closed)
    return closed


def test_a_release_that_rests_on_an_earlier_time_is_signed_with_it(to_glue: Session, clock: Clock) -> None:
    closed = cured_by_word(to_glue, clock)
    assert gates(to_glue)["release"] is True
    why = next(say(gate.why, None) for gate in worked(to_glue).gates if gate.step == "release")
    assert f"closed at {closed[:16].replace('T', ' ')} UTC" in why
    assert "by Ann" in why
    written = to_glue.job(JOB).glued
    assert written is not None
    for point in closing_points(to_glue.job(JOB), worked(to_glue)):
        bench.accept(to_glue, JOB, point.key, name="Ann", reason="only its joint is looked at here")
    fact = bench.sign_gate(msgspec.structs.replace(to_glue, by="Bo"), JOB, "release")
    said = {"done_at": closed, "written_at": written.at, "written_by": "Ann"}
    assert fact.what.shown["closed_at"] == said
    assert "joint closed at" in fact.typed
    assert "by Ann" in fact.typed
    bench.finish(to_glue, JOB)


def test_a_release_signed_without_that_time_does_not_count(to_glue: Session, clock: Clock) -> None:
    """As where it was signed for a joint whose time was put right since."""
    from clubwright.services.recording.recording import signature_reasons

    cured_by_word(to_glue, clock)
    for point in closing_points(to_glue.job(JOB), worked(to_glue)):
        bench.accept(to_glue, JOB, point.key, name="Ann", reason="only its joint is looked at here")
    bench.sign_gate(to_glue, JOB, "release")
    state = to_glue.job(JOB)
    assert signature_reasons(state, worked(to_glue), "release") == []
    other = msgspec.structs.replace(state.gates_signed["release"], shown={"answer": {}})
    signed = msgspec.structs.replace(state, gates_signed={**state.gates_signed, "release": other})
    (reason,) = signature_reasons(signed, worked(to_glue), "release")
    assert "not signed with the time" in reason


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("soon", "is no time"),
        ("25:00", "is no time"),
        ("2026-02-30 9:00", "is no time"),
        ("2026-03-02T99:00:00Z", "is no time"),
        ("23:59", "still to come"),
        ("2099-01-01 9:00", "still to come"),
        ("2026-03-02 8:01", "is before"),
        ("2001-01-01 9:00", "is before"),
    ],
)
def test_a_time_that_cannot_be_is_refused_with_a_mend(to_glue: Session, clock: Clock, text: str, says: str) -> None:
    clock.wait(minutes=30)
    count = to_glue.ledger.count()
    with pytest.raises(InputError, match=says) as refused:
        bench.glue(to_glue, JOB, "22 C", done_at=text)
    assert all(finding.mend for finding in refused.value.findings)
    assert to_glue.ledger.count() == count


def test_work_comes_after_what_was_read_and_a_reading_after_the_work(session: Session, clock: Clock) -> None:
    run_to(session, clock, "read total_weight 465.4 g dry, gripped")
    clock.wait(minutes=30)
    since_reading, since_cut = ago(session, minutes=33), ago(session, hours=1)
    with pytest.raises(InputError, match=r'is before "total_weight 465\.4 g"'):
        bench.bend_head(session, JOB, lie="63.5 deg", done_at=since_reading)
    with pytest.raises(InputError, match=r'is before "cut to 34\.01 in"'):
        bench.note_reading(session, JOB, "swing_weight", "D1.3", stage="dry, gripped", done_at=since_cut)
    fact = bench.note_reading(session, JOB, "swing_weight", "D1.3", stage="dry, gripped", done_at=since_reading)
    assert fact.done_at == since_reading, "two readings may come in either order"
    with pytest.raises(InputError, match="is before"):
        bench.cut_shaft(session, JOB, "33.9 in", done_at=ago(session, hours=1, minutes=20))


def test_a_time_is_read_by_the_benchs_own_clock(session: Session, clock: Clock) -> None:
    clock.time = datetime(2026, 3, 2, 8, 0, tzinfo=UTC)
    east = msgspec.structs.replace(session, local=lambda moment: moment.astimezone(timezone(timedelta(hours=2))))
    assert read_done_at(east, "9:40") == "2026-03-02T07:40:00.000Z"
    assert read_done_at(east, "2026-03-01 23:05") == "2026-03-01T21:05:00.000Z"
    assert read_done_at(east, "2026-03-02T07:40:00Z") == "2026-03-02T07:40:00.000Z"
    assert read_done_at(east, " ") is msgspec.UNSET
    with pytest.raises(InputError, match="still to come"):
        read_done_at(east, "10:01")


def test_an_undone_joint_takes_its_time_with_it(to_glue: Session, clock: Clock) -> None:
    cured_by_word(to_glue, clock)
    bench.undo(to_glue, JOB)
    state = to_glue.job(JOB)
    assert (state.glued_at, state.glued, state.closed_earlier) == (None, None, False)
    assert isinstance(to_glue.ledger.facts()[-1].what, Undone)
    assert "done_at" not in msgspec.to_builtins(Glued(job=JOB, temperature="22 C")), "hashes of older facts stay"


def test_a_forged_time_is_refused_by_a_merge(
    to_glue: Session, clock: Clock, tmp_path_factory: pytest.TempPathFactory
) -> None:
    van = to_glue.ledger.facts()
    folder = tmp_path_factory.mktemp("shop")
    with record_at(folder) as ledger:
        shop = session_on(ledger, clock, site="shop")
        last = moment_of(van[-1].at)
        for done, says in (
            ("yesterday", "is no time"),
            (utc_text(last + timedelta(days=1)), "written before that"),
            (utc_text(last - timedelta(days=300)), "is before"),
        ):
            with pytest.raises(InputError, match=says):
                take_in(shop, [*van, forged(van, Glued(job=JOB, temperature="22 C", done_at=done))])
        fine = forged(
            van, Glued(job=JOB, temperature="22 C", done_at=van[-1].at), at=utc_text(last + timedelta(hours=1))
        )
        assert take_in(shop, [*van, fine]).new == len(van) + 1
