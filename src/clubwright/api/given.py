"""A ticket as a program gives it: a document, a file, or its text."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from clubwright.importers.ticket_file import load_ticket, parse_ticket

Ticket = Mapping[str, Any] | Path | str
"""Tables of strings, the path of a ticket file, or its TOML text: a string with a line break is text, any other a path."""


def ticket_given(ticket: Ticket) -> tuple[Mapping[str, Any], str]:
    """Return the document of a ticket, and where it came from.

    Raises:
        InputError: when there is no such file, or it is no ticket file.
    """
    if isinstance(ticket, Mapping):
        return ticket, "ticket"
    if isinstance(ticket, str) and "\n" in ticket:
        return parse_ticket(ticket), "ticket"
    path = Path(ticket)
    return load_ticket(path), path.name
