"""Readings of one figure of a part: ``head.mass``, ``shaft.cut_mass``, of one in a list by its name ``weight.port 6.mass``.

Such a path is the one by which an order names the same figure (`clubwright.ticket.order_paths`).
"""

from __future__ import annotations

from typing import NamedTuple

from clubwright.club.part_paths import path_of
from clubwright.state.particulars import Part, Particulars
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields.fields import ADAPTER, CUT_JOBS, SHAFT, TAPE, WEIGHT, Field, Section
from clubwright.ticket.order_paths import place_of
from clubwright.ticket.part_paths import READABLE, SECTION_OF_PART

OF_THE_CUT_SHAFT = tuple(field.key for field in SHAFT.fields if field.figure)
"""Figures of a shaft that there are only once it is cut."""

_TABLES = {name: SECTION_OF_PART[part] for name, part in READABLE.items()}
_LISTS = (WEIGHT.name, TAPE.name)


class PartFigure(NamedTuple):
    """Which figure is read: the table of its part, of a list the name of the entry, and its field."""

    section: Section
    entry: str
    field: Field


def figure_of(quantity: str) -> PartFigure | None:
    """Return which figure of which part a reading is of; None for a quantity of the club, and for what is no figure."""
    place = place_of(quantity)
    section = None if place is None else _TABLES.get(place.table)
    if place is None or section is None:
        return None
    field = section.field(place.key)
    return PartFigure(section, place.entry, field) if field is not None and (field.number or field.figure) else None


def part_kind(quantity: str) -> str | None:
    """Kind of notation of a figure of a part; None when there is no such figure, or it cannot be read by itself."""
    found = figure_of(quantity)
    return None if found is None else found.field.kind


def row_of(ticket: Ticket, quantity: str) -> Particulars | None:
    """Return the part that a reading is of, as the ticket has it; None when it has none of that name."""
    found = figure_of(quantity)
    if found is None:
        return None
    if found.section.name not in _LISTS:
        return ticket.row(found.section.name)
    return next((row for row in _entries(ticket, found.section) if row.name == found.entry), None)


def part_number_path(ticket: Ticket, quantity: str) -> str:
    """Turn ``grip.mass`` into the unknown ``grip.mass_kg``, an old part's into that of what came, a figure likewise.

    Args:
        ticket: With the parts that were on when it was read.
        quantity: A figure of a part that the ticket has (`part_lacking`).
    """
    found = figure_of(quantity)
    assert found is not None, quantity  # checked when the reading was read
    section, entry, field = found
    number = field.number or field.figure
    assert number is not None, quantity  # else it is no figure
    if section.name not in _LISTS:
        return path_of(section.part, number)
    names = [row.name for row in _entries(ticket, section)]
    return path_of(section.part, names.index(entry), number)


def part_lacking(ticket: Ticket, quantity: str) -> str:
    """Say what must be on a ticket before a reading of a part's figure can be used; empty when it can be."""
    found = figure_of(quantity)
    if found is None:
        return ""
    row = row_of(ticket, quantity)
    if row is None:
        return f'needs [[{found.section.name}]] with the name "{found.entry}"'
    if found.section == ADAPTER and not row.given:
        return f"needs {row.where}"
    shaft = ticket.club.shaft
    if found.field.figure and ticket.job in CUT_JOBS and shaft.cut_length is None:
        return f"needs {shaft.where} cut_length"
    return ""


def _entries(ticket: Ticket, section: Section) -> tuple[Part, ...]:
    return ticket.weights if section == WEIGHT else ticket.tapes
