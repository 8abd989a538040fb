"""The index of jobs as the record's own tables answer it; it means what `clubwright.services.record.folded_index` says."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import msgspec
from sqlalchemy import ColumnElement, Connection, and_, func, or_, select

from clubwright.errors import Finding
from clubwright.journal.facts import Place
from clubwright.journal.job import BrokenJob
from clubwright.journal.touches import TouchKind, touch_word
from clubwright.services.record.job_index import Alike, JobIndex, TouchedJob, touched_job
from clubwright.services.record.job_lines import JobLine
from clubwright.services.record.search import Search, sought
from clubwright.store.index.tables import job_table, metadata, number_table, touch_table
from clubwright.store.index.words import few_places

_LINE: msgspec.json.Decoder[JobLine] = msgspec.json.Decoder(JobLine)
_BROKEN: msgspec.json.Decoder[BrokenJob] = msgspec.json.Decoder(BrokenJob)
_JOB = job_table.c


class StoredIndex(JobIndex):
    """The index in a record whose tables hold every fact that this connection sees.

    Args:
        connection: In one transaction, which must not be held for longer than the answers take.
    """

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def __len__(self) -> int:
        return int(self._connection.execute(select(func.count()).select_from(job_table)).scalar_one())

    def rows(self) -> dict[str, set[tuple[Any, ...]]]:
        """Return all that the tables say, by table."""
        return {
            table.name: {tuple(row) for row in self._connection.execute(select(table))}
            for table in metadata.sorted_tables
        }

    def lines(self, search: Search, limit: int | None = None, offset: int = 0) -> tuple[list[JobLine], int]:
        """Return the jobs that fit a search."""
        words = sought(search.words)
        few = next((some for word in words if (some := few_places(self._connection, word)) is not None), None)
        if few is not None:
            return self._lines_of(few, search, limit, offset)
        fits = self._fits(search)
        latest = (_JOB.day.desc(), _JOB.last_at.desc(), _JOB.name.desc())
        those = select(_JOB.site, _JOB.sequence).where(*fits).order_by(*latest)
        chosen = (those if limit is None else those.limit(limit).offset(offset)).subquery()
        here = (_JOB.site == chosen.c.site) & (_JOB.sequence == chosen.c.sequence)
        rows = self._connection.execute(select(_JOB.line).join(chosen, here).order_by(*latest)).scalars()
        found = [_LINE.decode(row) for row in rows]
        if limit is None:
            return found[offset:], len(found)
        if len(found) < limit and (found or not offset):
            return found, offset + len(found)
        count = select(func.count()).select_from(job_table).where(*fits)
        return found, int(self._connection.execute(count).scalar_one())

    def _lines_of(
        self, places: list[Place], search: Search, limit: int | None, offset: int
    ) -> tuple[list[JobLine], int]:
        """Return those of some jobs that fit: each is looked at by its place, and the text of no other."""
        if not places:
            return [], 0
        numbers: dict[str, list[int]] = {}
        for site, number in places:
            numbers.setdefault(site, []).append(number)
        # bench by bench: SQLite looks up no list of pairs
        here = or_(*(and_(_JOB.site == site, _JOB.sequence.in_(some)) for site, some in sorted(numbers.items())))
        # put together with nothing, so that SQLite does not take its index of states for the shorter way
        query = select(_JOB.day, _JOB.last_at, _JOB.name, _JOB.line).where(
            here, *self._fits(search, _JOB.state.concat(""))
        )
        rows = sorted(map(tuple, self._connection.execute(query)), reverse=True)
        until = None if limit is None else offset + limit
        return [_LINE.decode(row[-1]) for row in rows[offset:until]], len(rows)

    def _fits(self, search: Search, state: ColumnElement[str] = _JOB.state) -> list[ColumnElement[bool]]:
        states = ("closed", "open") if search.state == "all" else (search.state,)
        fits: list[ColumnElement[bool]] = [state.in_(states)]
        if search.kind:
            fits.append(_JOB.kind == search.kind)
        if search.since is not None:
            fits.append(_JOB.day >= search.since.isoformat())
        if search.until is not None:
            fits.append(_JOB.day <= search.until.isoformat())
        place = func.instr if self._connection.dialect.name == "sqlite" else func.strpos
        fits += [place(_JOB.searched, word) > 0 for word in sought(search.words)]
        return fits

    def every(self) -> list[JobLine]:
        """Return all jobs as they came in."""
        query = select(_JOB.line).where(_JOB.state != "broken").order_by(_JOB.came)
        return [_LINE.decode(row) for row in self._connection.execute(query).scalars()]

    def broken(self) -> list[BrokenJob]:
        """Return the jobs whose state is not known."""
        query = select(_JOB.line).where(_JOB.state == "broken").order_by(_JOB.came)
        return [_BROKEN.decode(row) for row in self._connection.execute(query).scalars()]

    def findings(self) -> tuple[Finding, ...]:
        """Say nothing: where a fact is damaged there is no such index."""
        return ()

    def alike(self, kind: Alike, word: str, most: int) -> list[tuple[Place, str]]:
        """Return the latest jobs that are alike."""
        if not word:
            return []
        column = _JOB.player if kind == "player" else _JOB.shaft
        query = select(_JOB.site, _JOB.sequence, _JOB.job).where(column == word).order_by(_JOB.came.desc()).limit(most)
        return [((row.site, row.sequence), row.job) for row in self._connection.execute(query)][::-1]

    def made_again(self, names: Sequence[str]) -> list[str]:
        """Return the jobs that make one of some again."""
        query = select(_JOB.name).where(_JOB.again_of.in_(list(names)), _JOB.state != "broken").order_by(_JOB.came)
        return list(self._connection.execute(query).scalars()) if names else []

    def has_number(self, number: str) -> bool:
        """True when a job has or had a number."""
        query = select(number_table.c.job).where(number_table.c.number == number).limit(1)
        return self._connection.execute(query).first() is not None

    def highest(self, start: str) -> int:
        """Return the highest number given away behind a start."""
        query = select(func.max(number_table.c.counted)).where(number_table.c.start == start)
        return int(self._connection.execute(query).scalar_one() or 0)

    def touched(self, kind: TouchKind, name: str) -> list[TouchedJob]:
        """Return the jobs whose facts touch a thing."""
        touch = touch_table.c
        times = (
            select(
                touch.job_site,
                touch.job_sequence,
                func.count().label("facts"),
                func.min(touch.at).label("first"),
                func.max(touch.at).label("last"),
            )
            .where(touch.kind == kind, touch.word == touch_word(name), touch.standing)
            .group_by(touch.job_site, touch.job_sequence)
            .subquery()
        )
        query = (
            select(_JOB.state, _JOB.line, times.c.facts, times.c.first, times.c.last)
            .join(times, (_JOB.site == times.c.job_site) & (_JOB.sequence == times.c.job_sequence))
            .order_by(_JOB.came)
        )
        return [
            touched_job((_BROKEN if row.state == "broken" else _LINE).decode(row.line), row.facts, row.first, row.last)
            for row in self._connection.execute(query)
        ]
