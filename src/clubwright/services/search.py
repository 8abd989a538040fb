"""Search over the jobs of the record: words, kind of club, open or closed, and when."""

from __future__ import annotations

from datetime import date
from typing import Literal

import msgspec

from clubwright.journal.fold import Job, Shop
from clubwright.journal.job import BrokenJob
from clubwright.services.desk import moment_of
from clubwright.services.waiting import said

State = Literal["closed", "open", "all"]
STATES: tuple[State, ...] = ("closed", "open", "all")
_SEARCHED = ("player", "label", "kind", "priority", "promised", "asked", "again_of", "note")


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
    jobs = [job for job in shop.jobs.values() if fits(job, search)]
    return sorted(jobs, key=lambda job: (day_of(job), job.trail[-1].at, job.id), reverse=True)


def broken_of(shop: Shop, words: str) -> list[BrokenJob]:
    """Return the broken jobs in whose number, label and player the words are found; nobody knows whether they are open."""
    sought = words.casefold().split()
    texts = {job.id: " ".join((job.id, *job.numbers, job.label, job.player)).casefold() for job in shop.broken.values()}
    return [job for job in shop.broken.values() if all(word in texts[job.id] for word in sought)]


def fits(job: Job, search: Search) -> bool:
    """True when a job fits the whole of a search."""
    if search.state != "all" and (job.finished is None) != (search.state == "open"):
        return False
    if search.kind and said(job, "kind") != search.kind:
        return False
    day = day_of(job)
    if (search.since is not None and day < search.since) or (search.until is not None and day > search.until):
        return False
    text = " ".join([job.id, *job.numbers, *(said(job, key) for key in _SEARCHED)]).casefold()
    return all(word in text for word in search.words.casefold().split())


def day_of(job: Job) -> date:
    """Return the day (UTC) that a job was closed, or came in while it is open."""
    return moment_of(job.trail[0].at if job.finished is None else job.finished.at).date()
