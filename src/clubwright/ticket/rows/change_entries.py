"""Changes of the club on a ticket: what each made different, as it was before it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from clubwright.errors import DocumentPlace
from clubwright.notation import Collector
from clubwright.state.club import ChangeEntry
from clubwright.state.parts import TapePart
from clubwright.ticket.fields.fields import CHANGE, CHANGED
from clubwright.ticket.rows.rows import Row, nearest
from clubwright.ticket.rows.stiffness import read_stiffness
from clubwright.ticket.rows.typed import KINDS, typed, typed_list

ReadTable = Callable[[str, Mapping[str, Any], DocumentPlace], Row]
"""Reads one table: name of its section, content, place."""

PLAIN = frozenset(field.key for field in CHANGE.fields)


def read_changes(content: Any, source: str, read: ReadTable, notes: Collector) -> tuple[ChangeEntry, ...]:
    """Read the list of changes, the first one first.

    Args:
        content: What the document has of them.
        source: Name of the file.
        read: Reads one table.
        notes: Gathers the findings.
    """
    where = DocumentPlace(CHANGE.name, many=True, source=source)
    if not isinstance(content, list) or not all(isinstance(item, Mapping) for item in content):
        notes.add(where, "this must be a list of tables", f"Write [[{CHANGE.name}]] before each.")
        return ()
    found = [_change(item, where.one(row), read, notes) for row, item in enumerate(content)]
    seen: set[str] = set()
    for change in found:
        if change.name and change.name in seen:
            notes.add(change.where.at("name"), f'two changes are called "{change.name}"', "Give each its own name.")
        seen.add(change.name)
    for change in [change for change in found if change.came][1:]:
        notes.add(change.where.at("came"), "a club comes in once", 'Write came = "yes" at one change.')
    return tuple(found)


def _change(content: Mapping[str, Any], where: DocumentPlace, read: ReadTable, notes: Collector) -> ChangeEntry:
    name = read(CHANGE.name, {key: text for key, text in content.items() if key in PLAIN}, where)
    rows: dict[str, Any] = {}
    tapes: tuple[TapePart, ...] | None = None
    not_known: list[tuple[str, str]] = []
    stiffness = None
    for part, table in content.items():
        if part in PLAIN:
            continue
        place = where.at(part)
        if part not in CHANGED:
            notes.add(place, "no such table in a change", nearest(part, [*PLAIN, *CHANGED]))
        elif CHANGED[part].many:
            if not isinstance(table, list) or not all(isinstance(item, Mapping) for item in table):
                notes.add(place, "this must be a list of tables", f"Write [[{CHANGED[part].name}]] before each.")
                continue
            as_read = [read(CHANGED[part].name, item, place.at(row)) for row, item in enumerate(table)]
            tapes = typed_list(TapePart, as_read)
        elif not isinstance(table, Mapping):
            notes.add(place, "this must be a table of keys and strings", f"Write [{CHANGED[part].name}] and its keys.")
        else:
            not_known += [(part, key) for key, text in table.items() if text == ""]
            known = read(CHANGED[part].name, {key: text for key, text in table.items() if text != ""}, place)
            rows[part] = typed(KINDS[CHANGED[part].name], known)
            if "stiffness" in table:
                stiffness = read_stiffness(table["stiffness"], known, notes)
    return ChangeEntry(
        where=where,
        name=name.words.get("name", ""),
        **rows,
        tapes=tapes,
        not_known=tuple(not_known),
        stiffness=stiffness,
        came=name.words.get("came") == "yes",
    )
