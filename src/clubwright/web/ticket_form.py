"""The ticket as a form: which fields it has, how what was sent becomes a document, and where each finding belongs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

import msgspec

from clubwright.errors import DocumentPlace, Finding, InputError
from clubwright.importers.ticket_file import dump_ticket, parse_ticket
from clubwright.ticket.field_names import field_name, read_line_name
from clubwright.ticket.fields.fields import Section
from clubwright.web.ticket_form_fields import BY_NAME, KEYS, LISTS
from clubwright.words import spoken

Sent = Mapping[str, list[str]]
Document = dict[str, Any]


class Filled(msgspec.Struct, frozen=True, kw_only=True):
    """A form as sent: its document, and for every field its text by name, lines of lists counted without gaps.

    A list of more lines than the form takes has no fields: it is carried along as it is.
    """

    document: Document
    values: dict[str, str]
    lines: dict[str, int]

    def is_long(self, name: str) -> bool:
        """True for a list of more lines than the form takes."""
        return name in LISTS and self.lines[name] > LISTS[name]


def of_sent(sent: Sent) -> Filled:
    """Return the document that a sent form says; empty fields and empty lines are left out.

    Raises:
        InputError: when what is carried along unseen is no ticket text any more.
    """
    for name in sent:
        section, _, place = read_line_name(name)
        if section in LISTS and place is not None and place >= LISTS[section] and _one(sent, name):
            what = f"a form takes {LISTS[section]} lines of {section}"
            raise InputError([Finding(where=label_of(name), what=what, mend="Bring the ticket as a file.")])
    document: Document = _rest(_one(sent, "rest"))
    for name, keys in KEYS.items():
        if name in LISTS:
            continue
        content = {key: text for key in keys if (text := _one(sent, field_name(name, key)))}
        if content:
            document[name] = {**document.get(name, {}), **content}
    asked = _one(sent, "asked")
    if asked:
        document.setdefault("ticket", {})["asked"] = asked
    for name in LISTS:
        rows = list(_rows(sent, name))
        if name == "adhesive.release":
            if rows:
                document.setdefault("adhesive", {})["release"] = rows
        elif rows and name in document:
            what = f"this form carries {len(document[name])} lines of {name} along, and has others beside them"
            raise InputError(
                [Finding(where=label_of(field_name(name, "name", 0)), what=what, mend="Load the page anew.")]
            )
        elif rows:
            document[name] = rows
    document.setdefault("ticket", {})
    return of_document(document)


def of_document(document: Document) -> Filled:
    """Return a document as a filled form."""
    values: dict[str, str] = {}
    lines: dict[str, int] = {}
    for name, keys in KEYS.items():
        if name in LISTS:
            rows = _list(document, name)
            lines[name] = len(rows)
            shown = rows if len(rows) <= LISTS[name] else []
            values |= {
                field_name(name, key, place): str(row[key])
                for place, row in enumerate(shown)
                for key in keys
                if key in row
            }
        else:
            content = document.get(name, {})
            values |= {field_name(name, key): str(content[key]) for key in keys if key in content}
    return Filled(document=document, values=values, lines=lines)


def rest_of(document: Document) -> str:
    """Return, as ticket text, what a document holds beyond the form's fields; empty when nothing."""
    rest: Document = {}
    long = {name for name in LISTS if len(_list(document, name)) > LISTS[name]}
    for name, content in document.items():
        if name in LISTS and name not in long:
            continue
        shown = KEYS.get(name, ())
        if isinstance(content, Mapping):
            left = {
                key: value for key, value in content.items() if key not in shown and (name, key) != ("ticket", "asked")
            }
            if f"{name}.release" not in long:
                left.pop("release", None)
            if left:
                rest[name] = left
        else:
            rest[name] = content
    return dump_ticket(rest) if rest else ""


def field_of(finding: Finding) -> str:
    """Return the form's field that a finding is about, of all lines alike the first one's; empty when it is about none."""
    where = finding.where
    if not isinstance(where, DocumentPlace) or where.key not in KEYS.get(where.section, ()):
        return ""
    row = 0 if where.row is None and where.section in LISTS else where.row
    return field_name(where.section, where.key, row)


def by_field(findings: Iterable[Finding]) -> dict[str, list[Finding]]:
    """Sort findings by the field they stand beside; those of none under the empty name."""
    found: dict[str, list[Finding]] = {}
    for finding in findings:
        found.setdefault(field_of(finding), []).append(finding)
    return found


def label_of(name: str) -> str:
    """Name a field of the form in words: ``weight 2, goes in``."""
    section, key, place = read_line_name(name)
    line = f" {place + 1}" if place is not None else ""
    known = BY_NAME.get(section)
    return f"{section if known is None else known.own_name}{line}, {spoken('key', key)}"


def section_of(name: str) -> Section:
    """Return the section of the ticket file of that name."""
    return BY_NAME[name]


def _rest(text: str) -> Document:
    document = parse_ticket(text, "carried along") if text else {}
    for name, content in document.items():
        rows = content if isinstance(content, list) else [content]
        if not all(isinstance(row, dict) for row in rows) or (isinstance(content, list) != _is_list(name)):
            what = f"[{name}] is no table of a ticket any more"
            raise InputError([Finding(where="carried along", what=what, mend="Load the page anew.")])
    return document


def _is_list(name: str) -> bool:
    section = BY_NAME.get(name)
    return section is not None and section.many


def _rows(sent: Sent, name: str) -> Iterable[dict[str, str]]:
    keys = KEYS[name]
    for place in range(LISTS[name]):
        row = {key: text for key in keys if (text := _one(sent, field_name(name, key, place)))}
        if row:
            yield row


def _list(document: Document, name: str) -> list[dict[str, Any]]:
    section = BY_NAME[name]
    content = document.get(section.table, {} if section.inner else [])
    if section.inner:
        content = content.get(section.inner, []) if isinstance(content, Mapping) else []
    return content if isinstance(content, list) else []


def _one(sent: Sent, name: str) -> str:
    return sent.get(name, [""])[0].strip()


def carried(document: Document) -> tuple[str, ...]:
    """Say in words what a document holds beyond the form's fields."""
    try:
        rest = _rest(rest_of(document))
    except InputError:
        return ()
    return tuple(f"[{name}]" for name in rest)
