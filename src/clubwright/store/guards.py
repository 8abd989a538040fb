"""What keeps a record from being changed stands in the database itself: here it is held against what the migrations make."""

from __future__ import annotations

from functools import lru_cache

from sqlalchemy import Connection, create_engine, text

from clubwright.errors import Finding
from clubwright.store.migrate import migrate

MEND = (
    "If nothing else is found, the facts are as they were written: `clubwright backup` writes them into a whole record. "
    "Keep a copy of this one as it is, and put that in its place."
)
_TRIGGERS = "SELECT name, sql FROM sqlite_master WHERE type = 'trigger'"
_COLUMNS = "SELECT name, type, \"notnull\", pk FROM pragma_table_info('fact')"
_INDEXES = """
SELECT list.name, list."unique" || ' ' || group_concat(info.name)
FROM pragma_index_list('fact') AS list, pragma_index_info(list.name) AS info GROUP BY list.name
"""
_ON_POSTGRESQL = """
SELECT tgname FROM pg_trigger WHERE tgrelid = to_regclass('fact') AND NOT tgisinternal AND tgenabled <> 'D'
"""
_NAMES_ON_SQLITE = ("fact_no_update", "fact_no_delete", "fact_no_gap")
_NAMES_ON_POSTGRESQL = ("fact_no_change", "fact_no_gap")


def guarded(connection: Connection) -> bool:
    """True when the triggers are there that let the table of facts only grow: a quick look."""
    if connection.dialect.name == "postgresql":
        return set(connection.execute(text(_ON_POSTGRESQL)).scalars()) >= set(_NAMES_ON_POSTGRESQL)
    there = {str(row[0]) for row in connection.exec_driver_sql(_TRIGGERS)}
    return there == set(_NAMES_ON_SQLITE)


def guard_findings(connection: Connection) -> list[Finding]:
    """Say which triggers, columns and indexes of the record are missing, are others, or are not ours."""
    if connection.dialect.name == "postgresql":
        there = {str(row[0]) for row in connection.execute(text(_ON_POSTGRESQL))}
        return [
            _finding(f"trigger {name}", "is missing or switched off")
            for name in _NAMES_ON_POSTGRESQL
            if name not in there
        ]
    found, wanted = _made_of(connection), _wanted()
    missing = [_finding(name, "is missing") for name in wanted if name not in found]
    others = [
        _finding(name, "is not as this program makes it" if name in wanted else "was not made by this program")
        for name, made in found.items()
        if wanted.get(name) != made
    ]
    return [*missing, *others]


def _made_of(connection: Connection) -> dict[str, str]:
    """Return what a SQLite record is made of: each thing's name, and what it says."""
    triggers = {f"trigger {row[0]}": " ".join(str(row[1]).split()) for row in connection.exec_driver_sql(_TRIGGERS)}
    columns = {f"column {row[0]}": f"{row[1]} {row[2]} {row[3]}" for row in connection.exec_driver_sql(_COLUMNS)}
    indexes = {f"index {row[0]}": str(row[1]) for row in connection.exec_driver_sql(_INDEXES)}
    return triggers | columns | indexes


@lru_cache(maxsize=1)
def _wanted() -> dict[str, str]:
    """Return what a new record is made of."""
    engine = create_engine("sqlite://")
    try:
        migrate(engine)
        with engine.connect() as connection:
            return _made_of(connection)
    finally:
        engine.dispose()


def _finding(name: str, what: str) -> Finding:
    return Finding(where=f"record file, {name}", what=f"it {what}, so that a fact may be changed unseen", mend=MEND)
