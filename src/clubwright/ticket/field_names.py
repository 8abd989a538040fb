"""The name of a figure of a ticket, such as ``grip.mass`` or ``tape.0.layers``: written and read here and nowhere else.

Readings of parts, gauges, forms and words that were understood call a figure by it; lines of a list are counted from 0. What
an order calls a figure by has names of weights and gauges in it (`clubwright.ticket.order_paths`).
"""

from __future__ import annotations

from typing import NamedTuple

MOST_DIGITS = 9


class FieldName(NamedTuple):
    """A figure of a ticket: its table, which line of a list, its key."""

    section: str
    key: str
    row: int | None = None

    def __str__(self) -> str:
        """Write it."""
        return field_name(self.section, self.key, self.row)


def field_name(section: str, key: str, row: int | None = None) -> str:
    """Write the name of a figure.

    Args:
        section: Name of the table.
        key: Of the figure.
        row: The line of a list, counted from 0; None where there is one table.
    """
    return f"{section}.{key}" if row is None else f"{section}.{row}.{key}"


def read_field_name(text: str) -> FieldName:
    """Read the name of a figure of a table that there is one of; of the key of a quantity the table stays empty."""
    section, _, key = text.rpartition(".")
    return FieldName(section, key)


def read_line_name(text: str) -> FieldName:
    """Read the name of a figure that may be of a line of a list."""
    path, key, _ = read_field_name(text)
    section, dot, row = path.rpartition(".")
    if dot and row.isascii() and row.isdecimal() and len(row) <= MOST_DIGITS:
        return FieldName(section, key, int(row))
    return FieldName(path, key)
