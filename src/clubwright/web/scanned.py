"""What a scanner read at the bench: the code of a part, held against the ticket."""

from __future__ import annotations

from clubwright.errors import Finding
from clubwright.services.checks.job_ticket import ticket_of
from clubwright.services.record.session import Session
from clubwright.web.sent import Sent, WrongPartError, needed

PARTS = ("head", "shaft", "grip")
"""What carries a code."""


def scan(session: Session, job: str, sent: Sent) -> str:
    """A part's code was scanned at the pull: it must be a name on the ticket. Nothing is kept of it.

    Returns:
        What was recognised.
    """
    code = needed(sent, "code", "scanned code")
    ticket = ticket_of(session.job(job))
    names = {name: section for section in PARTS if (name := ticket.row(section).word("name"))}
    section = next((section for name, section in names.items() if name.casefold() == code.casefold()), None)
    if section is not None:
        return f"{code}: the {section} of this ticket"
    unnamed = [section for section in PARTS if section not in names.values()]
    if not names:
        return f"{code}: read; this ticket names no {', '.join(unnamed[:-1])} or {unnamed[-1]} that it could be held against"
    mend = "Put it back. This ticket takes: " + ", ".join(names) + "."
    if unnamed:
        mend += f" It names no {' and no '.join(unnamed)}: if it is that, write its name on the ticket."
    raise WrongPartError([Finding(where="scan", what=f'"{code}" is not on this ticket', mend=mend)])
