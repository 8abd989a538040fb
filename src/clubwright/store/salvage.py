"""What a damaged SQLite file still gives, row by row, and which jobs the rows that it no longer gives belong to."""

from __future__ import annotations

import sqlite3
from collections.abc import Collection, Iterable, Mapping
from typing import Any

from sqlalchemy import Connection

from clubwright.errors import Finding
from clubwright.journal.chain import GO_BACK
from clubwright.journal.facts import Fact, NamesErased, kind_of
from clubwright.journal.order import in_order
from clubwright.services.record.ledger import Damage, Readable
from clubwright.store.erasing import proven
from clubwright.store.rows import judged
from clubwright.store.tables import fact_table

MOST_LOOKED_FOR = 20_000
"""So many rows are looked for one by one between the two ends that a walk reached."""
MOST_NAMED = 5
"""So many missing facts are named for each site."""

_NAMES = [column.name for column in fact_table.columns]
# read as bytes: a text that is no longer UTF-8 would else end the whole walk
_COLUMNS = ", ".join(
    "CASE typeof(sequence) WHEN 'integer' THEN sequence END" if name == "sequence" else f'CAST("{name}" AS BLOB)'
    for name in _NAMES
)
_ROWS = f"SELECT rowid, {_COLUMNS} FROM fact NOT INDEXED"  # noqa: S608 - put together from constants
_OF_JOBS = "SELECT rowid, CAST(job AS BLOB) FROM fact INDEXED BY ix_fact_job"

_Rows = dict[int, tuple[Any, ...]]


def salvaged(connection: Connection) -> Readable:
    """Read what can be read, from both ends and then row by row in between; damage is told, and never raised."""
    driver: Any = connection.connection.driver_connection
    rows: _Rows = {}
    refused = _walk(driver, f"{_ROWS} ORDER BY rowid", rows)
    if refused:
        first = max(rows, default=0)
        _walk(driver, f"{_ROWS} ORDER BY rowid DESC", rows)
        last = min((number for number in rows if number > first), default=first)
        for number in range(first + 1, min(last, first + MOST_LOOKED_FOR)):
            _walk(driver, f"{_ROWS} WHERE rowid = {number}", rows)
    indexed: _Rows = {}
    _walk(driver, _OF_JOBS, indexed)
    found = [judged(_named(row)) for row in rows.values()]
    found = proven(found, [item for item in found if isinstance(item, Fact) and isinstance(item.what, NamesErased)])
    facts = in_order(item for item in found if isinstance(item, Fact))
    damage = [item for item in found if isinstance(item, Damage)]
    damage += _lost({number: row for number, row in indexed.items() if number not in rows})
    if refused:
        damage.append(_of_file(f"a part of it cannot be read ({refused})"))
    return Readable(facts=facts, damage=(*damage, *gaps(facts, damage)))


def only(
    found: Readable, job: str | Collection[str] | None, kinds: Collection[str] | None, since: str | None
) -> Readable:
    """Return what was asked for of what was salvaged; damage is told whatever was asked for."""
    jobs = {job} if isinstance(job, str) else None if job is None else set(job)
    facts = [
        fact
        for fact in found.facts
        if (jobs is None or fact.what.job in jobs)
        and (kinds is None or kind_of(fact.what) in kinds)
        and (since is None or fact.at > since)
    ]
    return Readable(facts=facts, damage=found.damage)


def gaps(facts: Iterable[Fact], damage: Iterable[Damage]) -> list[Damage]:
    """Say which facts of each site are missing below its last sound one; nobody knows of which job they were."""
    there: dict[str, set[int]] = {}
    last: dict[str, int] = {}
    for fact in facts:
        there.setdefault(fact.site, set()).add(fact.sequence)
        last[fact.site] = max(fact.sequence, last.get(fact.site, 0))
    for item in damage:
        if item.place is not None:
            there.setdefault(item.place[0], set()).add(item.place[1])
    found = []
    for site, number in sorted(last.items()):
        missing = [f"{site}/{each}" for each in range(1, number) if each not in there[site]]
        if missing:
            more = " and others" if len(missing) > MOST_NAMED else ""
            said = ", ".join(missing[:MOST_NAMED]) + more
            found.append(_of_file(f"facts are missing, and nobody knows of which jobs: {said}"))
    return found


def _walk(driver: Any, query: str, rows: _Rows) -> str:
    """Read rows by their number until there are no more; return what SQLite refused with, empty when nothing."""
    try:
        for row in driver.execute(query):
            rows[row[0]] = row[1:]
    except sqlite3.Error as refused:
        return str(refused)
    return ""


def _named(row: tuple[Any, ...]) -> Mapping[str, Any]:
    return {
        name: value.decode("utf-8", errors="replace") if isinstance(value, bytes) else value
        for name, value in zip(_NAMES, row, strict=True)
    }


def _lost(rows: _Rows) -> list[Damage]:
    """Say which jobs have facts that the index of jobs still knows of, and the table no longer gives."""
    counts: dict[str, int] = {}
    for (job,) in rows.values():
        name = job.decode("utf-8", errors="replace") if isinstance(job, bytes) else ""
        counts[name] = counts.get(name, 0) + 1
    return [
        Damage(
            finding=Finding(where=f"job {job}", what=f"facts that cannot be read any more: {count}", mend=GO_BACK),
            jobs=(job,),
        )
        for job, count in sorted(counts.items())
        if job
    ]


def _of_file(what: str) -> Damage:
    return Damage(finding=Finding(where="record file", what=what, mend=GO_BACK))
