"""From a line of shorthand to a ticket document: the one way the words of page, command and Python become an order."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from clubwright.notation.one_line import one_line
from clubwright.ticket.field_names import read_line_name
from clubwright.ticket.fields.fields import SECTIONS
from clubwright.ticket.shorthand.reader import Shorthand

Document = dict[str, Any]


def document_of(shorthand: Shorthand) -> Document:
    """Return the ticket document that the words say, with the words themselves as `asked`; nothing is added to them."""
    document = document_of_fields(shorthand.fields)
    document.setdefault("ticket", {})["asked"] = one_line(shorthand.text)
    return document


def document_of_fields(fields: Mapping[str, str]) -> Document:
    """Return the document of fields such as ``target.lie`` and ``tape.0.layers``, in the order of the ticket file."""
    document: Document = {}
    lines: dict[str, dict[int, dict[str, str]]] = {}
    for field, value in fields.items():
        section, key, line = read_line_name(field)
        if line is not None:
            lines.setdefault(section, {}).setdefault(line, {})[key] = value
        else:
            document.setdefault(section, {})[key] = value
    document |= {section: [rows[line] for line in sorted(rows)] for section, rows in lines.items()}
    return {section.name: document[section.name] for section in SECTIONS if section.name in document}
