"""The parts that were on a club before one of its changes, as the ticket has them."""

from __future__ import annotations

import msgspec

from clubwright.state.particulars import Particulars
from clubwright.state.ticket import Ticket


def ticket_then(ticket: Ticket, place: int | None) -> Ticket:
    """Return a ticket with the parts that were on before a change; bends, cuts and trims are left as they are now.

    Args:
        ticket: As it is now.
        place: Which change, 0 the first; None for the club as it is now.
    """
    if place is None:
        return ticket
    parts: dict[str, Particulars] = {}
    tapes, stiffness = ticket.tapes, ticket.club.stiffness
    for change in reversed(ticket.changes[place:]):
        parts |= {part: row for part, row in change.rows.items() if change.is_another(part)}
        tapes = tapes if change.tapes is None else change.tapes
        stiffness = change.stiffness if change.is_another("shaft") else stiffness
    club = msgspec.structs.replace(
        ticket.club, tapes=tapes, stiffness=stiffness, changes=ticket.changes[:place], **parts
    )
    return msgspec.structs.replace(ticket, club=club)
