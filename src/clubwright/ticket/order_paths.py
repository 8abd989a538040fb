"""One figure of a ticket by its path, such as ``target.swing_weight``, and the rows of a data sheet written on one line.

An entry of a list goes by its name: ``weight.port 6.mass``; of a gauge ``instrument.gram scale.bias``. The table of release
times is one figure, ``adhesive.release``, with the rows one after the other: ``20 C: 15 h; 25 C: 12 h``.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import msgspec

from clubwright.ticket.fields.fields import ADHESIVE, BASE, INSTRUMENT, SHOP, TAPE, TARGET, TOLERANCE, WEIGHT
from clubwright.ticket.fields.shapes import shaped

RELEASE = "adhesive.release"
ADHESIVE_NAME = "adhesive.name"
BY_NAME = (WEIGHT.name, TAPE.name, INSTRUMENT.name)
"""Tables of which there are several, told apart by name."""

ORDER_TABLES = (TARGET.name, TOLERANCE.name, BASE.name, SHOP.name)
"""Tables that say what is ordered, and how it is judged: nothing in them is measured."""

OF_THE_CUP = ("joints", "waste", "scale_error", "temperature")
"""What of an adhesive's table is of the bench and its cup, whichever product is in it; everything else is of one product."""

_NOT_OF_THE_SHEET = ("name", *OF_THE_CUP)


class Place(msgspec.Struct, frozen=True, kw_only=True):
    """Where a figure stands.

    Attributes:
        table: Name of the table.
        entry: Which of several, by its name; empty where there is one.
        key: The figure.
    """

    table: str
    entry: str
    key: str

    @property
    def section(self) -> str:
        """Name of the table as the record keeps it: a gauge has a table of its own."""
        return f"{self.table}.{self.entry}" if self.table == INSTRUMENT.name else self.table


def place_of(path: str) -> Place | None:
    """Return where a path leads; None for what is no path."""
    table, dot, rest = path.partition(".")
    entry, _, key = rest.rpartition(".") if table in BY_NAME else ("", "", rest)
    whole = bool(table and dot and key) and (bool(entry) or table not in BY_NAME) and "." not in key
    return Place(table=table, entry=entry, key=key) if whole else None


def table_of(section: str) -> tuple[str, str]:
    """Return table and entry of a section as the record keeps it: of ``instrument.gram scale`` both."""
    table, _, entry = section.partition(".")
    return table, entry


def is_of_table(path: str, table: str) -> bool:
    """True for a figure of that table."""
    place = place_of(path)
    return place is not None and place.table == table


def said_at(document: Mapping[str, Any], path: str) -> str:
    """Return what a document says at a path, as it is typed; empty where it says nothing."""
    place = place_of(path)
    content = None if place is None else document.get(place.table)
    if place is None or content is None:
        return ""
    if place.table == INSTRUMENT.name:
        content = content.get(place.entry) if isinstance(content, Mapping) else None
    elif isinstance(content, list):
        content = next((row for row in content if isinstance(row, Mapping) and row.get("name") == place.entry), None)
    found = shaped(place.table, content).get(place.key, "") if isinstance(content, Mapping) else ""
    return one_line(found) if path == RELEASE else str(found)


def one_line(rows: Any) -> str:
    """Write the rows of a data sheet's table of release times on one line."""
    listed = rows if isinstance(rows, Sequence) and not isinstance(rows, str) else ()
    said = [row for row in listed if isinstance(row, Mapping)]
    return "; ".join(f"{row.get('temperature', '')}: {row.get('time', '')}" for row in said)


def release_rows(text: str) -> list[dict[str, str]]:
    """Read such a line; a row that is not whole lacks a figure, which the reader of the ticket then asks for."""
    rows = []
    for row in filter(None, (each.strip() for each in text.split(";"))):
        temperature, _, time = row.partition(":")
        said = {"temperature": temperature.strip(), "time": time.strip()}
        rows.append({key: figure for key, figure in said.items() if figure})
    return rows


def is_of_the_sheet(path: str) -> bool:
    """True for a figure of an adhesive as a product: with another product it is another one."""
    place = place_of(path)
    return place is not None and place.table == ADHESIVE.name and place.key not in _NOT_OF_THE_SHEET


def sheet_figures(sheet: Mapping[str, Any]) -> dict[str, str]:
    """Return what a table says of an adhesive as a product, each figure by its path; the table's own name is left out."""
    said = shaped(ADHESIVE.name, sheet)
    return {
        f"{ADHESIVE.name}.{key}": one_line(figure) if key == "release" else str(figure)
        for key, figure in said.items()
        if key not in _NOT_OF_THE_SHEET
    }
