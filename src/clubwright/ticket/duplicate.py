"""Another ticket from one that is there: the same order, for other parts; and what differs between two tickets."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, Literal, NamedTuple

import msgspec

from clubwright.errors import InputError
from clubwright.notation import parse
from clubwright.ticket.field_names import field_name
from clubwright.ticket.fields.fields import SECTIONS, Field, Section
from clubwright.ticket.part_paths import OLD_TABLES
from clubwright.ticket.shop.laying import own_of

Document = dict[str, Any]

_OF_ONE_TICKET = ("id", "promised", "priority", "again_of")
_OF_THE_PART = (
    *("hand", "bent_loft", "bent_lie", "bore_diameter", "bore_reamed", "hosel"),
    *("cut_length", "tip_trimmed", "tip_diameter"),
    *("weighed", "cut_mass_length", "cut_balance_length"),
)
"""What is of the very part in hand, never of the order; its measured numbers are left out with them."""

_ORDERED = ("core", "tip_trim")
"""Numbers of parts that are ordered, not measured."""


class Difference(msgspec.Struct, frozen=True, kw_only=True):
    """One field of which two tickets say different things.

    Attributes:
        field: Such as ``head.mass``; of a list, ``tape build-up.layers``.
        label: In words.
        was: What the first says; empty when it does not.
        now: What the second says.
        state: ``changed``, ``new``, or ``to measure`` for what is left out of the second until it is measured.
    """

    field: str
    label: str
    was: str
    now: str
    state: Literal["changed", "new", "to measure"]


def same_order(document: Mapping[str, Any], new_id: str) -> Document:
    """Return the document of a new ticket that orders the same club, its parts not yet in hand.

    What was measured of the first club's parts is left out; what is ordered, the tray of weights and the gauges stay. What
    the shop said when the first ticket was taken is left out too: the new one takes what the shop says on its own day.
    """
    copied: Document = {}
    for name, content in own_of(document).items():
        if name in ("reading", "change", "shim", *OLD_TABLES):
            continue
        section = next((section for section in SECTIONS if section.name == name), None)
        if isinstance(content, list):
            of_the_row = ("fitted", "mass", "cg_from_cap", "length", "gauges") if name == "tape" else ("fitted",)
            copied[name] = [_without(row, of_the_row) for row in content]
        elif section is not None and name in ("head", "shaft", "grip", "ferrule"):
            measured = (
                field.key for field in section.fields if (field.number or field.figure) and field.key not in _ORDERED
            )
            gone = (*_OF_THE_PART, *measured, "gauges")
            kept = _without(content, gone)
            copied |= {name: kept} if kept else {}
        else:
            copied[name] = dict(content)
    copied["ticket"] = {**_without(copied["ticket"], _OF_ONE_TICKET), "id": new_id}
    return copied


def differences(first: Mapping[str, Any], second: Mapping[str, Any]) -> tuple[Difference, ...]:
    """Return every field of which two tickets say different things, in the order of the ticket file.

    Readings, numbers, notes and promises are each ticket's own and left out.
    """
    before, after = dict(_entries(first)), dict(_entries(second))
    found = []
    for said in sorted({**after, **before}):
        was, now = before.get(said, ""), after.get(said, "")
        section = SECTIONS[said.table]
        field = section.fields[said.place]
        if was != now and not _same_value("" if section.many else field.kind, was, now):
            state: Literal["changed", "new", "to measure"] = (
                "changed" if was and now else "new" if now else "to measure"
            )
            called = f"{section.name} {said.name}" if section.many else section.name
            label = f"{called}, {field.key.replace('_', ' ')}" if section.many else field_label(section, field)
            found.append(Difference(field=field_name(called, field.key), label=label, was=was, now=now, state=state))
    return tuple(found)


def _same_value(kind: str, was: str, now: str) -> bool:
    """True when two texts say the same number, such as ``54 deg`` and ``54.0 deg``."""
    if not was or not now or kind in ("", "text", "choice"):
        return False
    try:
        first, second = parse(kind, was), parse(kind, now)
    except InputError:
        return False
    return (first.value, first.sd) == (second.value, second.sd)


def field_label(section: Section, field: Field) -> str:
    """Name a field in words: ``head, bore to ground``."""
    return f"{section.own_name}, {field.key.replace('_', ' ')}"


class _Said(NamedTuple):
    """A figure of a ticket, in the order of the ticket file: which section, which of its fields, the name of the row."""

    table: int
    place: int
    name: str


def _entries(document: Mapping[str, Any]) -> Iterator[tuple[_Said, str]]:
    for table, section in enumerate(SECTIONS):
        if section.name in ("reading", "change", "instrument", "shop"):
            continue
        content = document.get(section.name)
        rows = content if isinstance(content, list) else [content]
        for row in rows:
            if not isinstance(row, Mapping):
                continue
            name = str(row.get("name", "")) if section.many else ""
            for place, field in enumerate(section.fields):
                ours = section.name == "ticket" and field.key in (*_OF_ONE_TICKET, "note", "asked", "job")
                value = row.get(field.key)
                if isinstance(value, str) and not ours and field.key != "fitted":
                    yield _Said(table, place, name), value


def _without(content: Mapping[str, Any], keys: tuple[str, ...]) -> Document:
    return {key: value for key, value in content.items() if key not in keys}
