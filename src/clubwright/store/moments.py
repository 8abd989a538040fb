"""When each fact counts as written, learned once for a record: facts never change, and a site's follow on without a gap."""

from __future__ import annotations

import threading
from collections.abc import Mapping

from sqlalchemy import Connection, and_, or_, select

from clubwright.journal.facts import Place
from clubwright.journal.order import Latest, moments
from clubwright.store.tables import fact_table


class Moments:
    """What `clubwright.journal.order.moments` says of a whole record, without reading the whole record each time."""

    def __init__(self) -> None:
        self._found: dict[Place, str] = {}
        self._latest: dict[str, Latest] = {}
        self._lock = threading.Lock()

    def of(self, connection: Connection) -> Mapping[Place, str]:
        """Return the moments of all facts that this connection sees; those that are new since the last time are read."""
        table = fact_table.c
        query = select(table.site, table.sequence, table.at)
        with self._lock:
            if self._latest:
                later = [
                    and_(table.site == site, table.sequence > last.sequence) for site, last in self._latest.items()
                ]
                query = query.where(or_(table.site.not_in(list(self._latest)), *later))
            rows = connection.execute(query).all()
            self._found.update(moments(((row.site, row.sequence, row.at) for row in rows), self._latest))
            return self._found
