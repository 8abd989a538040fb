"""Taking a ticket into the record: of a new club, or of one that the record has, as its last job left it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import msgspec

from clubwright.errors import DocumentPlace, Finding, InputError, NumberTaken, RecordError
from clubwright.journal.facts import ClubCameBack, Fact, TicketTaken, What
from clubwright.journal.names import AT
from clubwright.journal.reducers.club_document import taken_over
from clubwright.journal.reducers.fold import Job
from clubwright.journal.reducers.next_job import filled
from clubwright.services.actions.orders.clubs import Left, club_of_ticket
from clubwright.services.answer.club_answer import work_document
from clubwright.services.answer.shop_settings import completed
from clubwright.services.record.looking_up import given_away
from clubwright.services.record.session import Session
from clubwright.services.recording.recording import keep
from clubwright.state.step import FIRST_EDITION
from clubwright.state.steps import EDITION
from clubwright.ticket.shop.laying import own_of


def take_ticket(
    session: Session, document: Mapping[str, Any], source: str, key: str | None = None, *, club: str | None = None
) -> Fact:
    """Take a ticket into the record, with what the shop's settings say today where the ticket is silent.

    Args:
        session: Who and where.
        document: The ticket.
        source: Where it came from.
        key: Idempotency key.
        club: An earlier job on the club that it is work on, where the ticket does not say so itself.

    Raises:
        InputError: with every finding about the document, laid over the club as its last job left it, and the settings.
        RecordError: when the record already has a ticket of that number.
    """
    words = document.get("ticket")
    if club and isinstance(words, Mapping):
        document = {**document, "ticket": {**words, "club": club}}
    left = club_of_ticket(session, document)
    settings = session.settings()
    typed = dict(document) if left is None or left.as_left is None else filled(document, left.as_left)
    typed = completed(typed, settings)
    whole = typed if left is None or left.as_left is None else taken_over(left.as_left, typed)
    job = work_document(whole, source, settings=settings).club_state.ticket.id
    what = _fact(job, typed, source, left)
    own = own_of(what.document)

    def same(found: What) -> bool:
        """The same ticket sent again is the same, also where the shop's settings have changed in between."""
        return isinstance(found, TicketTaken) and found.source == source and own_of(found.document) == own

    if AT in job:
        mend = "Leave it out: it stands between a number and its bench where two benches gave one number away."
        raise InputError([Finding(where=DocumentPlace("ticket", ("id",)), what=f'"{job}" holds {AT}', mend=mend)])

    def make(_: Job | None) -> What:
        if given_away(session.ledger, job):
            taken = f"ticket {job} is already in the record: take it under another number, or change its parts"
            raise NumberTaken(taken)
        if left is not None and club_of_ticket(session, document) != left:
            raise RecordError("somebody worked on this club in between: look at it, and take the ticket again")
        return what

    def said(found: What) -> str:
        return f"the club came back: {job}" if isinstance(found, ClubCameBack) else f"ticket from {source}"

    def beside(_: What) -> Sequence[What]:
        return [] if left is None else [ClubCameBack(job=left.job, subject=left.place, later_job=job)]

    return keep(session, job, make, typed=said, same=same, key=key, new=True, beside=beside)


def _fact(job: str, document: dict[str, Any], source: str, left: Left | None) -> TicketTaken:
    edition = EDITION if EDITION > FIRST_EDITION else msgspec.UNSET
    if left is None:
        return TicketTaken(job=job, document=document, source=source, edition=edition)
    return TicketTaken(
        job=job,
        document=document,
        source=source,
        edition=edition,
        earlier=left.place,
        earlier_job=left.job,
        as_left=msgspec.UNSET if left.as_left is None else left.as_left,
    )
