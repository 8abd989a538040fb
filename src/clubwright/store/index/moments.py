"""When each fact counts as written, learned from all of them: what a record is read by whose index cannot be asked."""

from __future__ import annotations

import threading
from collections import Counter
from collections.abc import Collection, Mapping, Sequence

from sqlalchemy import Connection, Row, Select, and_, bindparam, func, or_, select

from clubwright.journal.facts import Place
from clubwright.journal.timeline import Moment, Timeline
from clubwright.store.groups import sites_of
from clubwright.store.index.order import MERGED, TornError, seen_in
from clubwright.store.tables import fact_table

_COUNT = select(func.count()).select_from(fact_table)
_ROWS: Select[tuple[str, int, str, str, str]] = select(
    fact_table.c.site, fact_table.c.sequence, fact_table.c.at, fact_table.c.job, fact_table.c.kind
)


class Moments:
    """What `clubwright.journal.timeline` says of a whole record, without reading the whole record each time."""

    def __init__(self) -> None:
        self._timeline = Timeline()
        self._of_job: Counter[str] = Counter()
        self._jobs_of_kind: dict[str, set[str]] = {}
        self._lock = threading.Lock()
        self._asked: tuple[tuple[str, ...], Select[tuple[str, int, str, str, str]]] = ((), _ROWS)

    def count(self, job: str | None = None) -> int:
        """Return how many facts the table held when it was read last, of one job or of all."""
        return len(self._timeline.moments) if job is None else self._of_job[job]

    def jobs_of(self, kinds: Collection[str]) -> set[str]:
        """Return the ticket numbers that facts of some kinds named when the table was read last."""
        return set().union(*(self._jobs_of_kind.get(kind, ()) for kind in kinds))

    def of(self, connection: Connection) -> Mapping[Place, Moment]:
        """Return the moments of all facts that this connection sees; those that are new since the last time are read.

        Raises:
            TornError: when a site's facts do not follow on without a gap, or are no facts.
        """
        with self._lock:
            known = self._timeline.sites
            # asked bench by bench: anything else would have the database read every fact again
            sites = tuple(sites_of(connection)) if known else ()
            if sites != self._asked[0]:
                self._asked = (sites, _later(sites))
            last = {f"last_{number}": self._timeline.last(site) for number, site in enumerate(sites)}
            rows = connection.execute(self._asked[1], last).all()
            self._require_whole(rows)
            saw = dict(
                found
                for row in rows
                if row.kind == MERGED and (found := seen_in(connection, row.site, row.sequence)) is not None
            )
            self._timeline.add([(row.site, row.sequence, row.at) for row in rows], saw)
            self._of_job.update(row.job for row in rows)
            for row in rows:
                self._jobs_of_kind.setdefault(row.kind, set()).add(row.job)
            return self._timeline.moments

    def last_place(self) -> Place | None:
        """Return the fact that came last when the table was read last; None in an empty record."""
        with self._lock:
            moments = self._timeline.moments
            lasts = [(site, self._timeline.last(site)) for site in self._timeline.sites]
            return max(lasts, key=lambda place: (moments[place], *place), default=None)

    def require_all(self, connection: Connection, job: str | Collection[str] | None, count: int) -> None:
        """Hold what an index led to against the table, or what the table gave against an index: SQLite trusts both.

        Args:
            connection: Of which `of` was asked.
            job: Of which ticket numbers facts were asked for; of all when None.
            count: How many were found.

        Raises:
            TornError: when those are not all.
        """
        if isinstance(job, str):
            known = {self.count(job)}
        elif job is not None:
            known = {sum(map(self.count, set(job)))}
        else:
            known = {self.count(), int(connection.execute(_COUNT).scalar_one())}
        if known != {count}:
            raise TornError("the record and its index differ: verify it")

    def _require_whole(self, rows: Sequence[Row[tuple[str, int, str, str, str]]]) -> None:
        numbers: dict[str, list[int]] = {}
        for row in rows:
            if not (isinstance(row.site, str) and isinstance(row.sequence, int) and isinstance(row.at, str)):
                raise TornError("a row of the table holds no fact: verify the record")
            numbers.setdefault(row.site, []).append(row.sequence)
        for site, found in numbers.items():
            before = self._timeline.last(site)
            if len(found) != max(found) - before or min(found) != before + 1:
                raise TornError(f"facts of {site} are missing: verify the record")


def _later(sites: Sequence[str]) -> Select[tuple[str, int, str, str, str]]:
    """Ask for what is new: of each site what stands behind the last number that is known; everything where none is named.

    Put together once for as long as the sites are the same, since it is asked at every look at the record.
    """
    table = fact_table.c
    later = [
        and_(table.site == site, table.sequence > bindparam(f"last_{number}")) for number, site in enumerate(sites)
    ]
    return _ROWS.where(or_(*later)) if later else _ROWS
