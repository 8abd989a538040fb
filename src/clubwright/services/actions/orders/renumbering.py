"""Ticket numbers: the next free one at a bench, and another number for a ticket that was taken already."""

from __future__ import annotations

import re

from clubwright.errors import Finding, InputError
from clubwright.journal.facts import Fact, Renumbered, What
from clubwright.journal.names import AT
from clubwright.journal.reducers.fold import Job, Shop
from clubwright.journal.texts import name_findings
from clubwright.services.record.job_index import JobIndex, highest_of
from clubwright.services.record.looking_up import given_away
from clubwright.services.record.session import Session
from clubwright.services.recording.recording import keep, require_open

USUAL_SITE = "bench"
"""Name of a bench that was given none: the only one of its workshop, as far as anybody said."""
FIRST = "T-"
_NOT_IN_A_MARK = re.compile(r"[^0-9A-Za-z]+")
_OF_A_PATH = "/"


def next_number(jobs: Shop | JobIndex, site: str = USUAL_SITE) -> str:
    """Return the next free ticket number of a bench: ``T-0001`` and on, with the bench's name where it was given one.

    Two benches that write apart so never give one number away.

    Args:
        jobs: Those of the record.
        site: The bench.
    """
    mark = "" if site == USUAL_SITE else _NOT_IN_A_MARK.sub("-", site).strip("-")
    start = f"{FIRST}{mark}-" if mark else FIRST
    highest = highest_of(jobs.numbers, start) if isinstance(jobs, Shop) else jobs.highest(start)
    return f"{start}{highest + 1:04d}"


def free_at(session: Session) -> str:
    """Return the next free ticket number of a bench."""
    return session.ask(lambda index: next_number(index, session.site))


def number_findings(number: str) -> list[Finding]:
    """Say what is wrong with a new ticket number: it is read from tags and written in addresses."""
    found = name_findings("ticket number", number)
    mend = "Use letters, digits and hyphens, such as T-van-0001."
    if number and not number.strip("."):
        found.append(Finding(where="ticket number", what=f'"{number}" is the way to a folder', mend=mend))
    if AT in number or _OF_A_PATH in number:
        found.append(Finding(where="ticket number", what=f'"{number}" holds {AT} or {_OF_A_PATH}', mend=mend))
    return found


def renumber(session: Session, job: str, number: str, key: str | None = None) -> Fact:
    """Give a ticket another number; it is the same job, and what was written under the old number stays with it.

    Whoever reads the old number off a tag is asked which ticket is meant, once another one has it: print the tag anew.

    Args:
        session: Who and where.
        job: Ticket number, or the name that the job goes by.
        number: Its new number, which no other ticket has or had.
        key: Idempotency key.

    Raises:
        InputError: for a number that is taken, or none that can be written on a tag and in an address.
    """
    number = number.strip()
    findings = number_findings(number)
    if findings:
        raise InputError(findings)

    def make(state: Job | None) -> What:
        standing = require_open(state, job)
        if number == standing.numbers[-1]:
            mend = "Choose another number, or leave it."
            raise InputError([Finding(where="ticket number", what=f"it is {number} already", mend=mend)])
        if number not in standing.numbers and given_away(session.ledger, number):
            mend = f"The next free number is {free_at(session)}."
            raise InputError([Finding(where="ticket number", what=f"{number} is already in the record", mend=mend)])
        return Renumbered(job=job, number=number)

    def same(what: What) -> bool:
        return isinstance(what, Renumbered) and what.number == number

    return keep(session, job, make, typed=lambda _: f"new number: {number}", same=same, key=key)
