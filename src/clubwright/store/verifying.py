"""Whether a record is whole: its file, what guards it, every fact, and the chain of each bench."""

from __future__ import annotations

from sqlalchemy import Connection, select
from sqlalchemy.exc import DBAPIError

from clubwright.errors import Finding
from clubwright.journal.chain import GO_BACK, verify_chain
from clubwright.journal.facts import Fact
from clubwright.journal.order import in_order
from clubwright.services.record.folded_index import FoldedIndex
from clubwright.services.record.ledger import Damage, Readable
from clubwright.store.guards import guard_findings
from clubwright.store.index.order import order_rows
from clubwright.store.index.reading import StoredIndex
from clubwright.store.index.writing import rows_of
from clubwright.store.refusal import mend_of
from clubwright.store.rows import judged
from clubwright.store.salvage import gaps, salvaged
from clubwright.store.tables import fact_table


def verified(connection: Connection) -> tuple[Finding, ...]:
    """Return everything that is wrong with a record; empty when it is whole."""
    found: list[Finding] = []
    for look in (_file_findings, guard_findings):
        try:
            found += look(connection)
        except DBAPIError as refused:
            found.append(Finding(where="record file", what=str(refused.orig), mend=mend_of(refused.orig)))
    try:
        read = _all_rows(connection)
    except DBAPIError as refused:
        found.append(Finding(where="record file", what=str(refused.orig), mend=mend_of(refused.orig)))
        return tuple(dict.fromkeys(found))
    # where a fact is damaged, the chain around it is broken too: said once
    told = {item.place[0] for item in read.damage if item.place is not None}
    chain = verify_chain(fact for fact in read.facts if fact.site not in told)
    found += [item.finding for item in read.damage]
    found += chain if not any(item.place is None for item in read.damage) else ()
    return tuple(dict.fromkeys(found))


def index_findings(connection: Connection, stored: StoredIndex) -> list[Finding]:
    """Say whether the index of jobs is not what follows from the facts.

    Args:
        connection: Sees a record in which nothing is damaged.
        stored: Its index.
    """
    facts = in_order(_all_rows(connection).facts)
    try:
        alike = stored.rows() == rows_of(FoldedIndex(Readable(facts=facts)).entries) | order_rows(facts)
    except DBAPIError:
        alike = False
    mend = "`clubwright rebuild` works it out anew from the facts, which are as they were written."
    return [] if alike else [Finding(where="index of jobs", what="it is not what follows from the facts", mend=mend)]


def _all_rows(connection: Connection) -> Readable:
    if connection.dialect.name == "sqlite":
        return salvaged(connection)
    found = [judged(row) for row in connection.execute(select(fact_table)).mappings()]
    facts = [item for item in found if isinstance(item, Fact)]
    damage = [item for item in found if isinstance(item, Damage)]
    return Readable(facts=facts, damage=(*damage, *gaps(facts, damage)))


def _file_findings(connection: Connection) -> list[Finding]:
    """Ask SQLite whether its file is sound; PostgreSQL looks after its own."""
    if connection.dialect.name != "sqlite":
        return []
    said = connection.exec_driver_sql("PRAGMA integrity_check(5)").scalars().all()
    return [Finding(where="record file", what=str(line), mend=GO_BACK) for line in said if line != "ok"]
