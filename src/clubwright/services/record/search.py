"""Search over the jobs of the record: words, kind of club, open or closed, and when."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, date, datetime
from typing import Literal, TypeVar

import msgspec

from clubwright.journal.reducers.fold import Job, Shop
from clubwright.services.record.job_lines import JobLine, said, searched_text

State = Literal["closed", "open", "all"]
STATES: tuple[State, ...] = ("closed", "open", "all")


class Search(msgspec.Struct, frozen=True, kw_only=True):
    """What is looked for.

    Attributes:
        words: Each must be found in number, player, label or another word of the ticket; case does not matter.
        kind: Kind of club; empty for any.
        state: Closed jobs, open ones, or all.
        since: First day, counted by `day_of`; None for no limit.
        until: Last day.
    """

    words: str = ""
    kind: str = ""
    state: State = "all"
    since: date | None = None
    until: date | None = None


def found(shop: Shop, search: Search) -> list[Job]:
    """Return the jobs that fit, the latest first."""
    return latest(job for job in shop.jobs.values() if fits(job, search))


Listed = TypeVar("Listed", Job, JobLine)


def latest(jobs: Iterable[Listed]) -> list[Listed]:
    """Sort jobs, the latest first."""
    return sorted(jobs, key=lambda job: (day_of(job), job.trail[-1].at, job.id), reverse=True)


def fits(job: Job | JobLine, search: Search) -> bool:
    """True when a job fits the whole of a search."""
    if search.state != "all" and (job.finished is None) != (search.state == "open"):
        return False
    if search.kind and said(job, "kind") != search.kind:
        return False
    day = day_of(job)
    if (search.since is not None and day < search.since) or (search.until is not None and day > search.until):
        return False
    text = searched_text(job)
    return all(word in text for word in sought(search.words))


def sought(words: str) -> list[str]:
    """Return the words that are looked for, as they stand in what is searched."""
    return words.casefold().split()


def day_of(job: Job | JobLine) -> date:
    """Return the day (UTC) that a job was closed, or came in while it is open."""
    at = job.trail[0].at if job.finished is None else job.finished.at
    return datetime.fromisoformat(at).astimezone(UTC).date()
