"""Facts of some jobs or kinds, in order: by the index of jobs where it holds every fact, else from the facts alone."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from sqlalchemy import Connection, RowMapping, Select, bindparam, select

from clubwright.journal.facts import Fact, Place
from clubwright.journal.order import in_order
from clubwright.journal.timeline import Moment
from clubwright.services.record.ledger import Damage, Readable
from clubwright.store.erasing import held_facts, judged_erased
from clubwright.store.index.moments import Moments
from clubwright.store.index.order import TornError, counted, moments_of, of_kinds
from clubwright.store.rows import judged
from clubwright.store.tables import fact_table

Jobs = str | Collection[str] | None
Kinds = Collection[str] | None
FEW = 100
"""So many ticket numbers are looked up one by one; a table of more is read through."""
_ALL = select(fact_table)
_OF_JOB = _ALL.where(fact_table.c.job == bindparam("job"))


def read_by_index(connection: Connection, job: Jobs, kinds: Kinds = None, since: str | None = None) -> Readable:
    """Return facts; where each stands is asked of the index, and of no fact that was not asked for.

    Args:
        connection: Of which the index was found to be whole.
        job: Of which ticket numbers; of all when None.
        kinds: Of which kinds; of all when None.
        since: Written after which time; at any when None.

    Raises:
        TornError: when the facts and the index differ.
    """
    query = _of_jobs(job)
    if kinds is not None:
        query = query.where(of_kinds(kinds, since))
    elif since is not None:
        query = query.where(fact_table.c.at > since)
    rows = connection.execute(query, {"job": job} if isinstance(job, str) else {}).mappings().all()
    found = judged_erased(connection, [judged(row) for row in rows])
    facts = [item for item in found if isinstance(item, Fact)]
    # read after the facts: on PostgreSQL somebody may have written in between, and then more than these have a place
    written, count = moments_of(connection, facts, job, kinds, since)
    # SQLite trusts the index of the table that led to these facts, and it may be damaged
    if connection.dialect.name == "sqlite":
        every = job is None and kinds is None and since is None
        if count != len(rows) or (every and len(set(counted(connection))) > 1):
            raise TornError("the record and its index differ: verify it")
    return _readable(found, written)


def read_by_all(
    connection: Connection, moments: Moments, job: Jobs, kinds: Kinds = None, since: str | None = None
) -> Readable:
    """Return facts, asked for in the same way; where each stands is found from all.

    Raises:
        TornError: when facts are missing.
    """
    table = fact_table.c
    query = _of_jobs(job)
    # where a clock stepped back, facts that were not asked for decide the order of those that were
    written = moments.of(connection)
    if kinds is not None:
        query = query.where(table.kind.in_(sorted(kinds)))
        jobs = moments.jobs_of(kinds)
        if not jobs:
            return Readable(facts=[])
        if len(jobs) <= FEW:  # found by the index of numbers
            query = query.where(table.job.in_(sorted(jobs)))
    rows = connection.execute(query, {"job": job} if isinstance(job, str) else {}).mappings().all()
    if kinds is None and connection.dialect.name == "sqlite":
        moments.require_all(connection, job, len(rows))
    rows = [row for row in rows if since is None or row["at"] > since]
    # on PostgreSQL somebody may have written since the moments were read: those facts come with the next look
    return _readable(judged_erased(connection, [judged(row) for row in rows]), written)


def fact_at(connection: Connection, place: Place) -> Fact | None:
    """Return one fact; None where there is none.

    Raises:
        DamagedError: when it is damaged, or erased in without an erasure that says so.
    """
    query = _ALL.where(fact_table.c.site == place[0], fact_table.c.sequence == place[1])
    found = held_facts(connection, connection.execute(query).mappings().all())
    return found[0] if found else None


def _of_jobs(job: Jobs) -> Select[tuple[RowMapping]]:
    return _OF_JOB if isinstance(job, str) else _ALL if job is None else _ALL.where(fact_table.c.job.in_(sorted(job)))


def _readable(found: Sequence[Fact | Damage], written: Mapping[Place, Moment]) -> Readable:
    facts = in_order((item for item in found if isinstance(item, Fact) and item.place in written), written)
    return Readable(facts=facts, damage=tuple(item for item in found if isinstance(item, Damage)))
