"""What lists, searches and other jobs ask instead of every fact: an index of jobs, with one meaning whoever answers.

`clubwright.services.record.folded_index` answers from the facts themselves, and so says what the answers mean. A record
keeps tables that answer the same (`clubwright.store.index.reading`): they follow from the facts, and are rebuilt at will.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal, Protocol

import msgspec

from clubwright.errors import Finding
from clubwright.journal.facts import Place
from clubwright.journal.job import BrokenJob
from clubwright.journal.touches import TouchKind
from clubwright.services.record.job_lines import JobLine, searched_text
from clubwright.services.record.search import Search, sought
from clubwright.ticket.ticket_number import counted

Alike = Literal["player", "shaft"]


class TouchedJob(msgspec.Struct, frozen=True, kw_only=True):
    """A job whose facts touch something.

    Attributes:
        job: Name that it goes by.
        title: Label and player.
        facts: How many facts that stand touch it.
        first: When the first of them was written.
        last: When the last was.
    """

    job: str
    title: str
    facts: int
    first: str
    last: str


class JobIndex(Protocol):
    """An index of the jobs of a record."""

    def lines(self, search: Search, limit: int | None = None, offset: int = 0) -> tuple[list[JobLine], int]:
        """Return the jobs that fit a search, the latest first, and how many fit in all.

        Args:
            search: What is looked for.
            limit: So many lines of them; all when None.
            offset: After so many.
        """
        ...

    def every(self) -> list[JobLine]:
        """Return all jobs as they came in."""
        ...

    def broken(self) -> list[BrokenJob]:
        """Return the jobs whose state is not known, as they came in."""
        ...

    def findings(self) -> tuple[Finding, ...]:
        """Say what is damaged without anybody knowing which jobs it touches."""
        ...

    def alike(self, kind: Alike, word: str, most: int) -> list[tuple[Place, str]]:
        """Return the latest jobs of one player, or with a shaft of one name: each with the number it was taken under.

        Args:
            kind: What is alike.
            word: As `compared` has it.
            most: So many of those that came in last, in the order in which they came in.
        """
        ...

    def made_again(self, names: Sequence[str]) -> list[str]:
        """Return the names of the jobs whose ticket makes one of some again."""
        ...

    def has_number(self, number: str) -> bool:
        """True when a job has or had a ticket number."""
        ...

    def highest(self, start: str) -> int:
        """Return the highest number given away behind a start such as ``T-``; 0 when none was."""
        ...

    def touched(self, kind: TouchKind, name: str) -> list[TouchedJob]:
        """Return the jobs whose facts touch a thing, as they came in; small letters and outer spaces do not matter."""
        ...


def touched_job(line: JobLine | BrokenJob, facts: int, first: str, last: str) -> TouchedJob:
    """Return a job with what of it touches something."""
    said = line.order if isinstance(line, JobLine) else line
    title = ", ".join(filter(None, (said.label, said.player)))
    return TouchedJob(job=line.id, title=title, facts=facts, first=first, last=last)


def broken_with(broken: Sequence[BrokenJob], words: str) -> list[BrokenJob]:
    """Return the broken jobs in whose number, label and player the words are found; nobody knows whether they are open."""
    return [job for job in broken if all(word in searched_text(job) for word in sought(words))]


def highest_of(numbers: Sequence[str], start: str) -> int:
    """Return the highest of the numbers behind a start."""
    pairs: Iterator[tuple[str, int] | None] = map(counted, numbers)
    return max((pair[1] for pair in pairs if pair is not None and pair[0] == start), default=0)
