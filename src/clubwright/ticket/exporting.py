"""Write a ticket as the document of a ticket file, which reads to the same ticket again: every figure as it was typed."""

from __future__ import annotations

from typing import Any

from clubwright.state.club import ChangeEntry
from clubwright.state.gauge import ReadingEntry
from clubwright.state.order import ByQuantity
from clubwright.state.particulars import Entry, Particulars, StiffnessTyped, said_of
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields.fields import SECTIONS, TARGET
from clubwright.ticket.fields.shop import FROM_SHOP

Document = dict[str, Any]


def document_of_ticket(ticket: Ticket) -> Document:
    """Return the document of a ticket, its tables in the order of the register.

    Args:
        ticket: As it was read, or as it stands in the record.

    Returns:
        Tables of texts. Read again under the same name, they give the same ticket, to the last bit.
    """
    found: Document = {}
    for section in SECTIONS:
        content = _content(ticket, section.name)
        if content is not None:
            found[section.name] = content
    if ticket.club.release:
        found["adhesive"]["release"] = [_table(row) for row in ticket.club.release]
    if ticket.from_shop:
        found[FROM_SHOP] = ticket.from_shop
    return found


def _content(ticket: Ticket, section: str) -> Any:
    """Return what stands in one table, or list of tables, of the file; None where there is none."""
    club = ticket.club
    lists: dict[str, list[Document]] = {
        "weight": [_table(row) for row in club.weights],
        "old_tape": [_table(row) for row in club.came.tapes],
        "change": [_change(change) for change in club.changes],
        "reading": [_reading(ticket, reading) for reading in club.readings],
    }
    if section in lists:
        return lists[section] or None
    if section == "tape":
        return [_table(row) for row in club.tapes] if club.tapes_said else None
    if section == "instrument":
        return {name: dict(gauge.typed) for name, gauge in ticket.gauges.items()} or None
    if section == "ticket":
        return _order(ticket)
    if section == "adhesive.release":
        return None  # inside its adhesive
    row = ticket.order.base if section == "base" else ticket.row(section)
    return _table(row) if row.given else None


def _order(ticket: Ticket) -> Document:
    """Return the table of the order; the player is a thing of its own in the state, and a word in the file."""
    said = _table(ticket.order)
    player = {} if ticket.order.player.name is None else {"player": ticket.order.player.name}
    return {key: text for key, text in {"id": said.get("id"), **player, **said}.items() if text is not None}


def _table(row: Particulars) -> Document:
    """Return one table: every figure and every word as typed, in the order of the register."""
    found: Document = {}
    if isinstance(row, ByQuantity):
        # a word among them (`length_method`) stands where the file has its field, behind the length
        texts = {key: entry.typed for key, entry in row.numbers.items()} | row.words
        return {field.key: texts[field.key] for field in TARGET.fields if field.key in texts}
    for key, absent in said_of(type(row)):
        value = getattr(row, key)
        if isinstance(value, Entry):
            found[key] = value.typed
        elif isinstance(value, StiffnessTyped):
            found[key] = _stiffness(value)
        elif isinstance(value, str) and value != absent:
            found[key] = value
        elif key == "gauges" and value:
            found[key] = dict(value)
    return found


def _stiffness(typed: StiffnessTyped) -> Any:
    if not typed.values:
        return typed.words
    return {key: list(text) if isinstance(text, tuple) else text for key, text in typed.values.items()}


def _change(change: ChangeEntry) -> Document:
    """Return one change; a figure that it changed and nobody knew before is an empty text."""
    found: Document = {"name": change.name} if change.name else {}
    if change.came:
        found["came"] = "yes"
    for part, row in change.rows.items():
        unknown = [key for of, key in change.not_known if of == part]
        found[part] = {**_table(row), **dict.fromkeys(unknown, "")}
    if change.tapes is not None:
        found["tape"] = [_table(row) for row in change.tapes]
    return found


def _reading(ticket: Ticket, reading: ReadingEntry) -> Document:
    found: Document = {"quantity": reading.quantity, "value": reading.entry.typed, "stage": reading.stage}
    if reading.weights:
        found["weights"] = list(reading.weights)
    if reading.instrument is not None:
        found["instrument"] = reading.instrument
    if reading.repeats != 1:
        found["repeats"] = str(reading.repeats)
    if reading.second_plane is not None:
        found["second_plane"] = reading.second_plane.typed
    found |= {key: entry.typed for key, entry in reading.held.items()}
    if reading.keep is not None:
        found["keep"] = "yes" if reading.keep else "no"
    if reading.fact is not None:
        found["fact"] = str(reading.fact)
    if reading.job:
        found["job"] = reading.job
    if reading.before is not None:
        found["before"] = ticket.changes[reading.before].name
    return found
