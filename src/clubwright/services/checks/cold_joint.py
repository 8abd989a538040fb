"""A joint colder than its adhesive's table: it does not cure there, so it is not closed, and one that was is told."""

from __future__ import annotations

from clubwright.errors import Finding, InputError, NotPossible
from clubwright.journal.job import Job
from clubwright.notation import parse, render
from clubwright.planning.joint.cure import release_time
from clubwright.state.particulars import in_si
from clubwright.state.ticket import Ticket

WHERE = "temperature of the part"


def too_cold(ticket: Ticket, temperature: str) -> tuple[Finding, ...]:
    """Say that a part is colder than the table's coldest row, with what to do first; nothing without a table."""
    coldest_k = _colder_than_k(ticket, temperature)
    if coldest_k is None:
        return ()
    return (_cold(temperature, coldest_k, f"warm the part to at least {render('temperature', coldest_k)} first"),)


def no_release(job: Job, ticket: Ticket) -> tuple[Finding, ...]:
    """Say why a joint has no time from which it is released, with how to go on; nothing when it has one."""
    if job.glued_at is None or job.glued_temperature is None:
        mend = "Close it, and record it with the temperature of the part."
        return (Finding(where="release", what="the joint is not glued by the record", mend=mend),)
    if not ticket.club.release:
        mend = "Copy the rows of the data sheet into [[adhesive.release]]."
        return (Finding(where="release", what="the ticket has no release times", mend=mend),)
    try:
        coldest_k = _colder_than_k(ticket, job.glued_temperature)
    except InputError as refused:
        return refused.findings
    if coldest_k is None:
        return ()
    mend = (
        f"Warm the part to at least {render('temperature', coldest_k)}. Within the pot life, undo the line of the joint and "
        "record it at that temperature: its time counts from then. After the pot life, take the joint apart, clean it, "
        "mix anew and glue it again."
    )
    return (_cold(job.glued_temperature, coldest_k, mend),)


def _cold(temperature: str, coldest_k: float, mend: str) -> Finding:
    kelvin = parse("temperature", temperature, where=WHERE).value
    what = (
        f"{render('temperature', kelvin)} is colder than the coldest row of the table, "
        f"{render('temperature', coldest_k)}, and does not cure"
    )
    return Finding(where=WHERE, what=what, mend=mend)


def _colder_than_k(ticket: Ticket, temperature: str) -> float | None:
    """Return the table's coldest row where the part is colder than it; None where it is not, or there is no table."""
    table = tuple((in_si(row.temperature) or 0.0, in_si(row.time) or 0.0) for row in ticket.club.release)
    if not table:
        return None
    try:
        release_time(table, parse("temperature", temperature, where=WHERE).value)
    except NotPossible:
        return min(kelvin for kelvin, _ in table)
    return None
