"""What the list of open tickets shows: a line for each job."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

import msgspec

from clubwright.services.waiting import Standings, Waiting, said


class Line(msgspec.Struct, frozen=True, kw_only=True):
    """One open job in the list."""

    id: str
    club: str
    player: str
    hand: str
    priority: str
    promised: str
    late: bool
    step: str
    count: str
    gates: tuple[tuple[str, str], ...]
    waits: str


def lines_of(items: Iterable[Waiting], standings: Standings, now: datetime) -> list[Line]:
    """Lay out the open jobs."""
    return [_line(item, standings, now) for item in items]


def _line(item: Waiting, standings: Standings, now: datetime) -> Line:
    job, standing = item.job, standings.of(item.job, now)
    return Line(
        id=job.id,
        club=said(job, "label") or said(job, "kind"),
        player=said(job, "player"),
        hand=said(job, "hand"),
        priority=item.priority,
        promised=item.promised,
        late=item.late,
        step=standing.step or "every step is done",
        count=f"{standing.number} of {standing.of}" if standing.of else "",
        gates=standing.gates,
        waits=standing.waits,
    )
