"""Running clocks of a job: how long the cup may be used, from when the joint holds, what rings: all from the record."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Literal

import msgspec

from clubwright.errors import ClubwrightError
from clubwright.journal.job import Job
from clubwright.journal.mixes import mix_in_hand
from clubwright.notation import parse
from clubwright.planning.joint.cure import release_time
from clubwright.planning.steps.inputs import Joint
from clubwright.planning.steps.minutes import sheet_cure_s
from clubwright.services.record.session import Local, in_utc, moment_of, utc_text
from clubwright.state.particulars import in_si
from clubwright.state.ticket import Ticket


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
    life_s = in_si(ticket.club.adhesive.pot_life)
    mix = mix_in_hand(job)
    return None if life_s is None or mix is None else _from(mix.mixed_at, life_s)


def cure_clock(job: Job, ticket: Ticket) -> Clock | None:
    """Return the cure of the joint by the sheet's table at the temperature it was glued at; None while that is not known."""
    if job.glued_at is None or job.glued_temperature is None:
        return None
    table = [(in_si(row.temperature) or 0.0, in_si(row.time) or 0.0) for row in ticket.club.release]
    try:
        kelvin = parse("temperature", job.glued_temperature, where="glued").value
        return _from(job.glued_at, release_time(table, kelvin).time_s)
    except ClubwrightError:
        return None


def cure_left_s(job: Job, ticket: Ticket, now: datetime) -> float | None:
    """Return how long a joint still has to cure, s: by its clock once it is closed, else by the sheet; None when unknown."""
    clock = cure_clock(job, ticket)
    if clock is None:
        return sheet_cure_s(ticket)
    return max((moment_of(clock.until) - now).total_seconds(), 0.0)


def joint_of(job: Job, ticket: Ticket, local: Local = in_utc) -> Joint | None:
    """Return the joint as it was closed, with the time of day from which it holds; None while it is open."""
    if job.glued_at is None or job.glued_temperature is None:
        return None
    clock, kelvin = cure_clock(job, ticket), parse("temperature", job.glued_temperature, where="glued").value
    if clock is None:
        return Joint(temperature_k=kelvin)
    at = local(_whole_minute_up(moment_of(clock.until)))
    return Joint(temperature_k=kelvin, release_at=at.replace(tzinfo=None), zone=at.tzname() or "")


def _whole_minute_up(moment: datetime) -> datetime:
    """Round up to the minute: a joint is never called ready early."""
    over = timedelta(seconds=moment.second, microseconds=moment.microsecond)
    return moment + timedelta(minutes=1) - over if over else moment


def _from(since: str, seconds: float) -> Clock:
    return Clock(since=since, until=utc_text(moment_of(since) + timedelta(seconds=seconds)))


AlarmKind = Literal["pot life", "cure", "promise"]
RINGS_S = 12 * 3600.0
"""So long after its moment an alarm still rings that nobody put out; then it is old news (estimate of ours)."""


class Alarm(msgspec.Struct, frozen=True, kw_only=True):
    """A moment of a job at which the bench rings.

    Attributes:
        job: Ticket number.
        kind: What is over, or due, then.
        at: When, UTC ISO 8601.
    """

    job: str
    kind: AlarmKind
    at: str

    @property
    def key(self) -> str:
        """Which alarm it is: a new mix, another joint or another promise rings anew."""
        return f"{self.job} {self.kind} {self.at}"


def alarms_of(job: Job, ticket: Ticket) -> tuple[Alarm, ...]:
    """Return what rings of an open job's clocks: the cup in hand, and the joint until somebody said that it is cured."""
    clocks: list[tuple[AlarmKind, Clock | None]] = [("pot life", pot_clock(job, ticket))]
    if "cure" not in job.steps_done:
        clocks.append(("cure", cure_clock(job, ticket)))
    if job.finished is not None:
        return ()
    return tuple(Alarm(job=job.id, kind=kind, at=clock.until) for kind, clock in clocks if clock is not None)


def still_rings(alarm: Alarm, now: datetime) -> bool:
    """True until its moment has long gone by."""
    return (now - moment_of(alarm.at)).total_seconds() <= RINGS_S
