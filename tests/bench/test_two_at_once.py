"""Two people who tap at once: each action is kept once, none is told that a sound record is broken."""

from __future__ import annotations

import threading
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest

from benchwork import JOB, Clock, document, run_to, session_on
from clubwright.errors import ClubwrightError, RecordError
from clubwright.journal.facts import Fact
from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from clubwright.store.engine import open_engine
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate

pytestmark = pytest.mark.usefixtures("played")
PEOPLE, TAPS = 4, 15


class Meanwhile(Ledger):
    """A record in which somebody else acts once, just when it is looked at or just before it is written to."""

    def __init__(self, ledger: Ledger, at: str, act: Callable[[], object]) -> None:
        super().__init__(ledger.engine)
        self._at, self._act = at, act

    def _now(self, at: str) -> None:
        if at == self._at:
            self._at = ""
            self._act()

    def facts(self, *args: object, **more: object) -> list[Fact]:
        self._now("look")
        return super().facts(*args, **more)  # type: ignore[arg-type]

    def append(self, *args: object, **more: object) -> list[Fact]:
        self._now("write")
        return super().append(*args, **more)  # type: ignore[arg-type]


@pytest.mark.parametrize("at", ["look", "write"])
def test_what_comes_in_between_is_seen_and_the_action_kept(session: Session, ledger: Ledger, clock: Clock, at: str):
    bench.take_ticket(session, document(), "wedge-54.toml")
    other = session_on(ledger, clock, by="Bert")
    mine = session_on(Meanwhile(ledger, at, lambda: bench.do_step(other, JOB, "weigh")), clock)
    kept = bench.note_reading(mine, JOB, "swing_weight", "D1.3", stage="dry, gripped", weights=[])
    assert kept.sequence == 3
    assert [fact.by for fact in ledger.facts(JOB)] == ["Ann", "Bert", "Ann"]
    assert ledger.verify() == ()


@pytest.mark.parametrize("at", ["look", "write"])
def test_the_same_tap_sent_twice_at_once_is_kept_once(session: Session, ledger: Ledger, clock: Clock, at: str):
    """A signature keeps what was shown; the first to arrive was shown more, and it is the same signature still."""
    run_to(session, clock, "done weigh")
    first: list[Fact] = []

    def sent_first() -> None:
        bench.note_reading(session, JOB, "head.mass", "296.6 g", stage="finished", weights=[])
        first.append(bench.sign_gate(session, JOB, "cut", "tap-1"))

    again = session_on(Meanwhile(ledger, at, sent_first), clock)
    assert bench.sign_gate(again, JOB, "cut", "tap-1") == first[0]
    assert sum(fact.key == "tap-1" for fact in ledger.facts(JOB)) == 1


def test_many_taps_at_once_are_each_kept_once(session: Session, ledger: Ledger, clock: Clock):
    bench.take_ticket(session, document(), "wedge-54.toml")
    told: Counter[str] = Counter()
    start = threading.Barrier(PEOPLE)

    def tap(person: int) -> None:
        mine = session_on(ledger, clock, by=f"person {person}")
        start.wait()
        for number in range(TAPS):
            try:
                if number % 2:
                    bench.do_step(mine, JOB, "weigh", key=f"step-{person}-{number}")
                else:
                    bench.note_reading(mine, JOB, "head.mass", "296.4 g", weights=[], key=f"read-{person}-{number}")
                told["kept"] += 1
            except ClubwrightError as refused:
                told[str(refused)] += 1

    threads = [threading.Thread(target=tap, args=(person,)) for person in range(PEOPLE)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(120)
    assert told == {"kept": PEOPLE * TAPS}
    assert ledger.count() == 1 + PEOPLE * TAPS
    assert ledger.verify() == ()


def test_a_record_that_others_hold_is_not_called_broken(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr("clubwright.store.engine.BUSY_S", 0.05)
    engine = open_engine(f"sqlite:///{tmp_path / 'record.sqlite'}")
    migrate(engine)
    session = session_on(Ledger(engine), Clock())
    with engine.begin(), pytest.raises(RecordError) as refused:
        bench.take_ticket(session, document(), "wedge-54.toml")
    assert "another bench was writing" in str(refused.value)
    assert "verify" not in str(refused.value)
    engine.dispose()
