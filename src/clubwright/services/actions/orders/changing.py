"""Putting right what the ticket says of its parts: one part, or several of which all are kept or none."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import msgspec

from clubwright.errors import DocumentPlace, Finding, InputError
from clubwright.journal.facts import Fact, PartChanged, What
from clubwright.journal.reducers.fold import Job
from clubwright.journal.reducers.measured import gauges_of
from clubwright.services.checks.job_ticket import ticket_or_none
from clubwright.services.checks.joint_parts import wrong_joint_part
from clubwright.services.checks.order_findings import ordered_not_measured
from clubwright.services.checks.payloads import payload_findings
from clubwright.services.checks.usual_gauge import GaugeSaid, gauge_text, measured_by, without_gauges
from clubwright.services.record.session import Session
from clubwright.services.recording.recording import keep_all, require_open
from clubwright.services.recording.trying import findings_on
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields.fields import CUT_JOBS
from clubwright.ticket.part_readings import OF_THE_CUT_SHAFT


def change_part(
    session: Session,
    job: str,
    section: str,
    values: Mapping[str, str],
    key: str | None = None,
    *,
    another: bool = False,
    said_by: str = "",
    reason: str = "",
    gauge: str | None = None,
) -> Fact:
    """Record what was measured of a part, or another part in its place; an empty text takes a figure out.

    Args:
        session: Who and where.
        job: Ticket number.
        section: Table of the ticket.
        values: Keys and texts.
        key: Idempotency key.
        another: Whether it is another part: nothing that was measured of the old one is kept, and its steps are to do again.
        said_by: Of another part, who said so: the player or the clubmaker.
        reason: Likewise, why, in that person's words.
        gauge: What measured its figures, by its name on the ticket; the one of its usual name there when None. A figure that
            has a gauge adds to an earlier one that has one; with an empty name it takes the place of what stood there.

    Raises:
        InputError: for nothing to change, a figure that another action records, a bore reamed and not measured again, a
            cracked hosel called sound on the same head, or another part without a name or a reason.
    """
    what = PartChanged(job=job, section=section, values=dict(values), another=another or msgspec.UNSET)
    if another or said_by or reason:
        what = msgspec.structs.replace(what, said_by=said_by.strip(), reason=reason.strip())
    return _change(session, job, [what], key, gauge)[0]


def change_parts(
    session: Session,
    job: str,
    changes: Mapping[str, Mapping[str, str]],
    key: str | None = None,
    *,
    gauge: GaugeSaid = None,
) -> list[Fact]:
    """Record what was measured of several parts in one action: one fact for each part, and all are kept or none.

    Args:
        session: Who and where.
        job: Ticket number.
        changes: Tables of the ticket, each with its keys and texts.
        key: Idempotency key.
        gauge: What measured their figures, as in `change_part`; or by their kind (``mass``, ``length``, ``diameter``,
            ``angle``), the usual one for a kind that is left out.

    Raises:
        InputError: with the findings about every part at once.
    """
    if not changes:
        mend = "Name a part and what was measured of it."
        raise InputError([Finding(where="parts", what="nothing to change", mend=mend)])
    whats = [PartChanged(job=job, section=section, values=dict(values)) for section, values in changes.items()]
    return _change(session, job, whats, key, gauge)


def _change(
    session: Session, job: str, changes: Sequence[PartChanged], key: str | None, gauge: GaugeSaid
) -> list[Fact]:
    said = [_measured(change, None, gauge) for change in changes]

    def make(state: Job | None) -> Sequence[What]:
        standing = require_open(state, job)
        whats = [_measured(change, ticket_or_none(standing), gauge) for change in changes]
        findings = [finding for what in whats for finding in _wrong(standing, what)]
        if findings:
            # what is refused for another reason is not the only thing that may be wrong: the rest is tried beside it
            raise InputError([*findings, *findings_on(session, job, whats)])
        return whats

    def typed(what: What) -> str:
        assert isinstance(what, PartChanged)  # what is made above
        return _typed(what, gauge_text(gauges_of(what), gauge))

    def same(found: What) -> bool:
        return found in said if isinstance(gauge, str) else without_gauges(found) in changes

    return keep_all(session, job, make, typed=typed, same=same, key=key, count=len(changes))


def _measured(change: PartChanged, ticket: Ticket | None, gauge: GaugeSaid) -> PartChanged:
    """Say what measured the figures of a change: the gauge that is named, else the usual ones of the ticket."""
    keys = [key for key, value in change.values.items() if value]
    return msgspec.structs.replace(change, gauges=measured_by(ticket, change.section, keys, gauge) or msgspec.UNSET)


def _typed(what: PartChanged, gauges: str) -> str:
    words = ", ".join(f"{name} {value}" if value else f"{name} taken out" for name, value in what.values.items())
    said = ", ".join(part for part in (f"another {what.section}" if what.another is True else "", words) if part)
    return f"{what.section}: {said}{gauges}" + (
        f"; said by {what.said_by}: {what.reason}" if what.another is True else ""
    )


def _wrong(state: Job, what: PartChanged) -> list[Finding]:
    """Return what is wrong with a change that the ticket's reader would not find."""
    ordered = ordered_not_measured(state, what.section, what.values)
    return [*payload_findings(what), *ordered, *_in_a_closed_joint(state, what), *wrong_figures(state, what)]


def wrong_figures(state: Job, what: PartChanged) -> list[Finding]:
    """Return what cannot be so about the figures of a part, whoever changes them."""
    cut = _not_cut_yet(state, what) if what.section == "shaft" else []
    return [*cut, *wrong_joint_part(state, what)]


def _in_a_closed_joint(state: Job, what: PartChanged) -> list[Finding]:
    """Refuse another head or shaft in a joint that nobody has opened."""
    if what.another is not True or what.section not in ("head", "shaft") or state.glued_at is None:
        return []
    mend = (
        f"Record first that the head was pulled again: `clubwright pull-again {state.id}`, or on the page of the order."
    )
    return [Finding(where=DocumentPlace(what.section), what="it is in a joint that is closed", mend=mend)]


def _not_cut_yet(state: Job, what: PartChanged) -> list[Finding]:
    """Refuse a figure of the cut shaft while the record has no cut: the shaft that was weighed is the raw one."""
    ticket = ticket_or_none(state)
    if ticket is None or ticket.job not in CUT_JOBS:
        return []
    if what.another is not True and ticket.club.shaft.cut_length is not None:
        return []
    mend = f"Record the cut first: `clubwright cut {state.id} LENGTH`; what the raw shaft weighs is mass."
    return [
        Finding(where=DocumentPlace("shaft", (name,)), what="the shaft is not cut yet", mend=mend)
        for name, text in what.values.items()
        if text and name in OF_THE_CUT_SHAFT
    ]
