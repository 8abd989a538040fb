"""Running clocks of a job: how long the cup may be used, and from when the joint holds; both follow from the record."""

from __future__ import annotations

from datetime import timedelta

import msgspec

from clubwright.errors import ClubwrightError
from clubwright.journal.job import Job
from clubwright.notation import parse
from clubwright.planning.cure import release_time
from clubwright.services.desk import moment_of, utc_text
from clubwright.ticket.model import Ticket


class Clock(msgspec.Struct, frozen=True, kw_only=True):
    """A span that runs.

    Attributes:
        since: When it began, UTC ISO 8601.
        until: When it runs out, UTC ISO 8601.
    """

    since: str
    until: str


def pot_clock(job: Job, ticket: Ticket) -> Clock | None:
    """Return the pot life of the cup on the bench, by its sheet's time; None without a cup or without that time.

    A cup whose joint is closed is no longer of interest.
    """
    life_s = ticket.row("adhesive").value("pot_life")
    mixed = next((line.at for line in reversed(job.trail) if line.kind == "adhesive mixed" and not line.undone), None)
    if life_s is None or mixed is None or (job.glued_at is not None and job.glued_at >= mixed):
        return None
    return _from(mixed, life_s)


def cure_clock(job: Job, ticket: Ticket) -> Clock | None:
    """Return the cure of the joint by the sheet's table at the temperature it was glued at; None while that is not known."""
    if job.glued_at is None or job.glued_temperature is None:
        return None
    table = [(row.value("temperature") or 0.0, row.value("time") or 0.0) for row in ticket.release]
    try:
        kelvin = parse("temperature", job.glued_temperature, where="glued").value
        return _from(job.glued_at, release_time(table, kelvin).time_s)
    except ClubwrightError:
        return None


def _from(since: str, seconds: float) -> Clock:
    return Clock(since=since, until=utc_text(moment_of(since) + timedelta(seconds=seconds)))
