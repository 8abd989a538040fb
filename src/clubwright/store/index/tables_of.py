"""When the index of jobs may be asked, when it follows what is written, and when it is worked out anew."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from sqlalchemy import Connection, select, text
from sqlalchemy.exc import DBAPIError

from clubwright.errors import RecordError
from clubwright.journal.chain import GENESIS
from clubwright.journal.facts import Fact
from clubwright.store.groups import hash_at, heads
from clubwright.store.guards import guarded
from clubwright.store.index.moments import Moments
from clubwright.store.index.order import TornError, follow_all, last_place, write_all
from clubwright.store.index.reading import StoredIndex
from clubwright.store.index.tables import heads_in, made, make, order_table
from clubwright.store.index.writing import write_heads, write_jobs
from clubwright.store.salvage import salvaged

_LOCK = 0x496E6465
Heads = Mapping[str, tuple[int, str]]


class IndexKeeper:
    """Keeps the index of one record.

    Args:
        moments: What this program knows of when the record's facts count as written.
    """

    def __init__(self, moments: Moments) -> None:
        self._moments = moments

    def may_follow(self, connection: Connection, before: Heads) -> bool:
        """True when the index holds what some benches have written so far, so that it can follow what they write now.

        Args:
            connection: In the transaction that writes, with nothing written yet.
            before: Number and hash of each bench's last fact; 0 before its first.
        """
        if not made(connection):
            return False
        known = heads_in(connection)
        return all(known.get(site, (0, GENESIS)) == head for site, head in before.items())

    def follow(self, connection: Connection, new: Sequence[Fact]) -> None:
        """Bring the index up to facts that were just written; where anything is damaged it is left behind."""
        try:
            ends, moved = follow_all(connection, new)
            write_jobs(connection, moved.union(fact.what.job for fact in new))
        except RecordError:
            return
        write_heads(connection, {fact.site: fact.hash for fact in sorted(new, key=_place)}, ends)

    def rebuild(self, connection: Connection) -> None:
        """Throw the index away, and work it out anew.

        Args:
            connection: In a transaction that nobody else can write beside.

        Raises:
            RecordError: when anything is damaged.
        """
        make(connection)
        ends = write_all(connection)
        write_jobs(connection, connection.execute(select(order_table.c.job).distinct()).scalars().all())
        write_heads(connection, {site: seal for site, (_, seal) in heads(connection).items()}, ends)

    def last_hash(self, connection: Connection) -> str:
        """Return the hash of the fact that came last."""
        try:
            if self.current(connection):
                return hash_at(connection, last_place(connection))
            self._moments.of(connection)
            return hash_at(connection, self._moments.last_place())
        except (DBAPIError, TornError):
            facts = salvaged(connection).facts if connection.dialect.name == "sqlite" else []
            return facts[-1].hash if facts else GENESIS

    def opened(self, connection: Connection) -> StoredIndex | None:
        """Return the index when it holds all that this connection sees, and nobody took away what guards the facts."""
        try:
            return StoredIndex(connection) if self.current(connection) else None
        except DBAPIError:
            return None

    def current(self, connection: Connection) -> bool:
        """True when the index holds all that this connection sees, in a record that is guarded."""
        there = heads(connection)
        return bool(there) and made(connection) and heads_in(connection) == there and guarded(connection)


def wait_for_others(connection: Connection) -> None:
    """On PostgreSQL, let transactions that write follow one after the other, as on SQLite: the index follows them all."""
    connection.execute(text("SELECT pg_advisory_xact_lock(:lock)"), {"lock": _LOCK})


def _place(fact: Fact) -> tuple[str, int]:
    return fact.place
