"""What is kept, how often, and by whom: keys sent twice, undos, two benches on one record, and the cup."""

from __future__ import annotations

import threading
from collections.abc import Callable
from datetime import timedelta

import msgspec
import pytest

from benchwork import JOB, Clock, document, gates, run_to, session_on, state_bytes, worked
from clubwright.errors import ClubwrightError, GateClosed, InputError, RecordError
from clubwright.journal.facts import Fact, StepDone, TicketTaken, Undone
from clubwright.services.actions import bench
from clubwright.services.record.ledger import ConflictError, LedgerPort, Readable
from clubwright.services.record.session import Session
from clubwright.services.recording.recording import TRIES
from clubwright.words.say import say

ON_SQLITE = pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)
pytestmark = pytest.mark.usefixtures("played")

Send = Callable[[Session, str], Fact]

SENT: dict[str, tuple[str, Send, Send]] = {
    "measure": (
        "hand",
        lambda d, k: bench.change_part(d, JOB, "head", {"mass": "296.5 g"}, k),
        lambda d, k: bench.change_part(d, JOB, "head", {"mass": "296.6 g"}, k),
    ),
    "read": (
        "cut",
        lambda d, k: bench.note_reading(d, JOB, "swing_weight", "D1.3", stage="dry, gripped", key=k),
        lambda d, k: bench.note_reading(d, JOB, "swing_weight", "D1.3", stage="finished", key=k),
    ),
    "fit": (
        "cut",
        lambda d, k: bench.fit_weights(d, JOB, ["port 6"], k),
        lambda d, k: bench.fit_weights(d, JOB, ["port 5"], k),
    ),
    "cut": (
        "sign cut",
        lambda d, k: bench.cut_shaft(d, JOB, "34.01 in", k),
        lambda d, k: bench.cut_shaft(d, JOB, "34.02 in", k),
    ),
    "sign": (
        "sign glue",
        lambda d, k: bench.sign_gate(d, JOB, "cut", k),
        lambda d, k: bench.sign_gate(d, JOB, "glue", k),
    ),
    "undo": ("hand", lambda d, k: bench.undo(d, JOB, key=k), lambda d, k: bench.undo(d, JOB, reason="other", key=k)),
    "finish": (
        "sign release",
        lambda d, k: bench.finish(d, JOB, k),
        lambda d, k: bench.do_step(d, JOB, "tag", key=k),
    ),
}


@ON_SQLITE
@pytest.mark.parametrize("case", SENT)
def test_an_action_sent_twice_is_kept_once(session: Session, clock: Clock, case: str):
    start, send, other = SENT[case]
    run_to(session, clock, start)
    if case == "undo":  # so that something is left for an undo that looks anew
        bench.do_step(session, JOB, "pull")
    first = send(session, "page-1")
    count = len(session.ledger.facts())
    clock.wait(minutes=1)
    assert send(session, "page-1") == first
    assert len(session.ledger.facts()) == count
    with pytest.raises(RecordError, match=r'the key "page-1" was used before'):
        other(session, "page-1")
    assert len(session.ledger.facts()) == count


@ON_SQLITE
def test_a_ticket_sent_twice_is_kept_once(session: Session):
    first = bench.take_ticket(session, document(), "t.toml", "page-1")
    assert bench.take_ticket(session, document(), "t.toml", "page-1") == first
    with pytest.raises(RecordError, match="already in the record"):
        bench.take_ticket(session, document(), "t.toml", "page-2")
    assert len(session.ledger.facts()) == 1


@ON_SQLITE
def test_a_ticket_taken_by_mistake_can_be_undone_and_taken_again(session: Session):
    bench.take_ticket(session, document(), "t.toml")
    bench.undo(session, JOB, 1, "wrong file")
    assert JOB not in session.shop().jobs
    with pytest.raises(RecordError, match="no ticket"):
        session.job(JOB)
    bench.take_ticket(session, document(), "t.toml")
    assert session.job(JOB).id == JOB


@ON_SQLITE
def test_an_undo_is_done_once(session: Session, clock: Clock):
    run_to(session, clock, "done weigh")
    before = state_bytes(session)
    undo = bench.undo(session, JOB, 3)
    with pytest.raises(RecordError, match=f"undone already, by fact {undo.sequence}: to bring it back, undo that one"):
        bench.undo(session, JOB, 3)
    last = Undone(job=JOB, subject=("van", 1), fact=4, reason="", site="van", whole=True)
    assert bench.undo(session, JOB).what == last, "the last that stands"
    bench.undo(session, JOB, undo.sequence + 1)
    bench.undo(session, JOB, undo.sequence)
    assert state_bytes(session) == before


@ON_SQLITE
def test_facts_of_another_job_cannot_be_undone_or_decided(session: Session, clock: Clock):
    run_to(session, clock, "read swing_weight D1.3 dry, gripped")
    other = document()
    other["ticket"]["id"] = "T-0055"
    bench.take_ticket(session, other, "other.toml")
    count = len(session.ledger.facts())
    reading = count - 1
    with pytest.raises(RecordError, match=f"job T-0055 has no earlier fact {reading}"):
        bench.undo(session, "T-0055", reading)
    with pytest.raises(RecordError, match=f"job T-0055 has no earlier fact {reading}"):
        bench.decide_reading(session, "T-0055", reading, keep=False, reason="")
    assert len(session.ledger.facts()) == count


class Between(msgspec.Struct, frozen=True):
    """A record into which another hand at the same bench writes once, between the look and the write."""

    ledger: LedgerPort
    write: list[Callable[[], object]]

    def facts(self, *args: object) -> list[Fact]:
        found = self.ledger.facts(*args)
        if self.write:
            self.write.pop()()
        return found

    def readable(self, *args: object, **more: object) -> Readable:
        return self.ledger.readable(*args, **more)

    def action(self, key: str) -> list[Fact]:
        return self.ledger.action(key)

    def last(self, site: str) -> int:
        return self.ledger.last(site)

    def append(self, *args: object, **more: object) -> list[Fact]:
        return self.ledger.append(*args, **more)


@ON_SQLITE
def test_two_hands_at_one_bench_undo_a_fact_once(session: Session, clock: Clock):
    """The second undo was decided on a record that has moved on: it is looked at again, and refused."""
    run_to(session, clock, "done weigh")
    slow = msgspec.structs.replace(session, ledger=Between(session.ledger, [lambda: bench.undo(session, JOB, 4)]))
    with pytest.raises(RecordError, match="undone already"):
        bench.undo(slow, JOB, 4)
    assert "done: weigh" in [line.text for line in session.job(JOB).trail if line.undone]


@ON_SQLITE
def test_another_hand_in_between_does_no_harm_where_both_can_be(session: Session, clock: Clock):
    run_to(session, clock, "done weigh")
    slow = msgspec.structs.replace(
        session, ledger=Between(session.ledger, [lambda: bench.change_part(session, JOB, "head", {"mass": "296.5 g"})])
    )
    bench.do_step(slow, JOB, "ferrule")
    job = session.job(JOB)
    assert job.document["head"]["mass"] == "296.5 g"
    assert "ferrule" in job.steps_done


@ON_SQLITE
def test_a_cut_is_refused_when_the_signature_goes_in_between(session: Session, clock: Clock):
    run_to(session, clock, "sign cut")
    slow = msgspec.structs.replace(session, ledger=Between(session.ledger, [lambda: bench.undo(session, JOB)]))
    with pytest.raises(GateClosed, match="nobody has signed"):
        bench.cut_shaft(slow, JOB, "34.01 in")
    assert "cut_length" not in session.job(JOB).document["shaft"]


@ON_SQLITE
def test_a_bench_that_never_gets_its_turn_says_so(session: Session, clock: Clock):
    run_to(session, clock, "done weigh")
    busy = [lambda: bench.do_step(session, JOB, "pull") for _ in range(TRIES + 1)]
    slow = msgspec.structs.replace(session, ledger=Between(session.ledger, busy))
    with pytest.raises(ConflictError, match="has moved on"):
        bench.do_step(slow, JOB, "ferrule")


def test_two_benches_share_one_record(session: Session, clock: Clock):
    """Each site numbers its own facts; both see the same job, whichever engine keeps it."""
    tent = session_on(session.ledger, clock, site="tent", by="Bo")
    run_to(session, clock, "cut")
    errors: list[BaseException] = []

    def steps(who: Session, names: tuple[str, ...]) -> None:
        try:
            for name in names:
                bench.do_step(who, JOB, name)
        except ClubwrightError as error:
            errors.append(error)

    clock.wait(minutes=1)
    work = ((session, ("ferrule", "dry fit", "tape")), (tent, ("tip prep", "head check", "bore to ground")))
    hands = [threading.Thread(target=steps, args=args) for args in work]
    for hand in hands:
        hand.start()
    for hand in hands:
        hand.join()
    assert not errors
    assert [fact.sequence for fact in session.ledger.facts() if fact.site == "tent"] == [1, 2, 3]
    assert {"ferrule", "dry fit", "tape", "tip prep", "head check", "bore to ground"} <= set(
        session.job(JOB).steps_done
    )
    assert state_bytes(session) == state_bytes(tent)
    assert session.ledger.verify() == ()
    last = [fact for fact in session.ledger.facts() if fact.site == "tent"][-1]
    assert isinstance(last.what, StepDone)
    clock.wait(minutes=1)
    bench.undo(session, JOB, last.sequence, "not yet", site="tent")
    assert last.what.step not in session.job(JOB).steps_done


@ON_SQLITE
def test_the_last_fact_is_undone_whichever_bench_wrote_it(session: Session, clock: Clock):
    tent = session_on(session.ledger, clock, site="tent", by="Bo")
    run_to(session, clock, "cut")
    clock.wait(minutes=1)
    bench.do_step(tent, JOB, "ferrule")
    clock.wait(minutes=1)
    bench.undo(session, JOB)
    assert "ferrule" not in session.job(JOB).steps_done
    assert session.job(JOB).document["shaft"]["cut_length"] == "34.01 in"


@ON_SQLITE
def test_one_number_taken_at_two_benches_stops_neither_the_others_nor_the_mending(session: Session, clock: Clock):
    tent = session_on(session.ledger, clock, site="tent", by="Bo")
    run_to(session, clock, "hand")
    clock.wait(minutes=1)
    other = document()
    other["ticket"]["id"] = "T-0055"
    other["head"]["hand"] = "right"
    bench.take_ticket(session, other, "other.toml")
    # as when two records are brought together: neither bench knew of the other's ticket
    taken = TicketTaken(job=JOB, document=document(), source="theirs.toml")
    session.ledger.append("tent", [taken], by="Bo", at="2026-03-02T09:00:00.000Z", typed="ticket", key="theirs")
    with pytest.raises(RecordError, match=f"write {JOB}@van .* or {JOB}@tent"):
        session.job(JOB)
    assert set(session.shop().jobs) == {f"{JOB}@van", f"{JOB}@tent", "T-0055"}
    bench.do_step(session, "T-0055", "pull")
    assert session.job("T-0055").steps_done == ("pull",)
    bench.undo(tent, JOB, 1, "the van has it")
    assert session.job(JOB).source == "wedge-54.toml"


@ON_SQLITE
def test_weights_fitted_after_the_last_reading_are_those_on_now(session: Session, clock: Clock):
    run_to(session, clock, "read total_weight 465.4 g dry, gripped")
    bare = worked(session).answer()["finished"]["total_weight"]["mean"]
    bench.fit_weights(session, JOB, ["port 4"])
    now = worked(session).answer()["finished"]["total_weight"]["mean"]
    assert now - bare == pytest.approx(0.00403, abs=0.00005)
    bench.fit_weights(session, JOB, [])
    assert worked(session).answer()["finished"]["total_weight"]["mean"] == pytest.approx(bare)


@ON_SQLITE
def test_readings_from_before_the_cut_are_of_another_club(session: Session, clock: Clock):
    run_to(session, clock, "sign cut")
    bench.note_reading(session, JOB, "total_weight", "476.2 g", stage="dry, gripped", weights=[])
    assert len(worked(session).club_state.learned.judged) == 1
    clock.wait(minutes=1)
    bench.cut_shaft(session, JOB, "34.01 in")
    (judged,) = worked(session).club_state.learned.judged
    assert judged.taken, "it is what the club weighed with its shaft uncut"
    assert worked(session).club_state.present == ()


@ON_SQLITE
def test_a_butt_trimmed_too_far_closes_the_cut(session: Session, clock: Clock):
    """2.99 in are to come off the butt of this shaft: 2 in leave enough, another inch does not."""
    run_to(session, clock, "sign cut")
    bench.trim_shaft(session, JOB, "butt", "2 in")
    assert gates(session)["cut"]
    bench.trim_shaft(session, JOB, "butt", "1 in")
    assert not gates(session)["cut"]
    with pytest.raises(GateClosed, match=r"is off the butt already, which leaves the shaft .* too short"):
        bench.cut_shaft(session, JOB, "34.01 in")


@ON_SQLITE
def test_a_shaft_does_not_grow(session: Session, clock: Clock):
    run_to(session, clock, "cut")
    with pytest.raises(InputError, match=r"it was cut to 34\.01 in before\. Measure again"):
        bench.cut_shaft(session, JOB, "34.5 in")
    bench.cut_shaft(session, JOB, "34.02 in")
    bench.cut_shaft(session, JOB, "33.9 in")
    assert session.job(JOB).document["shaft"]["cut_length"] == "33.9 in"


@ON_SQLITE
def test_the_screen_shows_the_gate_that_the_action_meets(session: Session, clock: Clock):
    """What was not done closes a gate where it is shown, not only where it is asked for."""
    run_to(session, clock, "sign glue")
    assert gates(session)["glue"]
    bench.undo(session, JOB, 3)
    glue = next(gate for gate in worked(session).gates if gate.step == "glue")
    assert not glue.open
    assert say(glue.why, None).startswith("nobody has laid out and checked the parts")


@ON_SQLITE
def test_a_cup_off_the_ratio_is_not_glued_with(session: Session, clock: Clock):
    """2:1 by weight: 4.0 g of A ask for 2.0 g of B. With 2.6 g there are 30% too much, and 1.2 g of A are missing."""
    run_to(session, clock, "mix")
    bench.mix_adhesive(session, JOB, "4.0 g", "2.6 g", "22 C", "lot 7")
    finding = worked(session).answer()["findings"][0]
    assert "30% too much of part B" in finding["what"]
    assert "add 1.20 g of part A" in finding["mend"]
    with pytest.raises(GateClosed, match="30% too much of part B"):
        bench.sign_gate(session, JOB, "glue")
    bench.mix_adhesive(session, JOB, "5.2 g", "2.6 g", "22 C", "lot 7")
    bench.sign_gate(session, JOB, "glue")
    bench.glue(session, JOB, "22 C")


@ON_SQLITE
def test_a_cup_past_its_pot_life_is_not_glued_with(session: Session, clock: Clock):
    """The ticket's pot life is 30 min."""
    run_to(session, clock, "sign glue")
    mixed = next(line.at for line in session.job(JOB).trail if line.kind == "adhesive mixed")
    started = clock.time.fromisoformat(mixed)
    clock.time = started + timedelta(minutes=31)
    with pytest.raises(GateClosed, match="the pot life is over"):
        bench.glue(session, JOB, "22 C")
    clock.time = started + timedelta(minutes=29)
    bench.glue(session, JOB, "22 C")
    clock.time = started + timedelta(minutes=90)
    assert "pot life" not in str(worked(session).answer()["findings"]), "the joint is closed"
