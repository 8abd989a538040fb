"""The one table of the record, as SQLAlchemy sees it; the migrations make it, with the triggers that keep it append-only."""

from __future__ import annotations

from typing import Any

from sqlalchemy import CheckConstraint, Column, Dialect, Index, Integer, MetaData, Table, Text, UniqueConstraint
from sqlalchemy.dialects.postgresql import JSONB
from sqlalchemy.types import TypeDecorator, TypeEngine

from clubwright.journal.chain import canonical


class PlainData(TypeDecorator[dict[str, Any]]):
    """JSONB on PostgreSQL, read as plain data; on SQLite, whose strict tables know no JSON type, the canonical text."""

    impl = Text
    cache_ok = True

    def load_dialect_impl(self, dialect: Dialect) -> TypeEngine[Any]:
        """Choose the column's own type."""
        return dialect.type_descriptor(JSONB() if dialect.name == "postgresql" else Text())

    def process_bind_param(self, value: dict[str, Any] | None, dialect: Dialect) -> Any:
        """Write: JSONB takes the data itself."""
        if value is None or dialect.name == "postgresql":
            return value
        return canonical(value).decode()

    def process_result_value(self, value: Any, dialect: Dialect) -> Any:  # noqa: ARG002 - SQLAlchemy's call
        """Read back as it is kept: the hash of a fact is over the text."""
        return value


metadata = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
        "pk": "pk_%(table_name)s",
    }
)

fact_table = Table(
    "fact",
    metadata,
    Column("site", Text, primary_key=True),
    Column("sequence", Integer, primary_key=True, autoincrement=False),
    Column("at", Text, nullable=False),
    Column("by", Text, nullable=False),
    Column("typed", Text, nullable=False),
    Column("kind", Text, nullable=False),
    Column("job", Text, nullable=False),
    Column("what", PlainData, nullable=False),
    Column("key", Text, nullable=False),
    Column("previous_hash", Text, nullable=False),
    Column("hash", Text, nullable=False),
    CheckConstraint("sequence > 0", name="sequence_from_one"),
    UniqueConstraint("key"),
    Index(None, "job"),
    sqlite_strict=True,
)
