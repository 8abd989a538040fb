"""Keep the index of jobs beside the facts: what a transaction adds to them changes the index in the same transaction.

Only the jobs that the new facts name are worked out again, with those that share a number with them. Where anything is
damaged the index is left behind, and whoever asks it finds it older than the facts.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from itertools import islice
from typing import Any

import msgspec
from sqlalchemy import Connection, Table, bindparam, delete, insert, or_, select

from clubwright.journal.facts import Fact, Place
from clubwright.journal.order import in_order
from clubwright.journal.reducers.fold import fold_subjects
from clubwright.journal.subjects import Subject, subjects_of
from clubwright.journal.timeline import BenchEnd, Moment
from clubwright.journal.touches import touch_word
from clubwright.services.record.job_lines import JobEntry, JobLine, entries_of, said, searched_text
from clubwright.services.record.ledger import Damage, DamagedError
from clubwright.services.record.search import day_of
from clubwright.store.erasing import judged_erased
from clubwright.store.index.order import head_row, moments_of
from clubwright.store.index.tables import head_table, job_table, number_table, tail_table, touch_table, word_table
from clubwright.store.index.words import enter_tails, tails_of, words_in, words_of
from clubwright.store.rows import judged
from clubwright.store.tables import fact_table
from clubwright.ticket.ticket_number import counted

AT_ONCE = 200
"""So many ticket numbers are worked out together."""

TABLES = (job_table, number_table, touch_table, word_table, tail_table)
"""What follows from jobs, beside the places of facts."""
_Rows = list[dict[str, Any]]


def write_jobs(connection: Connection, jobs: Iterable[str]) -> None:
    """Work out the jobs of some numbers, and what shares a number with them, and put them in place of what is there.

    Args:
        connection: In a transaction that nobody else can write beside; each fact has its place in the order by now.
        jobs: Ticket numbers that facts name.

    Raises:
        DamagedError: when a fact of them is damaged.
    """
    left = iter(sorted(set(jobs) - {""}))
    while some := list(islice(left, AT_ONCE)):
        numbers, subjects, written = _all_of(connection, some)
        shop = fold_subjects(subjects, {})
        entries = list(entries_of(subjects, shop, written))
        _put(connection, job_table, numbers, [_job_row(entry) for entry in entries])
        _put(connection, number_table, numbers, [row for entry in entries for row in _number_rows(entry)])
        _put(connection, touch_table, numbers, [row for entry in entries for row in _touch_rows(entry)])
        before, rows = words_in(connection, numbers), [row for entry in entries for row in _word_rows(entry)]
        _put(connection, word_table, numbers, rows)
        enter_tails(connection, before, {row["word"] for row in rows})


def rows_of(entries: Iterable[JobEntry]) -> dict[str, set[tuple[Any, ...]]]:
    """Return what the tables are to say, as `StoredIndex.rows` gives it."""
    found: dict[str, set[tuple[Any, ...]]] = {table.name: set() for table in TABLES}
    for entry in entries:
        for table, rows in (
            (job_table, [_job_row(entry)]),
            (number_table, _number_rows(entry)),
            (touch_table, _touch_rows(entry)),
            (word_table, _word_rows(entry)),
        ):
            found[table.name] |= {tuple(row[column.name] for column in table.columns) for row in rows}
    found[tail_table.name] |= tails_of({row[0] for row in found[word_table.name]})
    return found


def write_heads(connection: Connection, seals: Mapping[str, str], ends: Mapping[str, BenchEnd]) -> None:
    """Say up to which fact of each bench the index goes.

    Args:
        connection: In the same transaction.
        seals: Hash of the last fact of each bench that wrote.
        ends: Of these, and of others whose end moved.
    """
    known = {row.site: row.hash for row in connection.execute(select(head_table.c.site, head_table.c.hash))}
    rows = [head_row(site, {**known, **seals}[site], end) for site, end in sorted(ends.items())]
    if rows:
        connection.execute(delete(head_table).where(head_table.c.site.in_(sorted(ends))))
        connection.execute(insert(head_table), rows)


def _all_of(connection: Connection, jobs: Sequence[str]) -> tuple[set[str], dict[Place, Subject], dict[Place, Moment]]:
    """Read all jobs that share a number, now or as the index has it, with one of some; and the numbers they are under."""
    wanted, read, facts = set(jobs), set[str](), list[Fact]()
    subjects: dict[Place, Subject] = {}
    written: dict[Place, Moment] = {}
    while wanted - read:
        new = sorted(wanted - read)
        found = _facts(connection, new)
        written |= moments_of(connection, found, new)[0]
        facts += (fact for fact in found if fact.place in written)
        read |= wanted
        table = number_table.c
        query = select(table.job, table.number).where(or_(table.job.in_(new), table.number.in_(new)))
        for row in connection.execute(query):
            wanted |= {row.job, row.number}
        subjects = subjects_of(in_order(facts, written))
        wanted |= {number for subject in subjects.values() for number in subject.numbers}
    return wanted, subjects, written


def _facts(connection: Connection, jobs: Sequence[str]) -> list[Fact]:
    query = select(fact_table).where(fact_table.c.job.in_(jobs))
    found = judged_erased(connection, [judged(row) for row in connection.execute(query).mappings()])
    damage = [item for item in found if isinstance(item, Damage)]
    if damage:
        raise DamagedError(damage)
    return [item for item in found if isinstance(item, Fact)]


def _put(connection: Connection, table: Table, jobs: Collection[str], rows: _Rows) -> None:
    """Put rows in place of those that the table has of some numbers; what is the same stays."""
    names = [column.name for column in table.primary_key]
    there = {
        tuple(row[name] for name in names): dict(row)
        for row in connection.execute(select(table).where(table.c.job.in_(sorted(jobs)))).mappings()
    }
    new = [row for row in rows if there.pop(tuple(row[name] for name in names), None) != row]
    changed = [tuple(row[name] for name in names) for row in new]
    gone = [*there, *changed]
    if gone:
        which = [table.c[name] == bindparam(f"its_{name}") for name in names]
        keys = [{f"its_{name}": value for name, value in zip(names, key, strict=True)} for key in gone]
        connection.execute(delete(table).where(*which), keys)
    if new:
        connection.execute(insert(table), new)


def _job_row(entry: JobEntry) -> dict[str, Any]:
    line = entry.line
    return {
        "site": line.place[0],
        "sequence": line.place[1],
        "job": entry.job,
        "name": line.id,
        "came": entry.came,
        "state": "broken" if not isinstance(line, JobLine) else "open" if line.finished is None else "closed",
        "day": day_of(line).isoformat() if isinstance(line, JobLine) else "",
        "last_at": line.trail[-1].at if isinstance(line, JobLine) else "",
        "kind": said(line, "kind") if isinstance(line, JobLine) else "",
        "searched": searched_text(line),
        "player": entry.player,
        "shaft": entry.shaft,
        "again_of": said(line, "again_of") if isinstance(line, JobLine) else "",
        "line": msgspec.json.encode(line).decode(),
    }


def _number_rows(entry: JobEntry) -> Iterator[dict[str, Any]]:
    site, sequence = entry.line.place
    for number in sorted(set(entry.line.numbers)):
        start, count = counted(number) or (None, None)
        yield {
            "number": number,
            "site": site,
            "sequence": sequence,
            "job": entry.job,
            "start": start,
            "counted": count,
        }


def _word_rows(entry: JobEntry) -> Iterator[dict[str, Any]]:
    site, sequence = entry.line.place
    for word in sorted(words_of(searched_text(entry.line))):
        yield {"word": word, "site": site, "sequence": sequence, "job": entry.job}


def _touch_rows(entry: JobEntry) -> Iterator[dict[str, Any]]:
    site, sequence = entry.line.place
    found = {}
    for touch in entry.touches:
        row = {
            "kind": touch.kind,
            "word": touch_word(touch.name),
            "job_site": site,
            "job_sequence": sequence,
            "site": touch.fact[0],
            "sequence": touch.fact[1],
            "job": entry.job,
            "at": touch.at,
            "standing": touch.standing,
        }
        found[(row["kind"], row["word"], touch.fact)] = row
    yield from found.values()
