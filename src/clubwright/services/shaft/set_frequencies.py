"""A player's set by frequency and length: this club, the others of the record, and the straight line of the others.

A longer club swings slower; a set is built so that the points fall on one line (`clubwright.planning.set_slope`). It is
laid through the other clubs, each weighed by its doubt, so that this club's distance from it says something of this club and
one that is only planned moves next to nothing. Checked against NumPy's
polynomial fit in tests/unit/services/shaft/test_shaft_curves.py; derivation: docs/theory/frequency.md.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from typing import Literal

import msgspec

from clubwright.club.stages import FINISHED
from clubwright.errors import ClubwrightError, NotPossible
from clubwright.journal.reducers.fold import Job
from clubwright.planning.club_state import ClubState
from clubwright.planning.set_slope import SetClub, SetSlope, set_slope
from clubwright.services.record.job_lines import compared
from clubwright.services.record.other_jobs import club_of, known, other_jobs
from clubwright.services.record.session import Session
from clubwright.state.key import StateKey
from clubwright.state.ticket import Ticket
from clubwright.ticket.gauges import meter_read, usual_gauge

MOST = 14
"""Clubs looked at: this one and those that came in last. A player may carry fourteen (Rules of Golf, from memory)."""

USUAL_SD_HZ = usual_gauge("frequency").uncertainty()
"""Of a reading without a doubt of its own."""

Known = Literal["believed", "read"]


class ClubPoint(msgspec.Struct, frozen=True, kw_only=True):
    """One club of the set, finished.

    Attributes:
        job: Ticket number.
        name: What it is called.
        length_m: Believed length.
        frequency_hz: Frequency.
        sd_hz: Standard uncertainty; None where a reading came without one.
        known: Whether the frequency is believed, or only read because the ticket gives no stiffness.
    """

    job: str
    name: str
    length_m: float
    frequency_hz: float
    sd_hz: float | None
    known: Known


class SetFrequencies(msgspec.Struct, frozen=True, kw_only=True):
    """The set.

    Attributes:
        club: This club; None when nothing is known of its frequency.
        others: The other clubs of the player, the longest last.
        line: Through the others, or with this club when they alone make none; None when there is none.
        through_this: True when this club was needed for the line.
    """

    club: ClubPoint | None
    others: tuple[ClubPoint, ...]
    line: SetSlope | None
    through_this: bool

    def off_line_hz(self, point: ClubPoint) -> float | None:
        """Return how far a club lies above the line, in Hz; None without a line of the others."""
        if self.line is None or self.through_this:
            return None
        return point.frequency_hz - self.line.at_hz(point.length_m)


def same_player(session: Session, job: Job) -> list[Job]:
    """Return the player's other jobs in the record; a ticket without a player has no set."""
    player = compared(job.order.player)
    return other_jobs(session, job, "player", player)


def set_frequencies(club_state: ClubState, job: Job, others: Iterable[Job]) -> SetFrequencies:
    """Return one club among the other clubs of the same player.

    Args:
        club_state: The club.
        job: Its job.
        others: From `same_player`; those that came in last are looked at.
    """
    club = point_of(club_state, job.id)
    latest = sorted(others, key=lambda other: (other.trail[0].at, other.id))[-(MOST - 1) :]
    found = [point for other in latest if (ticket := known(other)) and (point := _other(ticket, other.id))]
    points = tuple(sorted(found, key=lambda point: (point.length_m, point.job)))
    line, through_this = _line(points), False
    if line is None and club is not None:
        line = _line((*points, club))
        through_this = line is not None
    return SetFrequencies(club=club, others=points, line=line, through_this=through_this)


def point_of(club_state: ClubState, job: str) -> ClubPoint | None:
    """Return a club's point: its belief where one can be had, else its last reading finished; None without either."""
    name = club_state.ticket.order.label or club_state.ticket.kind
    length = float(club_state.predict(["length"]).mean[0, 0])
    if club_state.can_predict("frequency"):
        try:
            found = club_state.predict(["frequency"])
        except NotPossible:
            return None
        mean, sd = float(found.mean[0, 0]), float(found.sd()[0, 0])
        return ClubPoint(job=job, name=name, length_m=length, frequency_hz=mean, sd_hz=sd, known="believed")
    read = [
        item
        for item in club_state.present_entries
        if item.quantity == "frequency" and item.stage == FINISHED.name and item.keep is not False
        # without a stiffness nothing converts what another clamp read
        if meter_read(club_state.ticket, item) is None
    ]
    if not read:
        return None
    entry = read[-1].entry
    return ClubPoint(job=job, name=name, length_m=length, frequency_hz=entry.value, sd_hz=entry.sd, known="read")


def _line(points: tuple[ClubPoint, ...]) -> SetSlope | None:
    """Return the line through some clubs; None for fewer than two lengths."""
    clubs = [
        SetClub(
            name=point.name,
            length_m=point.length_m,
            frequency_hz=point.frequency_hz,
            frequency_sd_hz=USUAL_SD_HZ if point.sd_hz is None else point.sd_hz,
        )
        for point in points
    ]
    try:
        return set_slope(clubs)
    except NotPossible:
        return None


@lru_cache(maxsize=256)
def _other(ticket: StateKey[Ticket], job: str) -> ClubPoint | None:
    """Return another club's point; one that cannot be told is told on its own page, not here."""
    club_state = club_of(ticket)
    try:
        return None if club_state is None else point_of(club_state, job)
    except ClubwrightError:
        return None
