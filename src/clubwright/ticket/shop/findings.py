"""Say of a ticket what of it came from the shop's settings, as every default is said."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from clubwright.errors import DocumentPlace, Finding
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields.shop import FROM_SHOP
from clubwright.ticket.shop.laying import from_shop

STANDING = "shop setting"


def shop_findings(document: Mapping[str, Any], ticket: Ticket) -> tuple[Finding, ...]:
    """Return a note for each table with figures of the shop that this ticket uses; an error where the table is no table."""
    noted = document.get(FROM_SHOP, {})
    where = DocumentPlace(FROM_SHOP, source=ticket.source)
    if not isinstance(noted, Mapping) or not all(isinstance(said, Mapping | list) for said in noted.values()):
        mend = "Take it out: the program writes it when a ticket is taken."
        return (Finding(where=where, what="this is not what the program wrote", mend=mend),)
    return tuple(_notes(document, ticket))


def _notes(document: Mapping[str, Any], ticket: Ticket) -> Iterator[Finding]:
    gauges = {reading.instrument for reading in ticket.readings}
    for item in from_shop(document):
        if item.section == "instrument" and item.name not in gauges:
            continue
        used = {key: text for key, text in item.said.items() if item.section != "tolerance" or key in ticket.targets}
        if used:
            yield Finding(
                where=f"{ticket.source} {item.place}",
                what=f"not given: taken as {said_text(used)} ({STANDING})",
                mend="Write it in the ticket where it is otherwise for this club.",
                severity="note",
            )


def said_text(said: Mapping[str, Any]) -> str:
    """Return keys and texts in words: ``ratio 2:1, basis weight``."""
    return ", ".join(f"{key.replace('_', ' ')} {_text(text)}" for key, text in said.items())


def _text(text: Any) -> str:
    if isinstance(text, list):
        return " and ".join(f"{row.get('time', '')} at {row.get('temperature', '')}" for row in text)
    return str(text)
