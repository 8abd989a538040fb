"""When each fact counts as written, learned once for a record: facts never change, and a site's follow on without a gap."""

from __future__ import annotations

import threading
from collections import Counter
from collections.abc import Mapping, Sequence

from sqlalchemy import Connection, Row, and_, or_, select

from clubwright.errors import RecordError
from clubwright.journal.facts import Place
from clubwright.journal.order import Latest, moments
from clubwright.store.tables import fact_table


class TornError(RecordError):
    """The table of facts does not hold together."""


class Moments:
    """What `clubwright.journal.order.moments` says of a whole record, without reading the whole record each time."""

    def __init__(self) -> None:
        self._found: dict[Place, str] = {}
        self._latest: dict[str, Latest] = {}
        self._of_job: Counter[str] = Counter()
        self._lock = threading.Lock()

    def count(self, job: str | None = None) -> int:
        """Return how many facts the table held when it was read last, of one job or of all."""
        return len(self._found) if job is None else self._of_job[job]

    def of(self, connection: Connection) -> Mapping[Place, str]:
        """Return the moments of all facts that this connection sees; those that are new since the last time are read.

        Raises:
            TornError: when a site's facts do not follow on without a gap, or are no facts.
        """
        table = fact_table.c
        query = select(table.site, table.sequence, table.at, table.job)
        with self._lock:
            if self._latest:
                later = [
                    and_(table.site == site, table.sequence > last.sequence) for site, last in self._latest.items()
                ]
                query = query.where(or_(table.site.not_in(list(self._latest)), *later))
            rows = connection.execute(query).all()
            self._require_whole(rows)
            self._found.update(moments(((row.site, row.sequence, row.at) for row in rows), self._latest))
            self._of_job.update(row.job for row in rows)
            return self._found

    def _require_whole(self, rows: Sequence[Row[str, int, str, str]]) -> None:
        numbers: dict[str, list[int]] = {}
        for row in rows:
            if not (isinstance(row.site, str) and isinstance(row.sequence, int) and isinstance(row.at, str)):
                raise TornError("a row of the table holds no fact: verify the record")
            numbers.setdefault(row.site, []).append(row.sequence)
        for site, found in numbers.items():
            before = self._latest[site].sequence if site in self._latest else 0
            if len(found) != max(found) - before or min(found) != before + 1:
                raise TornError(f"facts of {site} are missing: verify the record")
