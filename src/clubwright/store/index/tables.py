"""The tables of the index of jobs: they follow from the facts alone, and are no part of the record's form.

An older version of the program does not know them, and goes on without; what it writes makes them stale, which is seen.
"""

from __future__ import annotations

from sqlalchemy import Boolean, Column, Connection, Index, Integer, MetaData, Table, Text, inspect, select, text
from sqlalchemy.dialects import postgresql

from clubwright import __version__

EDITION = f"{__version__}/3"
"""Of what the tables say and how; another one is worked out anew. The number goes up with any change of either."""

metadata = MetaData(naming_convention={"ix": "ix_%(table_name)s_%(column_0_N_name)s", "pk": "pk_%(table_name)s"})

# compared and sorted as Python does, whatever the server's language
_Plain = Text().with_variant(postgresql.TEXT(collation="C"), "postgresql")

head_table = Table(
    "index_head",
    metadata,
    Column("site", _Plain, primary_key=True),
    Column("sequence", Integer, nullable=False),
    Column("hash", Text, nullable=False),
    Column("edition", Text, nullable=False),
    Column("written", _Plain, nullable=False),
    Column("time", _Plain, nullable=False),
    Column("level", Integer, nullable=False),
    Column("believed", Boolean, nullable=False),
    Column("seen_to", Integer, nullable=False),
)
"""The last fact of each bench that is in the index, and what the next one's moment is held against (`BenchEnd`)."""

order_table = Table(
    "index_fact",
    metadata,
    Column("job", _Plain, primary_key=True),
    Column("site", _Plain, primary_key=True),
    Column("sequence", Integer, primary_key=True, autoincrement=False),
    Column("kind", _Plain, nullable=False),
    Column("at", _Plain, nullable=False),
    Column("time", _Plain),
    Column("level", Integer, nullable=False),
    Index(None, "kind", "at"),
    sqlite_with_rowid=False,
)
"""Where each fact stands in the order of all: its time where that is not the one it was written at, and its level."""

job_table = Table(
    "index_job",
    metadata,
    Column("site", _Plain, primary_key=True),
    Column("sequence", Integer, primary_key=True, autoincrement=False),
    Column("job", _Plain, nullable=False, index=True),
    Column("name", _Plain, nullable=False),
    Column("came", _Plain, nullable=False, index=True),
    Column("state", Text, nullable=False),
    Column("day", _Plain, nullable=False),
    Column("last_at", _Plain, nullable=False),
    Column("kind", Text, nullable=False),
    Column("searched", Text, nullable=False),
    Column("player", _Plain, nullable=False),
    Column("shaft", _Plain, nullable=False),
    Column("again_of", _Plain, nullable=False, index=True),
    Column("line", Text, nullable=False),
    Index(None, "state", "day", "last_at", "name"),
    Index(None, "player", "came"),
    Index(None, "shaft", "came"),
)

# SQLite looks for words in this index alone, and never reads the long rows; a server would refuse so long an entry
_SEARCHED = ("state", "day", "last_at", "name", "kind", "searched", "site", "sequence")
Index("ix_index_job_searched", *(job_table.c[name] for name in _SEARCHED)).ddl_if(dialect="sqlite")

number_table = Table(
    "index_number",
    metadata,
    Column("number", _Plain, primary_key=True),
    Column("site", _Plain, primary_key=True),
    Column("sequence", Integer, primary_key=True, autoincrement=False),
    Column("job", _Plain, nullable=False, index=True),
    Column("start", _Plain),
    Column("counted", Integer),
    Index(None, "start", "counted"),
    sqlite_with_rowid=False,
)
"""Every number that a job has or had."""

word_table = Table(
    "index_word",
    metadata,
    Column("word", _Plain, primary_key=True),
    Column("site", _Plain, primary_key=True),
    Column("sequence", Integer, primary_key=True, autoincrement=False),
    Column("job", _Plain, nullable=False, index=True),
    sqlite_with_rowid=False,
)
"""Words of each job's searched text."""

tail_table = Table(
    "index_tail",
    metadata,
    Column("tail", _Plain, primary_key=True),
    Column("word", _Plain, primary_key=True),
    sqlite_with_rowid=False,
)
"""What each word that any job has is found by: its letters from each one on."""

touch_table = Table(
    "index_touch",
    metadata,
    Column("kind", Text, primary_key=True),
    Column("word", _Plain, primary_key=True),
    Column("job_site", _Plain, primary_key=True),
    Column("job_sequence", Integer, primary_key=True, autoincrement=False),
    Column("site", _Plain, primary_key=True),
    Column("sequence", Integer, primary_key=True, autoincrement=False),
    Column("job", _Plain, nullable=False, index=True),
    Column("at", _Plain, nullable=False),
    Column("standing", Boolean, nullable=False),
    sqlite_with_rowid=False,
)


def made(connection: Connection) -> bool:
    """True when the tables are there."""
    if connection.dialect.name == "sqlite":
        query = "SELECT count(*) FROM sqlite_master WHERE type = 'table' AND name LIKE 'index~_%' ESCAPE '~'"
        return bool(connection.execute(text(query)).scalar_one() == len(metadata.tables))
    return inspect(connection).has_table(tail_table.name)


def make(connection: Connection) -> None:
    """Make the tables anew, with nothing in them."""
    metadata.drop_all(connection)
    metadata.create_all(connection)


def heads_in(connection: Connection) -> dict[str, tuple[int, str]]:
    """Return the last fact of each bench that this edition of the index holds."""
    head = head_table.c
    rows = connection.execute(select(head.site, head.sequence, head.hash, head.edition)).all()
    return {row.site: (row.sequence, row.hash) for row in rows if row.edition == EDITION}
