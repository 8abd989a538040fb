"""The index of jobs as it follows from the facts, with nothing kept: what a record's own tables are held against."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property

import msgspec

from clubwright.errors import Finding
from clubwright.journal.facts import Place
from clubwright.journal.job import BrokenJob
from clubwright.journal.order import written_in
from clubwright.journal.reducers.fold import Shop, fold_subjects
from clubwright.journal.subjects import subjects_of
from clubwright.journal.touches import TouchKind, touch_word
from clubwright.services.record.job_index import Alike, JobIndex, TouchedJob, highest_of, touched_job
from clubwright.services.record.job_lines import JobEntry, JobLine, entries_of
from clubwright.services.record.ledger import Readable
from clubwright.services.record.search import Search, fits, latest


class FoldedIndex(JobIndex):
    """The index as it follows from facts.

    Args:
        found: What a record gives.
    """

    def __init__(self, found: Readable) -> None:
        subjects, written = subjects_of(found.facts), written_in(found.facts)
        damaged: dict[str, list[Finding]] = {}
        for item in found.damage:
            for job in item.jobs:
                damaged.setdefault(job, []).append(item.finding)
        unknown = tuple(item.finding for item in found.damage if not item.jobs)
        self.shop: Shop = msgspec.structs.replace(fold_subjects(subjects, damaged), findings=unknown)
        self._subjects, self._written = subjects, written

    @cached_property
    def entries(self) -> list[JobEntry]:
        """Every job with what it is found by, as they came in."""
        return sorted(entries_of(self._subjects, self.shop, self._written), key=lambda entry: entry.came)

    def lines(self, search: Search, limit: int | None = None, offset: int = 0) -> tuple[list[JobLine], int]:
        """Return the jobs that fit a search."""
        fitting = latest(line for line in self.every() if fits(line, search))
        return fitting[offset:][:limit], len(fitting)

    def every(self) -> list[JobLine]:
        """Return all jobs as they came in."""
        return [entry.line for entry in self.entries if isinstance(entry.line, JobLine)]

    def broken(self) -> list[BrokenJob]:
        """Return the jobs whose state is not known."""
        return list(self.shop.broken.values())

    def findings(self) -> tuple[Finding, ...]:
        """Say what is damaged of no known job."""
        return self.shop.findings

    def alike(self, kind: Alike, word: str, most: int) -> list[tuple[Place, str]]:
        """Return the latest jobs that are alike."""
        found = [
            (entry.line.place, entry.job)
            for entry in self.entries
            if word and (entry.player if kind == "player" else entry.shaft) == word
        ]
        return found[-most:]

    def made_again(self, names: Sequence[str]) -> list[str]:
        """Return the jobs that make one of some again."""
        return [line.id for line in self.every() if line.order.again_of in names]

    def has_number(self, number: str) -> bool:
        """True when a job has or had a number."""
        return number in self.shop.numbers

    def highest(self, start: str) -> int:
        """Return the highest number given away behind a start."""
        return highest_of(self.shop.numbers, start)

    def touched(self, kind: TouchKind, name: str) -> list[TouchedJob]:
        """Return the jobs whose facts touch a thing."""
        word = touch_word(name)
        found = []
        for entry in self.entries:
            times = [
                touch.at
                for touch in entry.touches
                if touch.standing and touch.kind == kind and touch_word(touch.name) == word
            ]
            if times:
                found.append(touched_job(entry.line, len(times), min(times), max(times)))
        return found
