"""What cannot be about the ports of a head that must never stay empty: too few ports, or too few weights for them."""

from __future__ import annotations

from collections.abc import Iterator

from clubwright.errors import Finding
from clubwright.state.particulars import whole_number
from clubwright.state.ticket import Ticket


def ports_to_fill(ticket: Ticket) -> Iterator[Finding]:
    """Yield an error where more ports are to be filled than there are, and a warning where the tray cannot fill them.

    The advice then fills as many as it can.
    """
    entry, ports = ticket.club.head.ports_to_fill, ticket.club.head.ports
    if entry is None:
        return
    wanted = whole_number(entry, 0)
    if ports is not None and wanted > whole_number(ports, 0):
        what = f"{wanted} ports are to be filled, the head has {whole_number(ports, 0)}"
        yield Finding(where=entry.where, what=what, mend="Count the ports again, and correct ports or ports_to_fill.")
        return
    have = sum(whole_number(row.count, 1) for row in ticket.weights if row.seat == "port")
    if have < wanted:
        what = f"{wanted} ports must not stay empty, and the tray has {have} port weights"
        mend = "Put port weights into the tray, the lightest there are if none is wanted, or correct ports_to_fill."
        yield Finding(where=entry.where, what=what, mend=mend, severity="warning")
    most = whole_number(ticket.shop.most_pieces, wanted)
    if most < wanted:
        what = f"{wanted} ports must not stay empty, and the shop fits {most} loose weights at most"
        mend = "Allow more in [shop] most_pieces, or correct ports_to_fill."
        yield Finding(where=entry.where, what=what, mend=mend, severity="warning")
