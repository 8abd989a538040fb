"""Accepting by name what is outside, open or unread, so that a job can be released and closed all the same."""

from __future__ import annotations

from difflib import get_close_matches

from clubwright.club.quantities import QUANTITIES
from clubwright.errors import Finding, InputError, RecordError
from clubwright.journal.facts import DeviationAccepted, Fact, What
from clubwright.journal.reducers.fold import Job
from clubwright.services.jobs.closing import WITHIN, ClosingPoint, closing_points
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session
from clubwright.services.recording.recording import keep, require_open
from clubwright.words import spoken


def accept(
    session: Session,
    job: str,
    quantity: str,
    *,
    name: str,
    reason: str,
    shown: str | None = None,
    key: str | None = None,
) -> Fact:
    """Record that a person accepts how an ordered target stands, by name; it holds only for how it stands now.

    Args:
        session: Who writes it down, and where.
        job: Ticket number.
        quantity: The target, by its key in the register of quantities.
        name: Who accepts it: the player or the clubmaker.
        reason: Why, in that person's words.
        shown: Mark of how it stood where it was shown (`ClosingPoint.mark`); None is not checked.
        key: Idempotency key.

    Raises:
        InputError: without a name or a reason, or for what the ticket does not order; with every finding.
        RecordError: when there is nothing to accept, or it stands otherwise than it was shown.
    """
    name, reason = name.strip(), reason.strip()

    def make(state: Job | None) -> What:
        standing = require_open(state, job)
        points = {point.key: point for point in closing_points(standing, answer_job(standing, session.now()))}
        point = _chosen(points, quantity, name, reason)
        _require_open_point(point, shown)
        return DeviationAccepted(
            job=job,
            quantity=quantity,
            accepted_by=name,
            reason=reason,
            ordered=point.ordered,
            verdict=point.verdict,
            read=list(point.read),
            readings=list(point.readings),
            believed=point.believed,
        )

    def same(what: What) -> bool:
        return isinstance(what, DeviationAccepted) and (what.quantity, what.accepted_by, what.reason) == (
            quantity,
            name,
            reason,
        )

    return keep(session, job, make, typed=_text, same=same, key=key)


def _text(what: What) -> str:
    assert isinstance(what, DeviationAccepted)  # what accept makes
    read = f" ({', '.join(what.read)})" if what.read else ""
    verdict = spoken("verdict", what.verdict)
    return f"{QUANTITIES[what.quantity].name} {verdict}{read}: accepted by {what.accepted_by}, {what.reason}"


def _chosen(points: dict[str, ClosingPoint], quantity: str, name: str, reason: str) -> ClosingPoint:
    findings = []
    if quantity not in points:
        near = get_close_matches(quantity, points, n=1)
        ordered = "The ticket orders " + ", ".join(points) + "." if points else "The ticket orders nothing to be read."
        mend = f'Did you mean "{near[0]}"? {ordered}' if near else ordered
        findings.append(Finding(where="quantity", what=f'"{quantity}" is no target of this job', mend=mend))
    if not name:
        mend = "Write the name of the player or the clubmaker who accepts it."
        findings.append(Finding(where="who accepts it", what="nobody is named", mend=mend))
    if not reason:
        mend = "Say why it is accepted: the record keeps it."
        findings.append(Finding(where="why it is accepted", what="nothing was typed", mend=mend))
    if findings:
        raise InputError(findings)
    return points[quantity]


def _require_open_point(point: ClosingPoint, shown: str | None) -> None:
    if point.verdict == WITHIN:
        raise RecordError(f"{point.name} is in spec ({', '.join(point.read)}): there is nothing to accept")
    if point.accepted is not None:
        by = point.accepted.what.accepted_by
        raise RecordError(f"{point.name} is accepted already, by {by}: undo that first, if another shall answer for it")
    if shown is not None and shown != point.mark:
        raise RecordError(f"{point.name} stands otherwise now ({point.stands}): look at it, then accept it or mend it")
