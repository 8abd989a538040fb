"""Read a ticket document (nested tables of strings) into a `Ticket`, with every finding about it at once."""

from __future__ import annotations

from collections.abc import Mapping
from difflib import get_close_matches
from typing import Any

from clubwright.club.beam.stiffness import StiffnessProfile
from clubwright.errors import Finding
from clubwright.notation import Collector
from clubwright.ticket.fields import (
    READING,
    RELEASE,
    SECTIONS,
    TAPE,
    WEIGHT,
    Field,
    Section,
)
from clubwright.ticket.model import Entry, Row, Ticket
from clubwright.ticket.plausible import plausible
from clubwright.ticket.reading_entries import read_instruments, read_readings
from clubwright.ticket.shapes import one_shape
from clubwright.ticket.stiffness import read_stiffness

_LISTS = {section.name: section for section in (TAPE, WEIGHT, READING)}
_RELATIVE = {"length", "loft", "lie"}


def read_ticket(document: Mapping[str, Any], source: str = "ticket") -> tuple[Ticket | None, tuple[Finding, ...]]:
    """Read a document.

    Args:
        document: The file's tables, values as strings.
        source: Name of the file, for findings.

    Returns:
        The ticket, or None when any finding is an error; and all findings.
    """
    reader = _Reader(document, source)
    ticket = reader.ticket()
    findings = (*reader.notes.findings, *plausible(ticket))
    failed = any(finding.severity == "error" for finding in findings)
    return (None if failed else ticket), findings


class _Reader:
    """Walks one document; findings gather in `notes`."""

    def __init__(self, document: Mapping[str, Any], source: str) -> None:
        self.document = one_shape(document)
        self.source = source
        self.notes = Collector()

    def complain(self, where: str, what: str, mend: str) -> None:
        self.notes.findings.append(Finding(where=where, what=what, mend=mend))

    def ticket(self) -> Ticket:
        known = {section.name.partition(".")[0]: section for section in SECTIONS}
        for name in self.document:
            if name not in known:
                self.complain(f"{self.source} [{name}]", "no such table in a ticket", _nearest(name, list(known)))
        rows = {
            section.name: self.table(section)
            for section in SECTIONS
            if not section.many and not section.named and (section.name in self.document or section.name == "ticket")
        }
        rows.pop("base", None)
        weights = self.tables(WEIGHT)
        instruments = read_instruments(self.document, self.source, self.notes)
        readings = read_readings(
            self.tables(READING), [row.words.get("name", "") for row in weights], instruments, self.notes
        )
        self.check_names(weights)
        shaft = self.document.get("shaft")
        stiffness = None
        if isinstance(shaft, Mapping) and "stiffness" in shaft:
            stiffness = read_stiffness(shaft["stiffness"], rows["shaft"], self.notes)
        self.check_targets(stiffness)
        return Ticket(
            rows=rows,
            source=self.source,
            tapes=self.tables(TAPE),
            weights=weights,
            release=self.tables(RELEASE),
            readings=readings,
            instruments=instruments.understood(readings, self.notes),
            stiffness=stiffness,
        )

    def table(self, section: Section) -> Row:
        where = f"{self.source} [{section.name}]"
        content = self.document.get(section.name, {})
        if not isinstance(content, Mapping):
            self.complain(where, "this must be a table of keys and strings", f"Write [{section.name}] and its keys.")
            return Row(where=where)
        return self.row(section, content, where)

    def tables(self, section: Section) -> tuple[Row, ...]:
        outer, _, inner = section.name.partition(".")
        content = self.document.get(outer, {} if inner else [])
        if inner:
            content = content.get(inner, []) if isinstance(content, Mapping) else []
        if not isinstance(content, list) or not all(isinstance(item, Mapping) for item in content):
            self.complain(
                f"{self.source} [[{section.name}]]",
                "this must be a list of tables",
                f"Write [[{section.name}]] before each.",
            )
            return ()
        return tuple(
            self.row(section, item, f"{self.source} [[{section.name}]] {place}")
            for place, item in enumerate(content, start=1)
        )

    def row(self, section: Section, content: Mapping[str, Any], where: str) -> Row:
        numbers: dict[str, Entry] = {}
        words: dict[str, str] = {}
        for key, raw in content.items():
            place = f"{where} {key}"
            field = section.field(key)
            if field is None:
                if section.name == "adhesive" and key == "release":
                    continue
                self.complain(place, "no such key here", _nearest(key, [f.key for f in section.fields]))
            elif field.kind == "table":
                continue  # read with the figures it goes by, once all of them are
            elif section.name == "reading" and key == "weights":
                words.update(self.names(raw, place))
            elif not isinstance(raw, str):
                self.complain(
                    place, f"{raw!r} is not in quotes", f'Write a string in trade notation, like "{field.example}".'
                )
            elif field.kind in ("text", "choice"):
                words.update(self.word(field, raw, place))
            else:
                entry = self.number(section, field, raw, place)
                if entry is not None:
                    numbers[key] = entry
        for field in section.fields:
            if field.needed and field.key not in content:
                self.complain(f"{where} {field.key}", "missing", f'Add {field.key} = "{field.example}".')
        return Row(where=where, numbers=numbers, words=words)

    def names(self, raw: Any, place: str) -> dict[str, str]:
        if isinstance(raw, list) and all(isinstance(item, str) for item in raw):
            return {"weights": "\n".join(item.strip() for item in raw)}
        self.complain(place, f"{raw!r} is not a list of names", 'Write a list, like weights = ["port 6"].')
        return {}

    def word(self, field: Field, raw: str, place: str) -> dict[str, str]:
        text = raw.strip()
        if field.kind == "choice" and text not in field.choices:
            self.complain(
                place, f'"{raw}" is none of the words used here', "Use one of: " + ", ".join(field.choices) + "."
            )
            return {}
        if field.needed and not text:
            self.complain(place, "empty", f'Write it, like "{field.example}".')
            return {}
        return {field.key: text}

    def number(self, section: Section, field: Field, raw: str, place: str) -> Entry | None:
        if section.name == "tolerance":
            return self.half_width(field, raw, place)
        base = None
        if section.name == "target" and field.key in _RELATIVE:
            base = self.base(field)
        found = self.notes.take(field.kind, raw, where=place, base=base)
        if found is None:
            return None
        return Entry(where=place, typed=raw, value=found.value, sd=found.sd, echo=found.echo)

    def half_width(self, field: Field, raw: str, place: str) -> Entry | None:
        found = self.notes.take_difference(field.kind, raw, where=place)
        if found is None:
            return None
        if found.value <= 0:
            self.complain(place, f'"{raw}" is no half-width', f'Write its size, like "{field.example}".')
            return None
        return Entry(where=place, typed=raw, value=found.value, sd=found.sd, echo=found.echo)

    def base(self, field: Field) -> float | None:
        content = self.document.get("base", {})
        raw = content.get(field.key) if isinstance(content, Mapping) else None
        if not isinstance(raw, str):
            return None
        found = Collector().take(field.kind, raw, where="base")
        return None if found is None else found.value

    def check_names(self, weights: tuple[Row, ...]) -> None:
        seen: set[str] = set()
        for row in weights:
            name = row.words.get("name", "")
            if name in seen:
                self.complain(
                    f"{row.where} name",
                    f'two weights are called "{name}"',
                    "Give each weight its own name, or use count.",
                )
            seen.add(name)
            if not name.isprintable():
                self.complain(f"{row.where} name", f"{name!r} has a sign that cannot be seen", "Type it anew.")
            if row.words.get("seat") == "butt" and "from_ground" in row.numbers:
                self.complain(
                    f"{row.where} from_ground", "a butt weight is placed from the cap", "Write from_cap instead."
                )
            if row.words.get("seat") != "butt" and "from_cap" in row.numbers:
                self.complain(
                    f"{row.where} from_cap", "only a butt weight is placed from the cap", "Write from_ground instead."
                )

    def check_targets(self, stiffness: StiffnessProfile | None) -> None:
        """Note a target that nothing on the ticket lets this program compute."""
        target = self.document.get("target")
        if isinstance(target, Mapping) and "frequency" in target and stiffness is None:
            self.notes.findings.append(
                Finding(
                    where=f"{self.source} [target] frequency",
                    what="frequency is kept with the ticket but not computed: it needs [shaft] stiffness",
                    mend="Write the stiffness of the shaft, or read the frequency on the bench.",
                    severity="note",
                )
            )


def _nearest(word: str, known: list[str]) -> str:
    close = get_close_matches(word, known, n=1)
    return f"Did you mean {close[0]}?" if close else "Known here: " + ", ".join(known) + "."
