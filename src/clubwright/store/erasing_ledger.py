"""The part of the record in a database by which texts are erased: all else of it only grows; and its transactions."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy import Connection, Engine, func, insert, select, text
from sqlalchemy.exc import DBAPIError

from clubwright.journal.facts import Fact
from clubwright.services.record.erasure import Erasure
from clubwright.services.record.ledger import ConflictError, Merger
from clubwright.store.engine import READING
from clubwright.store.erasing import rewrite, sweep
from clubwright.store.groups import group, head, sealed
from clubwright.store.index.tables_of import wait_for_others
from clubwright.store.refusal import refusal
from clubwright.store.rows import row_of
from clubwright.store.tables import fact_table


class ErasingLedger:
    """What `clubwright.store.ledger.Ledger` erases with."""

    engine: Engine

    @contextmanager
    def _writing(self) -> Iterator[Connection]:
        """One transaction that nobody else can write beside."""
        try:
            with self.engine.begin() as connection:
                if connection.dialect.name == "postgresql":
                    wait_for_others(connection)
                yield connection
        except DBAPIError as refused:
            raise refusal(refused) from refused

    @contextmanager
    def _reading(self) -> Iterator[Connection]:
        try:
            with self.engine.connect().execution_options(**{READING: True}) as connection:
                yield connection
        except DBAPIError as refused:
            raise refusal(refused) from refused

    def erase(self, erasure: Erasure, merger: Merger, seen: int) -> list[Fact]:
        """Erase texts of facts and write the facts that say so, all in one transaction."""
        # pages that were given up before this program overwrote such pages
        self.sweep()
        with self._writing() as connection:
            there = group(connection, merger.key)
            if there:
                return there
            found = int(connection.execute(select(func.count()).select_from(fact_table)).scalar_one())
            if found != seen:
                raise ConflictError(merger.site, seen, found)
            written = self.erase_within(connection, erasure, merger)
        self.sweep()
        return written

    def erase_within(
        self, connection: Connection, erasure: Erasure, merger: Merger | None, first: int = 1
    ) -> list[Fact]:
        """Erase in the caller's transaction.

        Args:
            connection: Of the transaction.
            erasure: What is erased.
            merger: Who says so; None where facts say so already.
            first: Number of the first fact among those of the action.
        """
        if connection.dialect.name == "postgresql":
            connection.execute(text("LOCK TABLE fact IN ACCESS EXCLUSIVE MODE"))
        written: list[Fact] = []
        if erasure.whats:
            assert merger is not None  # whoever has something to say says who says it
            written = sealed(
                head(connection, merger.site),
                erasure.whats,
                site=merger.site,
                by=merger.by,
                at=merger.at,
                typed=erasure.typed,
                key=merger.key,
                first=first,
            )
            connection.execute(insert(fact_table), [row_of(fact) for fact in written])
        rewrite(connection, erasure.covered)
        return written

    def sweep(self) -> None:
        """Give back pages that are no longer used."""
        sweep(self.engine)
