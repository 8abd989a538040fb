"""When work was done that is written down later: read as a person says it, and refused where it cannot have been then."""

from __future__ import annotations

import re
from datetime import date, datetime, time

import msgspec

from clubwright.errors import Finding, InputError
from clubwright.journal.chain import is_moment
from clubwright.journal.facts import What, kind_of
from clubwright.journal.job import Job, TrailLine
from clubwright.journal.times import to_the_minute
from clubwright.services.record.session import Session, moment_of, utc_text

WHERE = "done at"
_TIME = re.compile(r"(?:([0-9]{4}-[0-9]{2}-[0-9]{2})[ T])?([0-9]{1,2}):([0-9]{2})", re.ASCII)
_HOW = (
    'Write the time by this bench\'s clock, such as "9:40", with its day where that was not today: "2026-11-25 16:05".'
)

READ, MIXED, TAKEN = "reading taken", "adhesive mixed", "mix taken"
MADE = ("shaft trimmed", "shaft cut", "weights fitted", "head bent", "tape laid", "glued", "gripped")
FOLLOWS: dict[str, tuple[str, ...]] = {READ: MADE, MIXED: (MIXED, TAKEN, "glued"), TAKEN: (MIXED, TAKEN, "glued")}
"""Kinds of facts that a fact comes after: what is on the club when it is read; one cup after the other. Work on the club
comes after everything."""
SIGNED_FIRST = {"shaft cut": "cut", "glued": "glue"}
"""Work that a signature comes before."""


def read_done_at(session: Session, text: str | None) -> str | msgspec.UnsetType:
    """Return when something was done, as the record writes it; nothing where no time is given.

    Args:
        session: Its clock and its own time of day.
        text: ``9:40`` of today, ``2026-11-25 16:05``, or a time of the record.

    Raises:
        InputError: for a time that cannot be read, or is still to come.
    """
    if text is None or not text.strip():
        return msgspec.UNSET
    said = text.strip()
    found = utc_text(moment_of(said)) if is_moment(said) else _moment(session, said)
    if found is None:
        raise InputError([Finding(where=WHERE, what=f'"{said}" is no time', mend=_HOW)])
    if moment_of(found) > session.now():
        raise InputError([Finding(where=WHERE, what=f'"{said}" is still to come', mend=_HOW)])
    return found


def done_moment(session: Session, done_at: str | msgspec.UnsetType) -> datetime:
    """Return when something was done: now, where nothing else is said."""
    return moment_of(done_at) if isinstance(done_at, str) else session.now()


def done_text(done_at: str | msgspec.UnsetType) -> str:
    """Say it in the trail; empty where it was written when it was done."""
    return f", done at {minute(done_at)}" if isinstance(done_at, str) else ""


def minute(at: str) -> str:
    """Write a moment of the record to the minute, and that it is in UTC."""
    return f"{to_the_minute(at)} UTC"


def require_in_order(before: Job | None, what: What) -> None:
    """Refuse a time before that of what a fact follows on its job.

    Raises:
        InputError: for such a time.
    """
    done_at = getattr(what, "done_at", msgspec.UNSET)
    if before is None or not isinstance(done_at, str):
        return
    kind = kind_of(what)
    asked = FOLLOWS.get(kind)
    lines = [line for line in before.trail if not line.undone and _comes_first(line, asked)]
    late = [(line.when, f'"{line.text}"') for line in lines]
    signed = before.gates_signed.get(SIGNED_FIRST.get(kind, ""))
    late += [(signed.at, "the signature of its gate")] if signed is not None else []
    after = max((item for item in late if moment_of(item[0]) > moment_of(done_at)), default=None)
    if after is not None:
        mend = (
            "Give a time after that, or leave it out: it then counts as done now. Where the record has the two in the wrong "
            "order, undo that first, and record it again after this."
        )
        what_is_wrong = f"{minute(done_at)} is before {after[1]}, {minute(after[0])}"
        raise InputError([Finding(where=WHERE, what=what_is_wrong, mend=mend)])


def _comes_first(line: TrailLine, asked: tuple[str, ...] | None) -> bool:
    if line.kind == "ticket taken":
        return True
    return line.kind in ((*MADE, READ, MIXED, TAKEN) if asked is None else asked)


def _moment(session: Session, text: str) -> str | None:
    match = _TIME.fullmatch(text)
    if match is None:
        return None
    today = session.local(session.now())
    try:
        day = date.fromisoformat(match[1]) if match[1] else today.date()
        clock = datetime.combine(day, time(int(match[2]), int(match[3])), tzinfo=today.tzinfo)
        # summer time as it was then
        then = session.local(clock)
        found = utc_text(clock.replace(tzinfo=then.tzinfo))
    except (ValueError, OverflowError):
        return None
    return found if is_moment(found) else None
