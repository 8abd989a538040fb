"""What rings at the bench: pot life, cure and promise of every open job, until somebody puts it out on any tablet.

The moments follow from the record; that an alarm was put out is no fact of a club, so it is kept by the running program for
all its tablets, and not written down: after a restart of the workshop's computer what nobody acted on rings once more.
"""

from __future__ import annotations

from datetime import UTC
from threading import Lock
from typing import Annotated

import msgspec
from fastapi import APIRouter, Form, Request
from fastapi.responses import Response

from clubwright.services.checks.job_ticket import ticket_or_none
from clubwright.services.jobs.clocks import Alarm, alarms_of, still_rings
from clubwright.services.jobs.job_list import waiting
from clubwright.services.record.job_lines import JobLine
from clubwright.services.record.search import Search
from clubwright.services.record.session import Session, utc_text
from clubwright.web.sessions import AtSession
from clubwright.words import on_page

router = APIRouter(include_in_schema=False)
MOST_KEPT = 1000
"""How many alarms that were put out are remembered; older ones no longer ring anyway."""


class Rung(msgspec.Struct, frozen=True):
    """One alarm as a page has it: its key, its moment in UTC, and what is said when it rings."""

    key: str
    at: str
    text: str


class Alarms:
    """The alarms of the record as it stands, worked once for each of its facts, and those that were put out."""

    def __init__(self) -> None:
        self._facts = -1
        self._alarms: tuple[Alarm, ...] = ()
        self._out: dict[str, None] = {}
        self._lock = Lock()

    def of(self, session: Session) -> tuple[Rung, ...]:
        """Return what rings, or will, soonest first."""
        with self._lock:
            facts = session.ledger.count()
            if facts != self._facts:
                self._alarms, self._facts = tuple(_alarms(session)), facts
            now = session.now()
            rings = [item for item in self._alarms if item.key not in self._out and still_rings(item, now)]
        return tuple(Rung(item.key, item.at, f"{item.job}: {on_page(f'alarm {item.kind}')}") for item in rings)

    def put_out(self, key: str) -> None:
        """Let an alarm ring no more, on any tablet."""
        with self._lock:
            self._out[key] = None
            for old in list(self._out)[:-MOST_KEPT]:
                del self._out[old]


def _alarms(session: Session) -> list[Alarm]:
    lines, _ = session.ask(lambda index: index.lines(Search(state="open")))
    found = []
    for row in waiting(lines, session.now()):
        if row.due is not None:
            found.append(Alarm(job=row.job.id, kind="promise", at=utc_text(row.due.astimezone(UTC))))
        if not isinstance(row.job, JobLine) or row.job.runs:
            job = session.job(row.job.id)
            ticket = ticket_or_none(job)
            found += () if ticket is None else alarms_of(job, ticket)
    return sorted(found, key=lambda item: item.at)


@router.get("/alarms")
def listed(request: Request, session: AtSession) -> Response:
    """Give what rings or will, and the workshop's own time: a tablet's clock may be wrong."""
    alarms: Alarms = request.app.state.alarms
    told = {"now": utc_text(session.now()), "alarms": alarms.of(session)}
    return Response(msgspec.json.encode(told), media_type="application/json", headers={"Cache-Control": "no-store"})


@router.post("/alarms/out")
def put_out(request: Request, session: AtSession, key: Annotated[str, Form(max_length=300)]) -> Response:
    """Put an alarm out, on every tablet: for who may work."""
    session.require("work")
    request.app.state.alarms.put_out(key)
    return Response(status_code=204)
