"""Documents between two jobs on one club: as the one leaves it, and the ticket of the next. Pure."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from typing import Any

from clubwright.club.part_paths import TAPES, at_path
from clubwright.journal.job import Job
from clubwright.journal.reducers.club_document import FROM_THE_CLUB
from clubwright.ticket.part_paths import REPLACED
from clubwright.ticket.shop.laying import own_of

Document = dict[str, Any]

LEFT_BEHIND = ("tolerance", "base")
"""Tables of an order: the next job has its own."""


def document_as_left(job: Job, aside: Collection[int], fitted: Sequence[float]) -> Document:
    """Return the document of a job as it leaves the club.

    Args:
        job: The job.
        aside: Places of its readings that are kept aside.
        fitted: How many of each weight of its tray are on the club.
    """
    left = {name: content for name, content in job.document.items() if name not in LEFT_BEHIND}
    method = left.pop("target", {}).get("length_method")
    if method is not None:
        left["target"] = {"length_method": method}
    words = left["ticket"]
    left["ticket"] = {key: words[key] for key in ("id", "job", *FROM_THE_CLUB) if key in words}
    if "reading" in left:
        left["reading"] = [
            {**row, "keep": "no"} if place in aside else dict(row) for place, row in enumerate(left["reading"])
        ]
    if "weight" in left:
        rows = zip(left["weight"], fitted, strict=True)
        left["weight"] = [{**row, "fitted": str(round(count))} for row, count in rows]
    return left


def next_document(job: Job, new_id: str, work: str) -> Document:
    """Return the ticket of the next job on a job's club: the same order, its parts not typed again.

    Args:
        job: A job on the club.
        new_id: Number of the new ticket.
        work: The work asked for.
    """
    said = job.document["ticket"]
    own = own_of(job.document)
    order: Document = {name: dict(own[name]) for name in ("target", "tolerance", "base") if name in own}
    off = (part for part in REPLACED.get(work, ()) if part != TAPES)
    parts = {part: {"family": family} for part in off if (family := at_path(job.parts, part).word("family"))}
    words = {key: said[key] for key in FROM_THE_CLUB if key in said}
    return {"ticket": {**words, "id": new_id, "job": work, "club": job.id}, **order, **parts}


def holds_its_club(ticket: Mapping[str, Any]) -> bool:
    """True for a file that holds the club's own readings and changes, since it was written from a job of the record."""
    rows = ticket.get("reading")
    return isinstance(rows, list) and any(isinstance(row, Mapping) and "job" in row for row in rows)


def filled(ticket: Mapping[str, Any], as_left: Mapping[str, Any]) -> Document:
    """Return a ticket with the words that it need not say again of a club that the record has."""
    known = {key: as_left["ticket"][key] for key in FROM_THE_CLUB if key in as_left["ticket"]}
    return {**ticket, "ticket": {**known, **ticket["ticket"]}}
