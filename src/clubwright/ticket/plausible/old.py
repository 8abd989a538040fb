"""What cannot be, or is odd, about the parts that a club came in with, and about readings of it as it came."""

from __future__ import annotations

from collections.abc import Iterator

from clubwright.club.part_paths import at_path, without_came
from clubwright.club.stages import AS_IT_CAME
from clubwright.errors import Finding
from clubwright.notation import render
from clubwright.state.particulars import Particulars, in_si
from clubwright.state.ticket import Ticket
from clubwright.ticket.part_paths import OLD_TABLES, REPLACED, SECTION_OF_PART

_MEASURE = "Check the unit and the digits, and measure it again."


def old_parts(ticket: Ticket) -> Iterator[Finding]:
    """Yield what is impossible (error) or odd (warning) about old parts; the ticket may be incomplete."""
    yield from _of_other_work(ticket)
    yield from _grip(ticket)
    length, balance = (ticket.club.came.shaft.value(key) for key in ("length", "balance_from_tip"))
    if length is not None and balance is not None and not 0 < balance < length:
        where = ticket.club.came.shaft.where.at("balance_from_tip")
        yield Finding(where=where, what="the balance point lies outside the old shaft", mend=_MEASURE)
    for reading in ticket.readings:
        if reading.stage == AS_IT_CAME.name and ticket.job == "build":
            mend = 'Write the stage it was read at, or the job (such as job = "regrip") of a club that came in.'
            what = "a club that is built new did not come in"
            yield Finding(where=reading.where.at("stage"), what=what, mend=mend)


def _of_other_work(ticket: Ticket) -> Iterator[Finding]:
    """Say which tables of old parts nothing looks at in this kind of work."""
    for part, section in SECTION_OF_PART.items():
        off = without_came(part) in REPLACED.get(ticket.job, ())
        if section.name in OLD_TABLES and not off:
            found = at_path(ticket.club, part)
            rows: tuple[Particulars, ...] = found if section.many else (found,)
            for row in rows:
                if row.numbers or row.words:
                    what = f"is not used: in this kind of work ({ticket.job}) that part does not come off"
                    mend = "Leave it out, or put the job right."
                    yield Finding(where=row.where, what=what, mend=mend, severity="warning")


def _grip(ticket: Ticket) -> Iterator[Finding]:
    row = ticket.club.came.grip
    length, cap, cg = in_si(row.length), in_si(row.cap), in_si(row.cg_from_cap)
    if length is not None and cap is not None and cap >= length:
        what = f"the cap is thicker than the old grip of {render('length', length)} is long"
        yield Finding(where=row.where.at("cap"), what=what, mend=_MEASURE)
    if length is not None and cg is not None and not 0 < cg < length:
        yield Finding(
            where=row.where.at("cg_from_cap"), what="the centre of gravity lies outside the old grip", mend=_MEASURE
        )
    both = in_si(row.mass_with_tape)
    known = [in_si(row.mass) or 0.0, *(in_si(tape.mass) or 0.0 for tape in ticket.club.came.tapes)]
    if both is not None and sum(known) > both:
        what = f"old grip and old tape weigh {render('mass', sum(known))} by themselves, together less"
        yield Finding(where=row.where.at("mass_with_tape"), what=what, mend=_MEASURE)
