"""What another club's readings do to a club, and what a club's own readings do to others: no more than they are worth."""

from __future__ import annotations

import math
from typing import Any

import msgspec
import pytest

from benchwork import answer_bytes
from clubwright.services.actions import bench
from clubwright.services.actions.orders.clubs import next_ticket
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.jobs.signatures import void_signatures
from clubwright.services.record.session import Session
from clubwright.services.shaft import taught
from clubwright.services.shaft.family import ShaftFamily, family_of, use_family
from clubwright.services.shaft.set_frequencies import same_player
from clubwright.units import CPM_HZ
from shaftwork import DRY, dry_hz, iron

pytestmark = pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)
WIDE = "1 ± 0.05"


def build(session: Session, number: str, factor: float | None, document: dict[str, Any] | None = None) -> None:
    """Take an iron whose shaft has a true stiffness factor, and read its frequency dry; None reads nothing."""
    found = iron(number) if document is None else document
    found["shaft"] |= {"stiffness_factor": WIDE}
    bench.take_ticket(session, found, "test")
    if factor is not None:
        read(session, number, factor)


def read(session: Session, number: str, factor: float) -> None:
    value = f"{dry_hz(iron()) * math.sqrt(factor) / CPM_HZ:.2f} cpm"
    bench.note_reading(session, number, "frequency", value, stage=DRY, weights=[])


def family(session: Session, number: str) -> ShaftFamily:
    found = family_of(session, session.job(number))
    assert found is not None and found.forecast is not None
    return found


def learnt(session: Session, number: str) -> list[float]:
    """Every number that the shop learnt for a shaft."""
    found = family(session, number)
    assert found.forecast is not None
    shafts = [number for shaft in found.shafts for number in (shaft.factor, shaft.sd, shaft.shared_sd)]
    return [*msgspec.structs.astuple(found.forecast), found.shared_sd, *shafts]


def test_undone_is_never_had_also_for_what_the_shop_learnt(session: Session) -> None:
    build(session, "X-1", 1.03)
    build(session, "X-2", None)
    build(session, "X-9", None)
    never = learnt(session, "X-9")
    read(session, "X-2", 1.05)
    assert learnt(session, "X-9") != pytest.approx(never, rel=1e-3)
    had = learnt(session, "X-9")
    undo = bench.undo(session, "X-2")
    assert learnt(session, "X-9") == pytest.approx(never, rel=1e-9)
    bench.undo(session, "X-2", undo.sequence)
    assert learnt(session, "X-9") == pytest.approx(had, rel=1e-9)
    read(session, "X-2", 1.02)
    last = session.job("X-2").last_standing_line().sequence
    bench.decide_reading(session, "X-2", last, keep=False, reason="misread")
    assert learnt(session, "X-9") == pytest.approx(had, rel=1e-9), "left out is never had, too"


def test_another_clubs_reading_voids_no_signature_and_moves_no_answer(session: Session) -> None:
    """Same player, same shaft, same head: what is read of the one teaches what a person may take over for the other."""
    build(session, "X-1", 1.03)
    build(session, "X-2", None)
    use_family(session, "X-2", family(session, "X-2").text)
    for values in ({"hand": "right"}, {"bore_to_ground": "1.12 in"}):
        bench.change_part(session, "X-2", "head", values)
    bench.trim_shaft(session, "X-2", "tip", "2 1/2 in")
    bench.sign_gate(session, "X-2", "cut")
    job = session.job("X-2")
    before, taught_then = answer_bytes(answer_job(job, session.now()).answer()), learnt(session, "X-2")
    read(session, "X-1", 1.02)
    build(session, "X-3", 1.06)
    bench.change_part(session, "X-3", "head", {"bore_to_ground": "1.30 in"})
    assert learnt(session, "X-2") != taught_then, "the shop did learn"
    job = session.job("X-2")
    now = answer_job(job, session.now())
    assert answer_bytes(now.answer()) == before
    assert list(job.gates_signed) == ["cut"]
    assert void_signatures(job, now) == ()
    assert next(gate for gate in now.gates if gate.step == "cut").open


def as_if_taken_over(session: Session) -> tuple[list[float], list[float]]:
    """What the shop learns from two clubs for a third, and what it learns when the second began from the first's."""
    build(session, "X-1", 1.04)
    build(session, "X-2", 1.00)
    build(session, "X-9", None)
    alone = learnt(session, "X-9")
    bench.undo(session, "X-2")
    use_family(session, "X-2", family(session, "X-2").text)
    read(session, "X-2", 1.00)
    return alone, learnt(session, "X-9")


def test_what_one_club_taught_another_is_not_counted_as_read_again(session: Session) -> None:
    """The second club's belief began from the first's reading; only its own reading is taken from it."""
    alone, began = as_if_taken_over(session)
    assert began == pytest.approx(alone, rel=5e-3), "but for where the beam is linearised"


def test_a_belief_used_as_data_is_caught(session: Session, monkeypatch: pytest.MonkeyPatch) -> None:
    """The saboteur: without its prior divided out, a club's belief passes for what was read of it."""

    def belief_as_data(before: tuple[float, float], after: tuple[float, float]) -> tuple[float, float]:
        return after

    monkeypatch.setattr(taught, "divided_out", belief_as_data)
    taught.taught_by.cache_clear()
    try:
        alone, began = as_if_taken_over(session)
    finally:
        taught.taught_by.cache_clear()
    assert began != pytest.approx(alone, rel=5e-3)


def test_a_club_counts_once_however_many_jobs_it_had(session: Session) -> None:
    made = iron("X-1")
    made["shaft"] |= {"cut_length": "35.755 in", "tip_trimmed": "yes"}
    build(session, "X-1", 1.04, made)
    build(session, "X-3", 1.02)
    build(session, "X-9", None)
    once, in_hand = learnt(session, "X-9"), learnt(session, "X-1")
    bench.take_ticket(session, next_ticket(session.job("X-1"), "X-2", "regrip"), "test")
    assert learnt(session, "X-9")[:7] == pytest.approx(once[:7], rel=5e-3), (
        "its second job says what its first one said"
    )
    assert [shaft.job for shaft in family(session, "X-9").shafts] == ["X-3", "X-2"]
    assert learnt(session, "X-1") == pytest.approx(in_hand, rel=1e-9)
    assert learnt(session, "X-2") == pytest.approx(in_hand, rel=1e-9), "nothing of its own club is taught to it"
    names = [job.id for job in same_player(session, session.job("X-9"))]
    assert sorted(names) == ["X-2", "X-3"], "and it is one club of the player's set"


def test_a_club_that_got_another_shaft_counts_for_each(session: Session) -> None:
    build(session, "X-1", 1.04)
    build(session, "X-9", None)
    document = next_ticket(session.job("X-1"), "X-2", "reshaft")
    document["shaft"] = dict(iron()["shaft"])
    bench.take_ticket(session, document, "test")
    assert [shaft.job for shaft in family(session, "X-2").shafts] == ["X-1"]
    assert [shaft.job for shaft in family(session, "X-9").shafts] == ["X-1"], "the new one was not read yet"
