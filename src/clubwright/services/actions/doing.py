"""Actions that put several services together: each gives the facts that it wrote, of which there may be none."""

from __future__ import annotations

from collections.abc import Mapping

from clubwright.errors import Finding, InputError
from clubwright.journal.facts import Fact
from clubwright.journal.job import Job
from clubwright.services.actions.making.cutting import cut_shaft
from clubwright.services.actions.orders.changing import change_part, change_parts
from clubwright.services.actions.orders.clubs import next_ticket
from clubwright.services.actions.orders.ticket_taking import take_ticket
from clubwright.services.checks.job_ticket import ticket_of
from clubwright.services.checks.usual_gauge import by_kind
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session
from clubwright.services.report.build_again import make_again
from clubwright.ticket.again import with_typed
from clubwright.ticket.order_paths import place_of


def pull_parts(session: Session, job: str, *, hand: str, key: str | None = None) -> list[Fact]:
    """Keep the hand of the head that was looked at, where the record says another one or none."""
    session.require("work")
    if ticket_of(session.job(job)).club.head.hand == hand:
        return []
    return [change_part(session, job, "head", {"hand": hand}, key)]


def cut_to_length(
    session: Session,
    job: str,
    *,
    cut_length: str,
    cut_mass: str | None,
    cut_balance_from_tip: str | None,
    mass_gauge: str | None,
    balance_gauge: str | None,
    short: bool,
    done_at: str | None,
    key: str | None = None,
) -> Fact:
    """Record the cut, with what measured the mass and the balance of the cut shaft."""
    return cut_shaft(
        session,
        job,
        cut_length,
        key,
        short=short,
        cut_mass=cut_mass,
        cut_balance_from_tip=cut_balance_from_tip,
        gauge=by_kind(mass_gauge, balance_gauge),
        done_at=done_at,
    )


def all_tape_laid(job: Job) -> bool:
    """True once every tape of the ticket is laid by the record."""
    return {row.name or "tape" for row in ticket_of(job).tapes} <= set(job.tapes_laid)


def measure_part(
    session: Session,
    job: str,
    *,
    section: str,
    values: Mapping[str, str],
    another: bool,
    said_by: str,
    reason: str,
    gauge: str | None,
    key: str | None = None,
) -> Fact:
    """Record what was measured of a part, or another part in its place."""
    return change_part(session, job, section, values, key, another=another, said_by=said_by, reason=reason, gauge=gauge)


def measure_parts(
    session: Session, job: str, *, values: Mapping[str, str], gauges: Mapping[str, str], key: str | None = None
) -> list[Fact]:
    """Record what was measured of several parts: one fact for each, all kept or none.

    Raises:
        InputError: for a figure whose table is not named, or that is of one of several of a kind.
    """
    session.require("work")
    changes: dict[str, dict[str, str]] = {}
    astray = []
    for path, text in values.items():
        place = place_of(path)
        if place is None or (place.entry and place.section == place.table):
            astray.append(path)
        else:
            changes.setdefault(place.section, {})[place.key] = text
    if astray:
        mend = 'Write TABLE.KEY=value, such as "head.mass=298.2 g"; one weight or one tape goes by the action measure.'
        what = "is no figure of one part"
        raise InputError([Finding(where="figures", what=f'"{path}" {what}', mend=mend) for path in astray])
    return change_parts(session, job, changes, key, gauge=gauges) if changes else []


def take_again(session: Session, job: str, *, number: str, values: Mapping[str, str], key: str | None = None) -> Fact:
    """Take the ticket that makes a job's club again, with what was typed of the new parts and of the promise."""
    state = session.job(job)
    document = with_typed(make_again(state, answer_job(state, session.now()), number), values)
    return take_ticket(session, document, f"record {job}", key)


def take_next(session: Session, job: str, *, number: str, work: str, key: str | None = None) -> Fact:
    """Take the next job on a job's club."""
    return take_ticket(session, next_ticket(session.job(job), number, work), f"record {job}", key)
