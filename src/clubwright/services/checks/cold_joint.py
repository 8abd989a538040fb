"""A joint colder than its adhesive's table: it does not cure there, so it is not closed, and one that was is told."""

from __future__ import annotations

import msgspec

from clubwright.errors import Finding, InputError, NotPossible
from clubwright.journal.job import Job
from clubwright.notation import parse, units_shown
from clubwright.planning.joint.cure import release_time
from clubwright.planning.said.phrases import Value, figure, phrase
from clubwright.state.particulars import in_si
from clubwright.state.ticket import Ticket
from clubwright.words import say
from clubwright.words.gate import told

WHERE = "temperature of the part"


def too_cold(ticket: Ticket, temperature: str) -> tuple[Finding, ...]:
    """Say that a part is colder than the table's coldest row, with what to do first; nothing without a table."""
    coldest_k = _colder_than_k(ticket, temperature)
    if coldest_k is None:
        return ()
    first = say(phrase("cold.warm first", at=figure("temperature", coldest_k)), units_shown())
    return (
        msgspec.structs.replace(_cold(temperature, coldest_k, ""), mend=first),
    )  # a clause of what refuses the glue


def no_release(job: Job, ticket: Ticket) -> tuple[Finding, ...]:
    """Say why a joint has no time from which it is released, with how to go on; nothing when it has one."""
    if job.glued_at is None or job.glued_temperature is None:
        return (told("release", phrase("cold.not glued"), phrase("cold.glue it")),)
    if not ticket.club.release:
        return (told("release", phrase("gate.no table"), phrase("gate.copy table")),)
    try:
        coldest_k = _colder_than_k(ticket, job.glued_temperature)
    except InputError as refused:
        return refused.findings
    if coldest_k is None:
        return ()
    mend = phrase("cold.warm now", at=figure("temperature", coldest_k))
    return (_cold(job.glued_temperature, coldest_k, mend),)


def _cold(temperature: str, coldest_k: float, mend: Value) -> Finding:
    kelvin = parse("temperature", temperature, where=WHERE).value
    what = phrase("cold.colder", at=figure("temperature", kelvin), coldest=figure("temperature", coldest_k))
    return told(WHERE, what, mend)


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
