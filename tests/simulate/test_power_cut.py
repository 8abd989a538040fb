"""The power goes after every single disk operation of the record: what was acknowledged is there, nothing is half there.

Not chance decides where the plug is pulled: every operation has its turn, and what the disk had not promised by then is
left in every way that `wreck.Wreck` knows. Planted faults must be found by the same law, or it would prove nothing.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator, Sequence

import msgspec
import pytest
from disk import Disk
from sqlalchemy import insert
from sqlite_on_disk import RECORD, engine_on
from wreck import Wreck

from clubwright.errors import Finding, RecordError
from clubwright.journal.chain import GENESIS, seal
from clubwright.journal.facts import Fact, Gripped, StepDone, TicketTaken, What
from clubwright.journal.order import in_order
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate
from clubwright.store.rows import row_of
from clubwright.store.tables import fact_table
from journal_facts import chained

AT = "2026-03-02T08:00:00.000Z"
JOURNAL = f"{RECORD}-journal"
TORN = 2
FROM_ANOTHER_BENCH = chained([TicketTaken(job="T-2", document={}, source="van"), Gripped(job="T-2")], site="van")

Content = dict[str, bytes]
State = tuple[Fact, ...]
Hand = Callable[[Ledger, Disk, str, list[What]], None]


class Found(msgspec.Struct, frozen=True):
    """What a record says of itself when it is opened again."""

    facts: State
    findings: tuple[Finding, ...]
    goes_on: bool


def honest(ledger: Ledger, disk: Disk, key: str, payloads: list[What]) -> None:
    ledger.append("bench", payloads, by="Ann", at=AT, typed="", key=key)
    disk.say(key)


def early(ledger: Ledger, disk: Disk, key: str, payloads: list[What]) -> None:
    with ledger.engine.begin() as connection:
        connection.execute(insert(fact_table), [row_of(fact) for fact in sealed(ledger, key, payloads)])
        disk.say(key)


def one_by_one(ledger: Ledger, disk: Disk, key: str, payloads: list[What]) -> None:
    for fact in sealed(ledger, key, payloads):
        with ledger.engine.begin() as connection:
            connection.execute(insert(fact_table), row_of(fact))
    disk.say(key)


def sealed(ledger: Ledger, key: str, payloads: list[What]) -> list[Fact]:
    mine = [fact for fact in ledger.facts() if fact.site == "bench"]
    for number, what in enumerate(payloads, start=1):
        previous = mine[-1].hash if mine else GENESIS
        part = key if number == 1 else f"{key}#{number}"
        place = {"site": "bench", "sequence": len(mine) + 1, "at": AT, "by": "Ann"}
        mine.append(seal(what, typed="", key=part, previous_hash=previous, **place))
    return mine[-len(payloads) :]


def worked(disk: Disk, hand: Hand = honest, synchronous: str | None = None) -> list[State]:
    """Do a few actions on an empty record, and return its state before the first and after each."""
    with engine_on(disk, synchronous) as engine:
        migrate(engine)
        disk.at_rest()
        ledger = Ledger(engine)
        states: list[State] = [()]
        hand(
            ledger,
            disk,
            "a",
            [TicketTaken(job="T-1", document={}, source="x" * 6000), StepDone(job="T-1", step="pull")],
        )
        states.append(tuple(ledger.facts()))
        hand(
            ledger, disk, "b", [StepDone(job="T-1", step="y" * 900), StepDone(job="T-1", step="z"), Gripped(job="T-1")]
        )
        states.append(tuple(ledger.facts()))
        ledger.receive(FROM_ANOTHER_BENCH)
        disk.say("taken in")
        states.append(tuple(ledger.facts()))
    return states


def opened(content: Content) -> Found:
    """Open what is left of a record, as the program does at its next start, and write to it."""
    with engine_on(Disk(content)) as engine:
        try:
            migrate(engine)
            ledger = Ledger(engine)
            facts = tuple(ledger.facts())
            ledger.append("bench", [StepDone(job="T-1", step="on")], by="Ann", at=AT, typed="", key="after")
            return Found(facts, ledger.verify(), goes_on=len(ledger.facts()) == len(facts) + 1)
        except RecordError as refused:
            return Found((), (Finding(where="record", what=str(refused), mend=""),), goes_on=False)


def mended(content: Content) -> Disk:
    """Open what is left of a record, and return the disk with all that was asked of it for that."""
    disk = Disk(content)
    with engine_on(disk) as engine:
        migrate(engine)
        Ledger(engine).facts()
    return disk


def broken_promises(
    disk: Disk, states: Sequence[State], reached: set[str], first: int = 0, step: int = 1
) -> Iterator[tuple[str, str]]:
    """Cut the power after every operation (or each so-and-so-many-th from one on), and yield what is no longer kept."""
    chance = random.Random(54)
    known: dict[tuple[tuple[str, bytes], ...], Found] = {}
    for after in range(first, len(disk.log) + 1, step):
        wreck = Wreck(disk, after)
        said = len(wreck.said)
        allowed = states[said : said + 2]
        for content in wreck.left(chance, TORN):
            mark = tuple(sorted(content.items()))
            if mark not in known:
                known[mark] = opened(content)
            seen = known[mark]
            reached.add(f"{'journal' if content.get(JOURNAL) else 'no journal'}, {_where(seen.facts, states, said)}")
            if seen.findings or not seen.goes_on:
                yield "damaged", f"operation {after}: {seen.findings}"
            elif seen.facts not in allowed:
                yield _where(seen.facts, states, said), f"operation {after}"


PARTS = 4
"""Every operation is tried, a part of them in each test."""


def _where(facts: State, states: Sequence[State], said: int) -> str:
    if facts not in states:
        return "half"
    return {-1: "lost", 0: "before", 1: "after"}.get(states.index(facts) - said, "far off")


@pytest.mark.parametrize("part", range(PARTS))
def test_an_action_is_there_whole_or_not_at_all_and_never_gone_once_acknowledged(part: int) -> None:
    disk = Disk()
    states = worked(disk)
    assert [len(state) for state in states] == [0, 2, 5, 7]
    reached: set[str] = set()
    assert list(broken_promises(disk, states, reached, part, PARTS)) == []
    # the places where it could go wrong were reached: a journal to roll back, one that is not needed, both ways out
    assert reached >= {"journal, before", "no journal, before", "no journal, after"}


@pytest.mark.parametrize(
    ("hand", "synchronous", "shows"),
    [
        (honest, "FULL", {"lost"}),  # the folder is not synced after the journal's unlink
        (honest, "OFF", {"lost", "damaged"}),
        (early, None, {"lost"}),
        (one_by_one, None, {"half"}),
    ],
)
def test_a_planted_fault_is_found(hand: Hand, synchronous: str | None, shows: set[str]) -> None:
    disk = Disk()
    states = worked(disk, hand, synchronous)
    missing = set(shows)
    for kind, _ in broken_promises(disk, states, set()):
        missing.discard(kind)
        if not missing:
            return
    pytest.fail(f"the fault was not found: {missing}")


def test_a_record_that_is_being_made_is_made_at_the_next_start() -> None:
    disk = Disk()
    with engine_on(disk) as engine:
        migrate(engine)
    chance = random.Random(54)
    for after in range(len(disk.log) + 1):
        for content in Wreck(disk, after).left(chance, TORN):
            found = opened(content)
            assert (found.facts, found.findings, found.goes_on) == ((), (), True), f"operation {after}"


def test_the_power_may_go_again_while_the_record_is_mended() -> None:
    disk = Disk()
    states = worked(disk)
    chance = random.Random(55)
    rolled_back = 0
    for after in range(0, len(disk.log) + 1, 4):
        wreck = Wreck(disk, after)
        said = len(wreck.said)
        for content in list(wreck.left(chance, 1))[:3]:
            mending = mended(content)
            rolled_back += bool(mending.log)
            for again in range(len(mending.log) + 1):
                for left in Wreck(mending, again).left(chance, 1):
                    seen = opened(left)
                    assert (seen.findings, seen.goes_on) == ((), True)
                    assert seen.facts in states[said : said + 2], f"operation {after}, then {again}"
    assert rolled_back > 3, "nothing was ever mended"


def test_the_facts_of_another_bench_that_the_test_takes_in_are_sound() -> None:
    assert in_order(FROM_ANOTHER_BENCH) == FROM_ANOTHER_BENCH
