"""One table of a ticket: its words and its numbers."""

from __future__ import annotations

import re
from collections.abc import Mapping
from difflib import get_close_matches
from typing import Any

import msgspec

from clubwright.errors import DocumentPlace, Finding
from clubwright.notation import Collector
from clubwright.state.particulars import Entry, StiffnessTyped
from clubwright.ticket.fields.fields import BASE, CHANGED, KEY_PATTERN, SECTIONS, Field, Section, is_measured
from clubwright.ticket.fields.shop import SHOP_SECTIONS

_RELATIVE = {field.key for field in BASE.fields}
_BY_NAME = {section.name: section for section in (*SECTIONS, *CHANGED.values())}
_BY_NAME |= {f"shop {section.name}": section for section in SHOP_SECTIONS}
_NOTHING: Mapping[str, Any] = {}


class Row(msgspec.Struct, frozen=True, kw_only=True):
    """One table of the file as read: its numbers and its words, by key; of a reading also the names of its weights."""

    where: DocumentPlace
    numbers: dict[str, Entry] = {}
    words: dict[str, str] = {}
    stiffness: StiffnessTyped | None = None
    gauges: dict[str, str] = {}
    names: tuple[str, ...] = ()

    def value(self, key: str) -> float | None:
        """Return a number in SI, or None when the file does not give it."""
        entry = self.numbers.get(key)
        return None if entry is None else entry.value

    def count(self, key: str, otherwise: int) -> int:
        """Return a whole number, or a stated one when the file does not give it."""
        entry = self.numbers.get(key)
        return otherwise if entry is None else round(entry.value)


def read_row(
    section: str, content: Mapping[str, Any], where: DocumentPlace, base: Any
) -> tuple[Row, tuple[Finding, ...]]:
    """Read one table.

    Args:
        section: Name of the section that says which keys there are; ``shop NAME`` for a table of the shop's settings.
        content: Keys and texts.
        where: Place in the ticket, for findings.
        base: The ticket's own ``[base]`` table, from which some targets are counted.

    Returns:
        What could be read, and every finding about it.
    """
    counted_from = base if section == "target" and isinstance(base, Mapping) else _NOTHING
    reader = _RowReader(_BY_NAME[section], counted_from)
    row = reader.row(content, where)
    return row, tuple(reader.notes.findings)


class _RowReader:
    """Walks one table; findings gather in `notes`."""

    def __init__(self, section: Section, base: Mapping[str, Any]) -> None:
        self.section = section
        self.base = base
        self.notes = Collector()

    def row(self, content: Mapping[str, Any], where: DocumentPlace) -> Row:
        numbers: dict[str, Entry] = {}
        words: dict[str, str] = {}
        stiffness = None
        gauges: dict[str, str] = {}
        names: tuple[str, ...] = ()
        for key, raw in content.items():
            place = where.at(key)
            field = self.section.field(key)
            if field is None:
                if self.section.name in ("adhesive", "change.adhesive") and key == "release":
                    continue
                self.notes.add(place, "no such key here", nearest(key, [f.key for f in self.section.fields]))
            elif field.kind == "table":
                stiffness = stiffness_typed(raw)  # read with the figures it goes by, once all of them are
            elif field.kind == "gauges":
                gauges = self.gauges(raw, place)
            elif self.section.name == "reading" and key == "weights":
                names = self.names(raw, place)
            elif not isinstance(raw, str):
                self.notes.add(
                    place, f"{raw!r} is not in quotes", f'Write a string in trade notation, like "{field.example}".'
                )
            elif field.kind in ("text", "choice", "key"):
                words.update(self.word(field, raw, place))
            else:
                entry = self.number(field, raw, place)
                if entry is not None:
                    numbers[key] = entry
        for field in self.section.fields:
            if field.needed and field.key not in content:
                self.notes.add(where.at(field.key), "missing", f'Add {field.key} = "{field.example}".')
        return Row(where=where, numbers=numbers, words=words, stiffness=stiffness, gauges=gauges, names=names)

    def gauges(self, raw: Any, place: DocumentPlace) -> dict[str, str]:
        """Read which gauge measured which figure; whether there is such a gauge is seen when all are read."""
        if not isinstance(raw, Mapping):
            mend = 'Write a table of gauges by figure, like gauges = { mass = "gram scale" }.'
            self.notes.add(place, f"{raw!r} is no table", mend)
            return {}
        found: dict[str, str] = {}
        known = [field.key for field in self.section.fields if is_measured(field)]
        for key, name in raw.items():
            if key not in known:
                self.notes.add(place.at(key), "no gauge measures that here", nearest(key, known))
            elif not isinstance(name, str) or not name.strip():
                self.notes.add(place.at(key), f"{name!r} is no name of a gauge", "Write its name, in quotes.")
            else:
                found[key] = name.strip()
        return found

    def names(self, raw: Any, place: DocumentPlace) -> tuple[str, ...]:
        if isinstance(raw, list) and all(isinstance(item, str) for item in raw):
            return tuple(item.strip() for item in raw)
        self.notes.add(place, f"{raw!r} is not a list of names", 'Write a list, like weights = ["port 6"].')
        return ()

    def word(self, field: Field, raw: str, place: DocumentPlace) -> dict[str, str]:
        text = raw.strip()
        if field.kind == "choice" and text not in field.choices:
            self.notes.add(
                place, f'"{raw}" is none of the words used here', "Use one of: " + ", ".join(field.choices) + "."
            )
            return {}
        if field.kind == "key" and text and not re.fullmatch(KEY_PATTERN, text):
            mend = f"Write one word of letters, digits and - . _ / with at most 40 signs, like {field.example}."
            self.notes.add(place, f'"{raw}" is no key', mend)
            return {}
        if field.needed and not text:
            self.notes.add(place, "empty", f'Write it, like "{field.example}".')
            return {}
        return {field.key: text}

    def number(self, field: Field, raw: str, place: DocumentPlace) -> Entry | None:
        if self.section.name == "tolerance":
            return self.half_width(field, raw, place)
        base = None
        if self.section.name == "target" and field.key in _RELATIVE:
            base = self.counted_from(field)
        found = self.notes.take(field.kind, raw, where=place, base=base)
        if found is None:
            return None
        return Entry(where=place, typed=raw, value=found.value, sd=found.sd, echo=found.echo, stepped=found.stepped)

    def half_width(self, field: Field, raw: str, place: DocumentPlace) -> Entry | None:
        found = self.notes.take_difference(field.kind, raw, where=place)
        if found is None:
            return None
        if found.value <= 0:
            self.notes.add(place, f'"{raw}" is no half-width', f'Write its size, like "{field.example}".')
            return None
        return Entry(where=place, typed=raw, value=found.value, sd=found.sd, echo=found.echo, stepped=found.stepped)

    def counted_from(self, field: Field) -> float | None:
        raw = self.base.get(field.key)
        if not isinstance(raw, str):
            return None
        found = Collector().take(field.kind, raw, where="base")
        return None if found is None else found.value


def stiffness_typed(raw: Any) -> StiffnessTyped | None:
    """Return a stiffness as it was typed; None for what is no stiffness at all, which is refused when it is read."""
    if isinstance(raw, str):
        return StiffnessTyped(words=raw)
    if not isinstance(raw, Mapping):
        return None
    texts = {key: tuple(map(str, item)) if isinstance(item, list) else str(item) for key, item in raw.items()}
    return StiffnessTyped(values=texts)


def nearest(word: str, known: list[str]) -> str:
    """Return how to mend a name that is not known: the one that is meant, or all there are."""
    close = get_close_matches(word, known, n=1)
    return f"Did you mean {close[0]}?" if close else "Known here: " + ", ".join(known) + "."
