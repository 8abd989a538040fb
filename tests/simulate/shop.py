"""A shop of several benches in one process: each with its own disk, record, clock and two tablets, and what it has promised.

The record is the program's own, on a disk in memory. Beside it stands what a bench has acknowledged: the facts that it must
hold from then on, whatever happens. Nothing here draws by chance.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from contextlib import ExitStack
from functools import lru_cache
from typing import Any

import msgspec
from clock import BenchClock, TrueTime
from disk import Disk
from sqlite_on_disk import engine_on

from clubwright.journal.facts import Fact, Place, RecordsMerged, What, kind_of
from clubwright.journal.order import in_order
from clubwright.journal.subjects import Subject, names_of, subjects_of
from clubwright.services.jobs.job_list import JobStatuses
from clubwright.services.record.erasure import Erasure
from clubwright.services.record.ledger import Merger
from clubwright.services.record.session import Session
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate

HANDS = ("Ann", "Bert")
"""Whose tablets they are: two of each bench."""

Kept = dict[Place, Fact]
Heads = dict[str, int]
"""The last number of each bench."""
MERGED = kind_of(RecordsMerged(heads={}))


class Group(msgspec.Struct, frozen=True):
    """Facts that were acknowledged together, and how many disk operations had been asked for by then."""

    log_at: int
    facts: tuple[Fact, ...]

    @property
    def key(self) -> str:
        """Key of the action."""
        return self.facts[0].key


class Decided(msgspec.Struct, frozen=True):
    """A fact that was just written, what the record held before, and of its number before and with what was written then."""

    fact: Fact
    held: list[Fact]
    before: tuple[Fact, ...]
    after: tuple[Fact, ...]


class Bench:
    """One bench.

    Attributes:
        kept: What it acknowledged and must hold.
        base: What its disk held for good when the program was started last.
        groups: What was acknowledged since.
        decided: What was written since the laws were last asked.
        copies: Earlier states of its record.
        sent: What its hands did: the call, the key, the hand.
        saw: For every fact that any bench of the shop wrote, what that bench held then of any job.
    """

    def __init__(self, number: int, true: TrueTime, saw: dict[Place, Heads] | None = None) -> None:
        self.site = f"bench{number + 1}"
        self.clock = BenchClock(true)
        self.kept: Kept = {}
        self.copies: list[tuple[Fact, ...]] = []
        self.sent: list[tuple[Any, str, int]] = []
        self.decided: list[Decided] = []
        self.saw = {} if saw is None else saw
        self._keys = 0
        self.start(empty_record())

    def start(self, content: Mapping[str, bytes]) -> None:
        """Start the program on what a disk holds; nothing that it had in mind is left.

        Raises:
            RecordError: when the record cannot be opened.
        """
        self.disk = Disk(dict(content))
        self.base: Kept = dict(self.kept)
        self._ordered: tuple[int, list[Fact]] = (-1, [])
        self.groups: list[Group] = []
        self._open = ExitStack()
        engine = self._open.enter_context(engine_on(self.disk))
        migrate(engine)
        self.ledger = Watched(engine, self)
        self.standings = JobStatuses()

    def stop(self) -> None:
        """End the program; whatever it does then no longer reaches a disk that anybody reads."""
        self._open.close()

    def session(self, hand: int) -> Session:
        """Return one tablet's session; every action brings its own key, but a merge, whose key is never sent again."""
        return Session(ledger=self.ledger, site=self.site, by=HANDS[hand % 2], now=self.clock, new_key=self._new_key)

    def hold(self, found: Kept) -> None:
        """Take what was found after a power cut for what it must hold from now on."""
        self.kept, self.base, self._ordered = found, dict(found), (-1, [])

    def _new_key(self) -> str:
        self._keys += 1
        return f"{self.site}-new-{self._keys}"

    def acknowledge(self, facts: Sequence[Fact]) -> None:
        """Note what the record said it has kept."""
        new = [fact for fact in facts if fact.place not in self.kept]
        if not new:
            return
        before = self.in_order()
        heads: Heads = {}
        for fact in (*before, *(fact for fact in new if fact.site != self.site)):
            if fact.what.job:  # a merge that brings nothing but merges leaves no word of them: no job goes by those
                heads[fact.site] = max(fact.sequence, heads.get(fact.site, 0))
        self.kept |= {fact.place: fact for fact in new}
        after = self.in_order()
        for fact in new:
            if fact.site == self.site:
                self.saw[fact.place] = heads
                if fact.what.job:
                    self.decided.append(Decided(fact, before, *(_of_number(facts, fact) for facts in (before, after))))
        self.disk.say(new[0].key)
        self.groups.append(Group(len(self.disk.log), tuple(new)))

    def in_order(self) -> list[Fact]:
        """Return what it must hold, in order."""
        if self._ordered[0] != len(self.kept):  # between two power cuts facts only come in
            self._ordered = (len(self.kept), in_order(self.kept.values()))
        return self._ordered[1]

    def rows(self) -> int:
        """Return how many facts the table has, asked of SQLite itself."""
        connection = self.ledger.engine.raw_connection()
        try:
            return int(connection.cursor().execute("SELECT count(*) FROM fact").fetchone()[0])
        finally:
            connection.close()

    def jobs(self) -> dict[str, Subject]:
        """Return its jobs by the names that they go by."""
        subjects = subjects_of(self.in_order())
        names = names_of(subjects)
        return {names[place]: subject for place, subject in sorted(subjects.items())}

    def numbers(self) -> set[str]:
        """Return every number that it knows a ticket by."""
        return {fact.what.job for fact in self.kept.values() if fact.what.job}


class Watched(Ledger):
    """A record that notes what it acknowledged, and lets somebody else act once just as it is looked at or written to."""

    def __init__(self, engine: Any, bench: Bench) -> None:
        super().__init__(engine)
        self._bench = bench
        self._act: Callable[[], object] | None = None
        self._when: list[str] = []

    def interrupt(self, when: str, act: Callable[[], object]) -> None:
        """Let somebody act before a `look`, a `second look` or the `write`."""
        self._act = act
        self._when = {"look": ["look"], "second look": ["look", "look"], "write": ["write"]}[when]

    def calm(self) -> bool:
        """Let nobody act any more; say whether somebody would still have."""
        waits, self._act = self._act is not None, None
        return waits

    def _comes(self, what: str) -> None:
        if self._act is not None and self._when[0] == what:
            self._when.pop(0)
            if not self._when:
                act, self._act = self._act, None
                act()

    def facts(
        self,
        job: str | Collection[str] | None = None,
        after: Mapping[str, int] | None = None,
        kinds: Collection[str] | None = None,
    ) -> list[Fact]:
        self._comes("look")
        return super().facts(job, after, kinds)

    def append(self, site: str, payloads: Sequence[What], **how: Any) -> list[Fact]:
        self._comes("write")
        facts = super().append(site, payloads, **how)
        self._bench.acknowledge(facts)
        return facts

    def receive(self, facts: Iterable[Fact], merger: Merger | None = None, erasure: Erasure | None = None) -> int:
        listed = list(facts)
        new = super().receive(listed, merger, erasure)
        # the fact that says what this merge saw is written with what it brought in
        mine = [fact for fact in super().facts(kinds=[MERGED]) if fact.site == self._bench.site]
        self._bench.acknowledge([*listed, *mine])
        return new


class Shop:
    """All benches.

    Attributes:
        seen: How often each thing worth trying came about.
        said: What happened, line by line.
    """

    def __init__(self, benches: int) -> None:
        self.true = TrueTime()
        saw: dict[Place, Heads] = {}
        self.benches = [Bench(number, self.true, saw) for number in range(benches)]
        self.seen: Counter[str] = Counter()
        self.said: list[str] = []

    def close(self) -> None:
        """Stop every bench."""
        for bench in self.benches:
            bench.stop()


@lru_cache(maxsize=1)
def empty_record() -> dict[str, bytes]:
    """Return what a disk holds once a record was made on it."""
    disk = Disk()
    with engine_on(disk) as engine:
        migrate(engine)
    return {name: disk.files[file] for name, file in disk.names.items()}


def _of_number(facts: Iterable[Fact], fact: Fact) -> tuple[Fact, ...]:
    return tuple(each for each in facts if each.what.job == fact.what.job)
