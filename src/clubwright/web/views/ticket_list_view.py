"""What the list of open tickets shows: a line for each job."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from datetime import datetime

import msgspec

from clubwright.journal.reducers.fold import Job
from clubwright.planning.steps.minutes import times_of
from clubwright.services.jobs.job_list import JobRow, JobStatus, JobStatuses
from clubwright.services.jobs.minutes import times_text
from clubwright.services.record.job_lines import said
from clubwright.ticket.fields.minutes import USUAL_S


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
    left: str


def lines_of(
    items: Iterable[JobRow],
    standings: JobStatuses,
    now: datetime,
    whole: Callable[[str], Job],
    minutes_s: Mapping[str, float] = USUAL_S,
) -> list[Line]:
    """Lay out the open jobs.

    Args:
        items: In the order of the list.
        standings: Where they stood when they were asked for last.
        now: The moment.
        whole: Reads a job by its name, where it has to be worked.
        minutes_s: How long each step takes here, s.
    """
    return [_line(item, standings.of(item.job, now, whole), minutes_s) for item in items]


def _line(item: JobRow, standing: JobStatus, minutes_s: Mapping[str, float]) -> Line:
    job = item.job
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
        left=times_text(times_of(standing.left, minutes_s, standing.cure_left_s)) if standing.left else "",
    )
