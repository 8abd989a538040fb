"""Read the settings of a workshop (`shop.toml`, nested tables of strings), with every finding about them at once."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

import msgspec

from clubwright.errors import DocumentPlace, Finding
from clubwright.notation import Collector, Typist, UnitsShown, parse
from clubwright.state.parts import ReleaseRow, TapePart
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields.fields import ADHESIVE, RELEASE, Section
from clubwright.ticket.fields.minutes import LONGEST_S, MINUTES, USUAL_S, key_of
from clubwright.ticket.fields.printer import PRINTER, PaperKind, command_fault
from clubwright.ticket.fields.shapes import shaped
from clubwright.ticket.fields.shop import ADHESIVES, GAUGES, SHOP_SECTIONS, TAPES, USUAL
from clubwright.ticket.fields.units import UNITS
from clubwright.ticket.plausible.checks import plausible
from clubwright.ticket.rows.reading_entries import read_instruments
from clubwright.ticket.rows.rows import Row, nearest, read_row
from clubwright.ticket.rows.typed import KINDS, ticket_from, typed_list

_NAMED = "adhesive", "tape", "instrument"
"""What a shop has several of."""


class ShopSettings(msgspec.Struct, frozen=True, kw_only=True):
    """What a workshop says once for all its tickets.

    Attributes:
        source: Name of the file; empty when there is none.
        tables: What it says and what can be taken, as typed: table, key, text; of what goes by name, the name between them.
        findings: Everything about the file; while one is an error, no ticket is worked with it.
        understood: Place and meaning of every number.
    """

    source: str = ""
    tables: dict[str, Any] = {}
    findings: tuple[Finding, ...] = ()
    understood: tuple[tuple[str, str], ...] = ()

    @property
    def errors(self) -> tuple[Finding, ...]:
        """The findings that forbid its use."""
        return tuple(finding for finding in self.findings if finding.severity == "error")

    def minutes_s(self) -> dict[str, float]:
        """Return how long each step of the plan takes here, in seconds: as the shop says, else as is usual."""
        said = self.table(MINUTES.name)
        given = {step: parse("duration", said[key_of(step)]).value for step in USUAL_S if key_of(step) in said}
        return {**USUAL_S, **given}

    def units(self) -> UnitsShown:
        """Return units first, mark and language as the shop says, else inches in fractions, Celsius, point, English."""
        said = self.table(UNITS.name)
        return msgspec.convert(
            {key: said[key] for key in ("length", "temperature", "decimal", "language") if key in said}, UnitsShown
        )

    def typist(self) -> Typist:
        """Return how numbers are typed here: as the shop says, else as the notation reads them."""
        said = self.table(UNITS.name)
        return msgspec.convert({key: said[key] for key in ("decimal", "bare_length") if key in said}, Typist)

    def printer(self, paper: PaperKind) -> str:
        """Return the command that prints a kind of paper; empty where the shop names none."""
        said = self.table(PRINTER.name)
        return str(said.get(paper) or (said.get("sheet", "") if paper == "cards" else ""))

    def table(self, section: str) -> dict[str, Any]:
        """Return one table: keys and texts, or names and their tables."""
        found: dict[str, Any] = self.tables.get(section, {})
        return found


NO_SETTINGS = ShopSettings()


def read_shop(document: Mapping[str, Any], source: str = "shop.toml") -> ShopSettings:
    """Read the settings of a workshop; never raises.

    Args:
        document: The file's tables, values as strings.
        source: Name of the file, for findings.
    """
    return _ShopReader(document, source).settings()


class _ShopReader:
    """Walks one document; findings gather in `notes`, rows that were understood in `rows`."""

    def __init__(self, document: Mapping[str, Any], source: str) -> None:
        self.document = document
        self.source = source
        self.notes = Collector()
        self.understood: list[tuple[str, str]] = []

    def complain(self, where: DocumentPlace, what: str, mend: str) -> None:
        self.notes.findings.append(Finding(where=where.within(self.source), what=what, mend=mend))

    def settings(self) -> ShopSettings:
        sections = {section.name: section for section in SHOP_SECTIONS if section is not RELEASE}
        for name in self.document:
            if name not in sections:
                what = "no such table in a shop's settings"
                self.complain(DocumentPlace(name), what, nearest(name, list(sections)))
        tables: dict[str, Any] = {}
        for name, section in sections.items():
            if name not in self.document:
                continue
            content = self.document[name]
            if not isinstance(content, Mapping):
                heading = f"[{name}.NAME]" if section.named else f"[{name}]"
                self.complain(
                    DocumentPlace(name), "this must be a table of keys and strings", f"Write {heading} and its keys."
                )
            elif section is GAUGES:
                tables[name] = self.gauges()
            elif section.named:
                tables[name] = dict(self.named(section, content))
            else:
                tables[name] = self.single(section, content)
        self.usual(tables)
        return ShopSettings(
            source=self.source,
            tables={name: content for name, content in tables.items() if content},
            findings=tuple(self.notes.findings),
            understood=tuple(self.understood),
        )

    def single(self, section: Section, content: Mapping[str, Any]) -> dict[str, str]:
        row = self.row(section, content, DocumentPlace(section.name, source=self.source))
        found = self.texts(section, row, _alone(self.source, {section.name: row}))
        for key, entry in row.numbers.items():
            if section is MINUTES and not 0 < entry.value <= LONGEST_S:
                what, mend = (
                    f'"{entry.typed}" is no time for an operation',
                    "Write more than nothing and at most a day.",
                )
                self.complain(DocumentPlace(section.name, (key,)), what, mend)
                del found[key]
        for key in tuple(found) if section is PRINTER else ():
            if fault := command_fault(found[key]):
                mend = "Write the command and its options, such as lp -d NAME; quote a word that has a space."
                self.complain(DocumentPlace(section.name, (key,)), f'"{found[key]}" is no command: {fault}', mend)
                del found[key]
        return found

    def named(self, section: Section, content: Mapping[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
        for name, table in content.items():
            place = DocumentPlace(f"{section.name}.{name}", source=self.source)
            if not name.strip() or not name.isprintable():
                self.complain(
                    place, f"{name!r} is no name", f"Write [{section.name}.NAME], as the tickets will name it."
                )
            if not isinstance(table, Mapping) or not table:
                what = "this must be a table of keys and strings"
                self.complain(place, what, f"Write [{section.name}.NAME] for each, and its keys.")
                continue
            table = shaped(section.name, table)
            row = self.row(section, table, place)
            if section is TAPES:
                yield name, self.texts(section, row, _alone(self.source, tapes=(row,)))
            else:
                yield name, self.adhesive(row, table, place)

    def adhesive(self, row: Row, table: Mapping[str, Any], place: DocumentPlace) -> dict[str, Any]:
        content = table.get("release", [])
        rows: tuple[Row, ...] = ()
        before = len(self.notes.findings)
        if not isinstance(content, list) or not all(isinstance(item, Mapping) for item in content):
            what, mend = "this must be a list of tables", "Write the rows of the sheet, or release_times as pairs."
            self.complain(place.at("release"), what, mend)
        else:
            heading = DocumentPlace(f"{place.section}.release", source=self.source)
            rows = tuple(self.row(RELEASE, item, heading.one(row)) for row, item in enumerate(content))
        sound = len(self.notes.findings) == before
        found: dict[str, Any] = self.texts(ADHESIVES, row, _alone(self.source, {ADHESIVE.name: row}, release=rows))
        if rows and sound:
            found["release"] = [{key: entry.typed for key, entry in item.numbers.items()} for item in rows]
        return found

    def gauges(self) -> dict[str, dict[str, str]]:
        raw = read_instruments(self.document, self.source, self.notes)
        sound = raw.understood((), self.notes)
        return {name: texts for name, texts in raw.texts.items() if name in sound}

    def row(self, section: Section, content: Mapping[str, Any], where: DocumentPlace) -> Row:
        row, findings = read_row(f"shop {section.name}", content, where, None)
        self.notes.findings.extend(findings)
        self.understood += [(str(entry.where), entry.echo) for entry in row.numbers.values()]
        return row

    def texts(self, section: Section, row: Row, alone: Ticket) -> dict[str, Any]:
        """Return what a table says, as typed, without what cannot be; `alone` is a ticket that says nothing else."""
        findings = plausible(alone)
        self.notes.findings.extend(findings)
        refused = {finding.where for finding in findings if finding.severity == "error"}
        said = {key: entry.typed for key, entry in row.numbers.items()} | row.words
        kept = (field.key for field in section.fields if row.where.at(field.key) not in refused)
        return {key: said[key] for key in kept if key in said}

    def usual(self, tables: dict[str, Any]) -> None:
        """See that what is usual is one of those that the shop describes."""
        said = tables.get(USUAL.name, {})
        for key, section in (("adhesive", ADHESIVES), ("tape", TAPES)):
            known = self.document.get(section.name)
            names = list(known) if isinstance(known, Mapping) else []
            if key in said and said[key] not in names:
                what = f'no {key} is called "{said[key]}" here'
                self.complain(
                    DocumentPlace(USUAL.name, (key,)),
                    what,
                    nearest(said[key], names) if names else f"Describe it in [{key}.NAME].",
                )
                del said[key]


def _alone(
    source: str, rows: Mapping[str, Row] | None = None, *, tapes: tuple[Row, ...] = (), release: tuple[Row, ...] = ()
) -> Ticket:
    """Return a ticket that says nothing but these tables of the shop, of those that a ticket has."""
    known = {name: row for name, row in (rows or {}).items() if name in KINDS}
    return ticket_from(known, source, tapes=typed_list(TapePart, tapes), release=typed_list(ReleaseRow, release))
