"""The echo of a reading's form: a reading is kept only after the person has seen what it was understood as."""

from __future__ import annotations

from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session
from clubwright.services.report.reading_back import Echo, is_understood, read_back
from clubwright.web.actions import Sent, one


def echo_of(session: Session, job: str, sent: Sent) -> Echo | None:
    """Return the echo that a person has to see first; None when they have seen it, or for other actions."""
    if one(sent, "action") != "read":
        return None
    value = one(sent, "value")
    if value and one(sent, "confirmed") == value and is_understood(one(sent, "quantity"), value, one(sent, "stage")):
        return None
    worked = answer_job(session.job(job), session.now())
    return read_back(worked, one(sent, "quantity"), value, one(sent, "stage"))
