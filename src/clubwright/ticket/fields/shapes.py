"""Other shapes in which a ticket file may say the same: each is brought into the one shape that is read.

- a whole number where things are counted (``layers = 2``) is the same as its text;
- the two densities of an adhesive together: ``densities = ["1.16 g/cm3", "0.97 g/cm3"]``, or one string with a comma or
  a slash between them;
- the release times as pairs: ``release_times = [["20 C", "15 h"], ["25 C", "12 h"]]``.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from clubwright.ticket.fields.fields import CHANGE, SECTIONS

COUNTED = {(section.name, field.key) for section in SECTIONS for field in section.fields if field.kind == "count"}


def one_shape(document: Mapping[str, Any]) -> dict[str, Any]:
    """Return the document with every table in the shape that is read; what does not fit is left for the reader to refuse."""
    return {name: shaped(name, content) for name, content in document.items()}


def shaped(name: str, content: Any) -> Any:
    """Return one table, or the list of tables, of that name in the shape that is read."""
    if isinstance(content, list):
        return [shaped(name, item) for item in content]
    if not isinstance(content, Mapping):
        return content
    if name == CHANGE.name:  # its tables are those of the parts, as they were
        return {key: shaped(key, value) for key, value in content.items()}
    table = {key: _counted(name, key, value) for key, value in content.items()}
    if name == "adhesive":
        table = _release(_densities(table))
    return table


def _counted(name: str, key: str, value: Any) -> Any:
    whole = isinstance(value, int) and not isinstance(value, bool)
    return str(value) if whole and (name, key) in COUNTED else value


def _densities(table: dict[str, Any]) -> dict[str, Any]:
    both = table.get("densities")
    parts = re.split(r"[,/](?![a-z])", both) if isinstance(both, str) else both
    if not isinstance(parts, list) or len(parts) != 2 or not all(isinstance(part, str) for part in parts):
        return table
    rest = {key: value for key, value in table.items() if key != "densities"}
    return {**rest, "density_a": parts[0].strip(), "density_b": parts[1].strip()}


def _release(table: dict[str, Any]) -> dict[str, Any]:
    rows = table.get("release_times")
    if not isinstance(rows, list) or "release" in table:
        return table
    rest = {key: value for key, value in table.items() if key != "release_times"}
    return {**rest, "release": [_pair(row) for row in rows]}


def _pair(row: Any) -> Any:
    if isinstance(row, list) and len(row) == 2:
        return {"temperature": row[0], "time": row[1]}
    return row
