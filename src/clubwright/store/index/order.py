"""Where each fact stands in the order of all, kept in the index: nobody has to read every fact to put a job's own in order.

A fact that counts by its own time, as nearly all do, only has its level kept: its time is read off the fact itself. What a
fact moves of others is found anew from all (`clubwright.journal.timeline`), in the transaction that writes it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from typing import Any

from sqlalchemy import ColumnElement, Connection, Row, bindparam, func, insert, literal, select, tuple_, update

from clubwright.errors import RecordError
from clubwright.journal.facts import Fact, Place, RecordsMerged, kind_of
from clubwright.journal.order import seen_by
from clubwright.journal.timeline import NO_END, BenchEnd, Heads, Moment, Timeline, going_on
from clubwright.journal.times import sorted_by
from clubwright.services.record.ledger import Damage
from clubwright.store.groups import head
from clubwright.store.index.tables import EDITION, head_table, order_table
from clubwright.store.rows import judged
from clubwright.store.tables import fact_table

MERGED = kind_of(RecordsMerged(heads={}))
_FACT = fact_table.c
_HEAD = head_table.c
_ORDER = order_table.c
_PLACED = select(_ORDER.site, _ORDER.sequence, _ORDER.time, _ORDER.level)
_PLACED_OF_JOB = _PLACED.where(_ORDER.job == bindparam("job"))


class TornError(RecordError):
    """The table of facts does not hold together."""


def moments_of(
    connection: Connection,
    facts: Iterable[Fact],
    job: str | Collection[str] | None,
    kinds: Collection[str] | None = None,
    since: str | None = None,
) -> tuple[dict[Place, Moment], int]:
    """Return the moments of facts, and how many facts the index has of what was asked for.

    Args:
        connection: Its index was found to be whole, and these facts were read before.
        facts: What was found. One that the index does not know yet gets no moment.
        job: Ticket numbers that were asked for; all when None.
        kinds: Kinds, likewise.
        since: Time after which they were written, likewise.

    Raises:
        TornError: when the index would put a bench's facts in another order than its own.
    """
    query = _PLACED_OF_JOB if isinstance(job, str) else _PLACED if job is None else _PLACED.where(_ORDER.job.in_(job))
    query = query if kinds is None else query.where(_ORDER.kind.in_(sorted(kinds)))
    query = query if since is None else query.where(_ORDER.at > since)
    rows = connection.execute(query, {"job": job} if isinstance(job, str) else {})
    kept: dict[Place, tuple[str | None, int]] = {(site, number): (time, level) for site, number, time, level in rows}
    found: dict[Place, Moment] = {}
    last: dict[str, Moment] = {}
    for fact in sorted(facts, key=lambda fact: fact.place):
        there = kept.get(fact.place)
        if there is not None:
            time, level = there
            moment = (sorted_by(fact.at) if time is None else time, level)
            if moment < last.get(fact.site, moment):
                raise TornError("the index of jobs is damaged: verify the record")
            found[fact.place] = last[fact.site] = moment
    return found, len(kept)


def of_kinds(kinds: Collection[str], since: str | None = None) -> ColumnElement[bool]:
    """Ask of the table of facts those of some kinds, written after a time where one is given."""
    those = select(_ORDER.site, _ORDER.sequence).where(_ORDER.kind.in_(sorted(kinds)))
    return tuple_(_FACT.site, _FACT.sequence).in_(those if since is None else those.where(_ORDER.at > since))


def write_all(connection: Connection) -> dict[str, BenchEnd]:
    """Put every fact in its place, in an index that holds nothing, and return the ends of all benches.

    Raises:
        TornError: when a bench's facts do not follow on without a gap.
    """
    copied = ("job", "site", "sequence", "kind", "at")
    from_facts = select(*(_FACT[name] for name in copied), literal(0))
    connection.execute(insert(order_table).from_select((*copied, "level"), from_facts))
    rows = connection.execute(select(order_table)).all()
    for site, count in Counter(row.site for row in rows).items():
        if count != head(connection, site)[0]:
            raise TornError(f"facts of {site} are missing: verify the record")
    timeline = Timeline()
    timeline.add([(row.site, row.sequence, row.at) for row in rows], _seen(connection, rows))
    _move(connection, rows, timeline.moments)
    return timeline.ends()


def follow_all(connection: Connection, new: Sequence[Fact]) -> tuple[dict[str, BenchEnd], set[str]]:
    """Put new facts in their places, and return the ends that are others now, and the numbers of jobs that moved.

    Args:
        connection: In the transaction that has just written them; its index holds what was there before.
        new: What it wrote.
    """
    rows = [(fact.site, fact.sequence, fact.at) for fact in new]
    saw = {fact.place: heads for fact in new if (heads := seen_by(fact)) is not None}
    before = _ends(connection, {fact.site for fact in new})
    after = None if saw or before is None else going_on(before, rows)
    levels = {site: end.moment[1] for site, end in (after or {}).items()}
    connection.execute(
        insert(order_table),
        [
            {
                "job": fact.what.job,
                "site": fact.site,
                "sequence": fact.sequence,
                "kind": kind_of(fact.what),
                "at": fact.at,
                "time": None,
                "level": levels.get(fact.site, 0),
            }
            for fact in new
        ],
    )
    if after is not None:
        return after, set()
    placed = connection.execute(select(order_table)).all()
    timeline = Timeline()
    timeline.add([(row.site, row.sequence, row.at) for row in placed], _seen(connection, placed))
    return timeline.ends(), _move(connection, placed, timeline.moments)


def last_place(connection: Connection) -> Place | None:
    """Return the fact that comes last of all; None in an empty index."""
    rows = connection.execute(select(_HEAD.site, _HEAD.sequence, _HEAD.time, _HEAD.level)).all()
    lasts = [((row.time, row.level), row.site, row.sequence) for row in rows]
    return max(lasts)[1:] if lasts else None


def order_rows(facts: Sequence[Fact]) -> dict[str, set[tuple[Any, ...]]]:
    """Return what the tables are to say of the order of all facts of a record."""
    timeline = Timeline()
    saw = {fact.place: seen for fact in facts if (seen := seen_by(fact)) is not None}
    timeline.add([(fact.site, fact.sequence, fact.at) for fact in facts], saw)
    places, heads = set[tuple[Any, ...]](), set[tuple[Any, ...]]()
    ends = timeline.ends()
    for fact in facts:
        moment = timeline.moments[fact.place]
        places.add((fact.what.job, *fact.place, kind_of(fact.what), fact.at, _kept(fact.at, moment), moment[1]))
        if fact.sequence == ends[fact.site].number:
            heads.add((*fact.place, fact.hash, EDITION, *_end_of(ends[fact.site])))
    return {order_table.name: places, head_table.name: heads}


def head_row(site: str, seal: str, end: BenchEnd) -> dict[str, Any]:
    """Return the row of one bench's last fact."""
    columns = ("written", "time", "level", "believed", "seen_to")
    ends = dict(zip(columns, _end_of(end), strict=True))
    return {"site": site, "sequence": end.number, "hash": seal, "edition": EDITION, **ends}


def _end_of(end: BenchEnd) -> tuple[Any, ...]:
    return (end.written, *end.moment, end.believed, end.seen_to)


def _ends(connection: Connection, sites: Collection[str]) -> dict[str, BenchEnd] | None:
    """Return the ends of some benches; None where a merge may have seen facts of a bench that is new here."""
    query = select(head_table).where(_HEAD.site.in_(sorted(sites)))
    found = {
        row.site: BenchEnd(row.sequence, row.written, (row.time, row.level), row.believed, row.seen_to)
        for row in connection.execute(query)
    }
    if found.keys() != set(sites):
        if connection.execute(select(_ORDER.site).where(_ORDER.kind == MERGED).limit(1)).first() is not None:
            return None
        found |= dict.fromkeys(set(sites) - found.keys(), NO_END)
    return found


def _move(connection: Connection, rows: Iterable[Row[Any]], moments: Mapping[Place, Moment]) -> set[str]:
    """Put those facts in their places that stand elsewhere in the table, and return the numbers of their jobs."""
    moved = []
    for row in rows:
        time, level = _kept(row.at, moments[(row.site, row.sequence)]), moments[(row.site, row.sequence)][1]
        if (row.time, row.level) != (time, level):
            key = {"its_job": row.job, "its_site": row.site, "its_sequence": row.sequence}
            moved.append({**key, "time": time, "level": level})
    if moved:
        which = [_ORDER[name] == bindparam(f"its_{name}") for name in ("job", "site", "sequence")]
        connection.execute(update(order_table).where(*which), moved)
    return {row["its_job"] for row in moved}


def _kept(at: str, moment: Moment) -> str | None:
    return None if moment[0] == sorted_by(at) else moment[0]


def _seen(connection: Connection, rows: Iterable[Row[Any]]) -> dict[Place, Heads]:
    """Read what merges had seen."""
    return dict(
        found
        for row in rows
        if row.kind == MERGED and (found := seen_in(connection, row.site, row.sequence)) is not None
    )


def seen_in(connection: Connection, site: str, sequence: int) -> tuple[Place, Heads] | None:
    """Read what a merge had seen; nothing where its fact is damaged, which is told elsewhere."""
    query = select(fact_table).where(_FACT.site == site, _FACT.sequence == sequence)
    row = connection.execute(query).mappings().first()
    found = None if row is None else judged(row)
    if found is None or isinstance(found, Damage):
        return None
    heads = seen_by(found)
    return None if heads is None else (found.place, heads)


def counted(connection: Connection) -> tuple[int, int]:
    """Return how many facts the index holds, and how many the table."""
    sizes = (select(func.count()).select_from(table) for table in (order_table, fact_table))
    index, facts = (int(connection.execute(size).scalar_one()) for size in sizes)
    return index, facts
