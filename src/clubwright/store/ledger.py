"""The record in a database: facts go in whole groups at a time, gapless for each site, and are never changed."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy import Engine, insert, select
from sqlalchemy.exc import DBAPIError

from clubwright.errors import Finding, RecordError
from clubwright.journal import chain
from clubwright.journal.action_keys import PART
from clubwright.journal.chain import GENESIS
from clubwright.journal.facts import Fact, Place, RecordsMerged, What
from clubwright.services.record.erasure import Erasure
from clubwright.services.record.job_index import JobIndex
from clubwright.services.record.ledger import ConflictError, DamagedError, Decided, LedgerPort, Merger, Readable
from clubwright.store.backup import back_up
from clubwright.store.erasing_ledger import ErasingLedger
from clubwright.store.groups import group, head, heads, missing, require_unmoved, same, sealed, witness
from clubwright.store.guards import guarded
from clubwright.store.index.moments import Moments
from clubwright.store.index.order import TornError
from clubwright.store.index.reading import StoredIndex
from clubwright.store.index.tables_of import IndexKeeper
from clubwright.store.reading import fact_at, read_by_all, read_by_index
from clubwright.store.rows import fact_of, row_of
from clubwright.store.salvage import only, salvaged
from clubwright.store.tables import fact_table
from clubwright.store.verifying import index_findings, verified


class Ledger(ErasingLedger, LedgerPort):
    """A record in a migrated database; what each method promises is said in `LedgerPort`.

    Args:
        engine: From `clubwright.store.engine.open_engine`; the caller disposes of it.
    """

    def __init__(self, engine: Engine) -> None:
        self.engine = engine
        self._moments = Moments()
        self._keeper = IndexKeeper(self._moments)
        self._in_vain = False

    def append(
        self,
        site: str,
        payloads: Sequence[What],
        *,
        by: str,
        at: str,
        typed: str | Sequence[str],
        key: str,
        expected_sequence: int | None = None,
        decided: Sequence[Decided] = (),
    ) -> list[Fact]:
        """Write facts, all or none, in one transaction."""
        if not payloads:
            raise RecordError("nothing to write: an action is at least one fact")
        if PART in key:
            raise RecordError(f'the key "{key}" holds a {PART}, which numbers facts of one action: take another')
        texts = [typed] * len(payloads) if isinstance(typed, str) else list(typed)
        with self._writing() as connection:
            there = group(connection, key)
            if there:
                return same(there, site, payloads, by, texts, key)
            sequence, previous_hash = head(connection, site)
            if expected_sequence is not None and expected_sequence != sequence:
                raise ConflictError(site, expected_sequence, sequence)
            require_unmoved(connection, decided)
            follows = self._keeper.may_follow(connection, {site: (sequence, previous_hash)})
            facts = sealed((sequence, previous_hash), payloads, site=site, by=by, at=at, typed=texts, key=key)
            connection.execute(insert(fact_table), [row_of(fact) for fact in facts])
            if follows:
                self._keeper.follow(connection, facts)
        return facts

    def facts(
        self,
        job: str | Collection[str] | None = None,
        after: Mapping[str, int] | None = None,
        kinds: Collection[str] | None = None,
    ) -> list[Fact]:
        """Return facts in order."""
        found = self.readable(job, kinds)
        wanted = {job} if isinstance(job, str) else None if job is None else set(job)
        damage = [item for item in found.damage if wanted is None or wanted.intersection(item.jobs)]
        if damage:
            raise DamagedError(damage)
        return [fact for fact in found.facts if fact.sequence > (after or {}).get(fact.site, 0)]

    def readable(
        self,
        job: str | Collection[str] | None = None,
        kinds: Collection[str] | None = None,
        since: str | None = None,
    ) -> Readable:
        """Return the facts that can be read, and what is damaged."""
        with self._reading() as connection:
            try:
                if self._keeper.current(connection):
                    return read_by_index(connection, job, kinds, since)
                return read_by_all(connection, self._moments, job, kinds, since)
            except (DBAPIError, TornError):
                if connection.dialect.name != "sqlite":
                    raise
                return only(salvaged(connection), job, kinds, since)

    def fact(self, place: Place) -> Fact | None:
        """Return one fact."""
        with self._reading() as connection:
            return fact_at(connection, place)

    def action(self, key: str) -> list[Fact]:
        """Return what one action wrote."""
        with self._reading() as connection:
            return group(connection, key)

    def last(self, site: str) -> int:
        """Return the number of a site's last fact."""
        with self._reading() as connection:
            return head(connection, site)[0]

    def count(self) -> int:
        """Return how many facts the record holds."""
        return sum(number for number, _ in self.heads().values())

    def receive(self, facts: Iterable[Fact], merger: Merger | None = None, erasure: Erasure | None = None) -> int:
        """Take in facts of other sites, all or none, and what a merge of them had seen."""
        sites: dict[str, list[Fact]] = {}
        for fact in facts:
            sites.setdefault(fact.site, []).append(fact)
        new: list[Fact] = []
        writers = [*sites, *([merger.site] if merger is not None else [])]
        with self._writing() as connection:
            follows = self._keeper.may_follow(connection, dict.fromkeys(writers, (0, GENESIS)) | heads(connection))
            for site in sorted(sites):
                rows = connection.execute(select(fact_table).where(fact_table.c.site == site)).mappings().all()
                mine = {fact.sequence: fact for fact in map(fact_of, rows)}
                new += missing(mine, sites[site])
            if new:
                connection.execute(insert(fact_table), [row_of(fact) for fact in new])
            written = list(new)
            if merger is not None and not all(isinstance(fact.what, RecordsMerged) for fact in new):
                written.append(witness(connection, merger))
                connection.execute(insert(fact_table), [row_of(written[-1])])
            if erasure is not None:
                self.erase_within(connection, erasure, merger, first=2)
            elif follows and written:
                self._keeper.follow(connection, written)
        if erasure is not None:
            self.sweep()
        return len(new)

    def heads(self) -> dict[str, tuple[int, str]]:
        """Return the number and the hash of each bench's last fact."""
        with self._reading() as connection:
            try:
                return heads(connection)
            except DBAPIError:
                if connection.dialect.name != "sqlite":
                    raise
                return chain.heads(salvaged(connection).facts)

    def last_hash(self) -> str:
        """Return the hash of the fact that came last."""
        with self._reading() as connection:
            return self._keeper.last_hash(connection)

    @contextmanager
    def index(self) -> Iterator[JobIndex | None]:
        """Open the index of jobs; one that is missing or older than the facts is worked out first."""
        with self._reading() as connection:
            found = self._keeper.opened(connection)
            missing = found is None and bool(heads(connection)) and guarded(connection)
            if found is not None or not missing or self._in_vain:
                yield found
                return
        try:
            self.rebuild()
        except RecordError:
            self._in_vain = True  # damaged, or nothing can be written: told by whoever reads the facts
        with self._reading() as connection:
            yield self._keeper.opened(connection)

    def rebuild(self) -> int:
        """Work the index of jobs out anew."""
        with self._writing() as connection:
            self._keeper.rebuild(connection)
            return len(StoredIndex(connection))

    def verify(self) -> tuple[Finding, ...]:
        """Check that every fact is there, in order and unchanged."""
        with self._reading() as connection:
            found = verified(connection)
            index = None if found else self._keeper.opened(connection)
            return found if index is None else tuple(index_findings(connection, index))

    def backup(self, path: Path) -> int:
        """Copy the record while it is in use, and read the copy back."""
        return back_up(self, self.engine, path, Ledger)
