"""When each fact counts as written, learned once for a record: facts never change, and a site's follow on without a gap."""

from __future__ import annotations

import threading
from collections import Counter
from collections.abc import Collection, Mapping, Sequence

from sqlalchemy import Connection, Row, Select, and_, bindparam, or_, select

from clubwright.errors import RecordError
from clubwright.journal.facts import Place, RecordsMerged, kind_of
from clubwright.journal.order import seen_by
from clubwright.journal.timeline import Heads, Moment, Timeline
from clubwright.services.ledger import Damage
from clubwright.store.rows import judged
from clubwright.store.tables import fact_table

MERGED = kind_of(RecordsMerged(heads={}))
_ROWS: Select[tuple[str, int, str, str, str]] = select(
    fact_table.c.site, fact_table.c.sequence, fact_table.c.at, fact_table.c.job, fact_table.c.kind
)


class TornError(RecordError):
    """The table of facts does not hold together."""


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
            if known != self._asked[0]:
                self._asked = (known, _later(known))
            last = {f"last_{number}": self._timeline.last(site) for number, site in enumerate(known)}
            rows = connection.execute(self._asked[1], last).all()
            self._require_whole(rows)
            saw = dict(
                found
                for row in rows
                if row.kind == MERGED and (found := _saw(connection, row.site, row.sequence)) is not None
            )
            self._timeline.add([(row.site, row.sequence, row.at) for row in rows], saw)
            self._of_job.update(row.job for row in rows)
            for row in rows:
                self._jobs_of_kind.setdefault(row.kind, set()).add(row.job)
            return self._timeline.moments

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


def _later(known: Sequence[str]) -> Select[tuple[str, int, str, str, str]]:
    """Ask for what is new: of sites that are known behind their last number, and all of others.

    Put together once for as long as the sites are the same, since it is asked at every look at the record.
    """
    table = fact_table.c
    later = [
        and_(table.site == site, table.sequence > bindparam(f"last_{number}")) for number, site in enumerate(known)
    ]
    return _ROWS.where(or_(table.site.not_in(known), *later))


def _saw(connection: Connection, site: str, sequence: int) -> tuple[Place, Heads] | None:
    """Read what a merge had seen; nothing where its fact is damaged, which is told elsewhere."""
    table = fact_table.c
    query = select(fact_table).where(table.site == site, table.sequence == sequence)
    row = connection.execute(query).mappings().first()
    found = None if row is None else judged(row)
    if found is None or isinstance(found, Damage):
        return None
    heads = seen_by(found)
    return None if heads is None else (found.place, heads)
