"""The echo of a reading's form: a reading is kept only after the person has seen what it was understood as."""

from __future__ import annotations

from clubwright.notation import is_bare
from clubwright.services.actions.making.gauge_units import read_in_gauge_unit
from clubwright.services.checks.job_ticket import ticket_or_none
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session
from clubwright.services.report.reading_back import Echo, is_understood, read_back
from clubwright.web.actions import Sent, one


def echo_of(session: Session, job: str, sent: Sent) -> Echo | None:
    """Return the echo that a person has to see first; None when they have seen it, or for other actions."""
    if one(sent, "action") != "read":
        return None
    quantity, stage, typed = one(sent, "quantity"), one(sent, "stage"), one(sent, "value")
    value = in_unit(session, job, quantity, typed, one(sent, "gauge"))
    if typed and one(sent, "confirmed") == typed and is_understood(quantity, value, stage):
        return None
    return read_back(answer_job(session.job(job), session.now()), quantity, value, stage, typed=typed)


def in_unit(session: Session, job: str, quantity: str, value: str, gauge: str) -> str:
    """Return a reading as the door will take it: in the unit that its gauge shows, where none was typed."""
    ticket = ticket_or_none(session.job(job)) if is_bare(value) else None
    return value if ticket is None else read_in_gauge_unit(ticket, quantity, value, gauge)
