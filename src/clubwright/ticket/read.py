"""Read a ticket document (nested tables of strings) into a `Ticket`, with every finding about it at once."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import msgspec

from clubwright.club.beam.stiffness import StiffnessProfile
from clubwright.errors import DocumentPlace, Finding
from clubwright.notation import Collector
from clubwright.state.club import KnownShaft
from clubwright.state.old_parts import OldTape
from clubwright.state.parts import ReleaseRow, ShaftPart, TapePart, WeightPart
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields.fields import (
    CHANGED,
    OLD_TAPE,
    READING,
    RELEASE,
    SECTIONS,
    SHAFT,
    TAPE,
    WEIGHT,
    Section,
)
from clubwright.ticket.fields.shapes import one_shape
from clubwright.ticket.fields.shop import FROM_SHOP
from clubwright.ticket.plausible.checks import plausible
from clubwright.ticket.rows.change_entries import read_changes
from clubwright.ticket.rows.measured import kinds_measured, unknown_gauges
from clubwright.ticket.rows.reading_entries import read_instruments, read_readings
from clubwright.ticket.rows.rows import Row, nearest, read_row
from clubwright.ticket.rows.stiffness import read_stiffness
from clubwright.ticket.rows.typed import ticket_from, typed, typed_list
from clubwright.ticket.shop.findings import shop_findings

SECTION_BY_NAME = {section.name: section for section in (*SECTIONS, *CHANGED.values())}


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
    findings = (*reader.notes.findings, *plausible(ticket), *shop_findings(reader.document, ticket))
    noted = reader.document.get(FROM_SHOP)
    if isinstance(noted, Mapping):
        ticket = msgspec.structs.replace(ticket, from_shop=dict(noted))
    failed = any(finding.severity == "error" for finding in findings)
    return (None if failed else ticket), findings


def read_shaft(document: Mapping[str, Any], source: str) -> tuple[KnownShaft | None, tuple[Finding, ...]]:
    """Read the shaft of a document, and nothing else of it.

    Args:
        document: Tables with values as strings; all but the shaft's may be missing, or wrong.
        source: Names it, for findings.

    Returns:
        The shaft, or None where there is none or any finding is an error; and all findings.
    """
    reader = _Reader(document, source)
    shaft = reader.shaft() if reader.document.get(SHAFT.name) else None
    findings = tuple(reader.notes.findings)
    return (None if any(finding.severity == "error" for finding in findings) else shaft), findings


class _Reader:
    """Walks one document; findings gather in `notes`."""

    def __init__(self, document: Mapping[str, Any], source: str) -> None:
        self.document = one_shape(document)
        self.source = source
        self.notes = Collector()
        self.measured: list[tuple[Section, Row]] = []

    def complain(self, where: DocumentPlace, what: str, mend: str) -> None:
        self.notes.findings.append(Finding(where=where, what=what, mend=mend))

    def ticket(self) -> Ticket:
        known = {section.table: section for section in SECTIONS}
        for name in self.document:
            if name not in known and name != FROM_SHOP:
                self.complain(
                    DocumentPlace(name, source=self.source), "no such table in a ticket", nearest(name, list(known))
                )
        rows = {
            section.name: self.table(section)
            for section in SECTIONS
            if not section.many and not section.named and (section.name in self.document or section.name == "ticket")
        }
        weights = self.tables(WEIGHT)
        instruments = read_instruments(self.document, self.source, self.notes)
        changes = read_changes(self.document.get("change", []), self.source, self.named_row, self.notes)
        names = [row.words.get("name", "") for row in weights]
        known_changes = [change.name for change in changes]
        readings = read_readings(self.tables(READING), names, instruments, self.notes, known_changes)
        self.check_names(weights)
        stiffness = self.stiffness(rows["shaft"]) if "shaft" in rows else None
        self.check_targets(stiffness)
        tapes, old_tapes, release = (self.tables(section) for section in (TAPE, OLD_TAPE, RELEASE))
        self.notes.findings.extend(unknown_gauges(self.measured, list(instruments.texts)))
        return ticket_from(
            rows,
            self.source,
            tapes=typed_list(TapePart, tapes),
            weights=typed_list(WeightPart, weights),
            old_tapes=typed_list(OldTape, old_tapes),
            release=typed_list(ReleaseRow, release),
            changes=changes,
            readings=readings,
            gauges=instruments.understood(readings, self.notes, kinds_measured(self.measured)),
            stiffness=stiffness,
            tapes_said="tape" in self.document,
        )

    def shaft(self) -> KnownShaft:
        row = self.table(SHAFT)
        instruments = read_instruments(self.document, self.source, self.notes)
        named = {name: texts for name, texts in instruments.texts.items() if name in row.gauges.values()}
        self.notes.findings.extend(unknown_gauges(self.measured, list(instruments.texts)))
        only = msgspec.structs.replace(instruments, texts=named)
        gauges = only.understood((), self.notes, kinds_measured(self.measured))
        return KnownShaft(part=typed(ShaftPart, row), stiffness=self.stiffness(row), gauges=gauges)

    def stiffness(self, shaft: Row) -> StiffnessProfile | None:
        content = self.document["shaft"]
        if not isinstance(content, Mapping) or "stiffness" not in content:
            return None
        return read_stiffness(content["stiffness"], shaft, self.notes)

    def table(self, section: Section) -> Row:
        where = DocumentPlace(section.name, source=self.source)
        content = self.document.get(section.name, {})
        if not isinstance(content, Mapping):
            self.complain(where, "this must be a table of keys and strings", f"Write [{section.name}] and its keys.")
            return Row(where=where)
        return self.row(section, content, where)

    def tables(self, section: Section) -> tuple[Row, ...]:
        content = self.document.get(section.table, {} if section.inner else [])
        if section.inner:
            content = content.get(section.inner, []) if isinstance(content, Mapping) else []
        where = DocumentPlace(section.name, many=True, source=self.source)
        if not isinstance(content, list) or not all(isinstance(item, Mapping) for item in content):
            self.complain(where, "this must be a list of tables", f"Write [[{section.name}]] before each.")
            return ()
        return tuple(self.row(section, item, where.one(row)) for row, item in enumerate(content))

    def row(self, section: Section, content: Mapping[str, Any], where: DocumentPlace) -> Row:
        return self.named_row(section.name, content, where)

    def named_row(self, section: str, content: Mapping[str, Any], where: DocumentPlace) -> Row:
        row, findings = read_row(section, content, where, self.document.get("base", {}))
        self.notes.findings.extend(findings)
        if row.gauges:
            self.measured.append((SECTION_BY_NAME[section], row))
        return row

    def check_names(self, weights: tuple[Row, ...]) -> None:
        seen: set[str] = set()
        for row in weights:
            name = row.words.get("name", "")
            if name in seen:
                self.complain(
                    row.where.at("name"),
                    f'two weights are called "{name}"',
                    "Give each weight its own name, or use count.",
                )
            seen.add(name)
            if not name.isprintable():
                self.complain(row.where.at("name"), f"{name!r} has a sign that cannot be seen", "Type it anew.")
            if row.words.get("seat") == "butt" and "from_ground" in row.numbers:
                self.complain(
                    row.where.at("from_ground"), "a butt weight is placed from the cap", "Write from_cap instead."
                )
            if row.words.get("seat") != "butt" and "from_cap" in row.numbers:
                self.complain(
                    row.where.at("from_cap"), "only a butt weight is placed from the cap", "Write from_ground instead."
                )

    def check_targets(self, stiffness: StiffnessProfile | None) -> None:
        """Note a target that nothing on the ticket lets this program compute."""
        target = self.document.get("target")
        if isinstance(target, Mapping) and "frequency" in target and stiffness is None:
            self.notes.findings.append(
                Finding(
                    where=DocumentPlace("target", ("frequency",), source=self.source),
                    what="frequency is kept with the ticket but not computed: it needs [shaft] stiffness",
                    mend="Write the stiffness of the shaft, or read the frequency on the bench.",
                    severity="note",
                )
            )
