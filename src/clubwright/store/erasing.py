"""Erase texts of facts from the database itself, so that no page of it holds them any more; and see who may have done so."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from typing import Any

from sqlalchemy import Connection, Engine, select, text, update
from sqlalchemy.exc import DBAPIError, SQLAlchemyError

from clubwright.errors import Finding
from clubwright.journal.chain import GO_BACK, hash_of
from clubwright.journal.erased import Left, erasing_break, what_was_left
from clubwright.journal.facts import Fact, NamesErased, kind_of
from clubwright.services.record.ledger import Damage, DamagedError
from clubwright.store.rows import Row, judged, row_of
from clubwright.store.tables import PlainData, fact_table

ERASING = kind_of(NamesErased(person="", asked_by="", facts=()))
_MADE_OF = """
SELECT name, sql FROM sqlite_master WHERE tbl_name = 'fact' AND sql IS NOT NULL ORDER BY type <> 'table', rowid
"""
_PROJECTIONS = "SELECT name FROM sqlite_master WHERE type = 'table' AND name LIKE 'index~_%' ESCAPE '~'"
_COLUMNS = [column.name for column in fact_table.columns]


def judged_erased(connection: Connection, found: Sequence[Fact | Damage]) -> list[Fact | Damage]:
    """Hold facts that were erased in against the erasures of the record; what none of them says is damage."""
    if not any(isinstance(item, Fact) and item.erased for item in found):
        return list(found)
    table = fact_table.c
    rows = connection.execute(select(fact_table).where(table.job == "", table.kind == ERASING)).mappings()
    erasures = [item for item in map(judged, rows) if isinstance(item, Fact)]
    return proven(found, erasures)


def held_facts(connection: Connection, rows: Sequence[Row]) -> list[Fact]:
    """Read facts that are asked for by themselves, each held against its hash and against the erasures of the record.

    Raises:
        DamagedError: when one of them is not the fact that was written.
    """
    found = judged_erased(connection, [judged(row) for row in rows])
    damage = [item for item in found if isinstance(item, Damage)]
    if damage:
        raise DamagedError(damage)
    return [item for item in found if isinstance(item, Fact)]


def proven(found: Sequence[Fact | Damage], erasures: Sequence[Fact]) -> list[Fact | Damage]:
    """Return facts, and as damage those that were erased in without an erasure that says so."""
    told = what_was_left(erasures)
    return [_proven(item, told) if isinstance(item, Fact) and item.erased else item for item in found]


def _proven(fact: Fact, told: Left) -> Fact | Damage:
    wrong = erasing_break(fact, hash_of(fact), told)
    if wrong is None:
        return fact
    where = f"record {fact.site}/{fact.sequence}"
    finding = Finding(where=where, what=f"this fact {wrong}", mend=GO_BACK)
    return Damage(finding=finding, jobs=(fact.what.job,), place=fact.place)


def rewrite(connection: Connection, facts: Sequence[Fact]) -> None:
    """Put facts that were erased in into the place of what is there, in the caller's transaction.

    SQLite: the table is thrown away, its pages are overwritten with zeros (`secure_delete`), and it is made anew as it was
    made; a page that was split long ago may hold a copy of a text in its unused part, and goes with the others. What
    follows from the facts (an index of jobs) is thrown away too: it is worked out anew by whoever asks it next.
    """
    if not facts:
        return
    rows = {fact.place: row_of(fact) for fact in facts}
    if connection.dialect.name == "postgresql":
        connection.execute(text("ALTER TABLE fact DISABLE TRIGGER fact_no_change"))
        table = fact_table.c
        for (site, sequence), row in rows.items():
            values = {"typed": row["typed"], "what": row["what"]}
            where = (table.site == site, table.sequence == sequence)
            connection.execute(update(fact_table).where(*where).values(**values))
        connection.execute(text("ALTER TABLE fact ENABLE TRIGGER fact_no_change"))
        names = "SELECT tablename FROM pg_tables WHERE schemaname = current_schema() AND tablename LIKE 'index\\_%'"
        for name in connection.execute(text(names)).scalars().all():
            connection.execute(text(f'DROP TABLE "{name}"'))
        return
    for name in connection.exec_driver_sql(_PROJECTIONS).scalars().all():
        connection.exec_driver_sql(f'DROP TABLE "{name}"')
    made_of = connection.exec_driver_sql(_MADE_OF).all()
    named = ", ".join(f'"{name}"' for name in _COLUMNS)
    query = f"SELECT {named} FROM fact ORDER BY rowid"  # noqa: S608 - put together from constants
    kept: list[tuple[Any, ...]] = [tuple(row) for row in connection.exec_driver_sql(query).all()]
    kind = PlainData()
    for at, old in enumerate(kept):
        if (old[0], old[1]) in rows:
            said = rows[(old[0], old[1])]
            said["what"] = kind.process_bind_param(said["what"], connection.dialect)
            kept[at] = tuple(said[name] for name in _COLUMNS)
    connection.exec_driver_sql("DROP TABLE fact")
    for _, sql in made_of:
        connection.exec_driver_sql(sql)
    places = ", ".join("?" * len(_COLUMNS))
    connection.exec_driver_sql(f"INSERT INTO fact ({named}) VALUES ({places})", kept)  # noqa: S608 - likewise


def sweep(engine: Engine) -> None:
    """Give back the pages that are no longer used; what they held is gone already, on PostgreSQL by this only.

    Where it is refused (no room, or somebody reads all the while), a later one does it.
    """
    with suppress(DBAPIError, SQLAlchemyError, OSError):
        if engine.dialect.name == "postgresql":
            with engine.connect().execution_options(isolation_level="AUTOCOMMIT") as connection:
                connection.execute(text("VACUUM FULL fact"))
            return
        raw = engine.raw_connection()
        try:
            raw.cursor().execute("VACUUM")
        finally:
            raw.close()
