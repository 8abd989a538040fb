"""One action in place of another one: what is kept can be taken in by another bench, and sent again."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from sqlalchemy import Engine

from benchwork import Clock, session_on
from closingwork import WEIGHT, take
from clubwright.journal.facts import Fact, Undone, WeightsFitted
from clubwright.services.actions import bench
from clubwright.services.actions.orders.clubs import next_ticket
from clubwright.services.actions.replacing import instead_of
from clubwright.services.record.session import Session
from clubwright.services.recording.merging import take_in
from clubwright.store.engine import open_engine
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate

pytestmark = pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)


@pytest.fixture
def elsewhere(tmp_path_factory: pytest.TempPathFactory, clock: Clock) -> Iterator[Session]:
    engine: Engine = open_engine(f"sqlite:///{tmp_path_factory.mktemp('shop') / 'record.sqlite'}")
    migrate(engine)
    yield session_on(Ledger(engine), clock, site="shop")
    engine.dispose()


def replaced(session: Session) -> str:
    """Fit a weight in place of the undo that took it out of the tray."""
    job = take(session, WEIGHT)
    bench.change_part(session, job, "weight", {"name": "lead 3", "mass": "3 g", "seat": "head"})
    out = bench.undo(session, job)
    bench.fit_weights(instead_of(session, out, "it was there"), job, ["lead 3"], "tap")
    return job


def test_what_was_kept_in_place_of_an_undo_is_taken_in_by_another_bench(session: Session, elsewhere: Session) -> None:
    job = replaced(session)
    assert take_in(elsewhere, session.ledger.facts()).new == 5
    weights = elsewhere.job(job).document["weight"]
    assert [(row["name"], row["fitted"]) for row in weights] == [("lead 8", "0"), ("lead 3", "1")]


def test_the_undo_comes_first_and_the_same_tap_again_gives_what_was_kept(session: Session) -> None:
    job = replaced(session)
    undo, fitted = session.ledger.facts()[-2:]
    assert (undo.key, fitted.key) == ("tap", "tap#2")
    assert isinstance(undo.what, Undone)
    assert isinstance(fitted.what, WeightsFitted)
    assert bench.fit_weights(session, job, ["lead 3"], "tap") == fitted
    assert session.ledger.count() == 5


def test_what_is_brought_back_while_the_action_looks_is_undone_with_it(session: Session) -> None:
    job = take(session, WEIGHT)
    theirs = bench.fit_weights(session, job, ["lead 8"])
    out = bench.undo(session, job)
    mine = instead_of(session, theirs, "mine")
    assert [fact.place for fact in mine.ledger.facts(job)] == [("van", 1), theirs.place, out.place], "nothing waits"
    back = bench.undo(session, job, out.sequence)
    bench.fit_weights(mine, job, [], "mine")
    lines = [(line.kind, line.undone) for line in session.job(job).trail]
    fitted = ("weights fitted", True), ("undone", True), ("undone", False), ("undone", False), ("weights fitted", False)
    assert lines == [("ticket taken", False), *fitted], back


def test_what_somebody_brings_back_just_before_the_write_is_undone_with_it(
    session: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    job = take(session, WEIGHT)
    theirs = bench.fit_weights(session, job, ["lead 8"])
    out = bench.undo(session, job)
    mine = instead_of(session, theirs, "mine")
    append = type(session.ledger).append

    def brought_back(ledger: Ledger, *whats: Any, **how: Any) -> list[Fact]:
        monkeypatch.setattr(type(session.ledger), "append", append)
        bench.undo(session, job, out.sequence)
        return append(ledger, *whats, **how)

    monkeypatch.setattr(type(session.ledger), "append", brought_back)
    bench.fit_weights(mine, job, [], "mine")
    assert [line.undone for line in session.job(job).trail if line.kind == "weights fitted"] == [True, False]


def test_the_same_tap_again_is_known_where_what_it_replaced_stood_on_two_jobs(session: Session) -> None:
    """A job that came back writes on the one before too: both undone once, and the second tap finds them undone."""
    job = take(session, WEIGHT)
    bench.take_ticket(session, next_ticket(session.job(job), "T-2", "regrip"), "t.toml")
    came_back = session.ledger.facts(job)[-1]
    first = bench.fit_weights(instead_of(session, came_back, "mine"), job, [], "tap")
    assert bench.fit_weights(instead_of(session, came_back, "mine"), job, [], "tap") == first
    assert session.ledger.count() == 6


def test_a_record_in_which_the_undo_stands_behind_still_knows_the_tap_again(session: Session) -> None:
    job = take(session, WEIGHT)
    first = bench.fit_weights(session, job, ["lead 8"])
    subject = first.what.subject
    old = [
        WeightsFitted(job=job, subject=subject, weights=[]),
        Undone(job=job, subject=subject, fact=first.sequence, reason="replaced", site=first.site),
    ]
    kept = session.ledger.append("van", old, by="Ann", at=first.at, typed=["fitted none", "undo 2"], key="old")
    assert bench.fit_weights(session, job, [], "old") == kept[0]
