"""What the form of a ticket shows: its fields and lines, its findings, and the words each field came from."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

import msgspec

from clubwright.club.parts import WOODS
from clubwright.errors import Finding
from clubwright.ticket.field_names import field_name, read_line_name
from clubwright.ticket.fields.fields import Field
from clubwright.ticket.shorthand.reader import Said, Shorthand
from clubwright.web.ticket_form import Filled, by_field, carried, field_of, label_of, rest_of, section_of
from clubwright.web.ticket_form_fields import KEYS, LISTS, SHOWN, TITLES
from clubwright.words import spoken
from clubwright.words.how_typed import how_typed

ALWAYS_OPEN = ("ticket", "target")
_HINTS = {"ticket.promised": "a day, and a time of day"}
"""How words are typed that the program reads."""

_USUAL = {"ticket.job": "build", "ticket.priority": "this week"}


class FieldView(msgspec.Struct, frozen=True, kw_only=True):
    """One field of the form."""

    name: str
    label: str
    meaning: str
    hint: str
    value: str
    choices: tuple[str, ...] = ()
    usual: str = ""
    needed: bool = False
    words: str = ""
    findings: tuple[Finding, ...] = ()


class Group(msgspec.Struct, frozen=True, kw_only=True):
    """One part of the form: its fields, or its lines of fields.

    Attributes:
        many: Whether it has lines.
        full: Whether it takes no further line.
        long: Whether it has more lines than the form shows, and is carried along as it is.
        filled: How many fields are filled in, or how many lines there are.
    """

    name: str
    title: str
    meaning: str
    fields: tuple[FieldView, ...] = ()
    rows: tuple[tuple[FieldView, ...], ...] = ()
    many: bool = False
    full: bool = False
    long: bool = False
    open: bool = False
    filled: int = 0


class FormView(msgspec.Struct, frozen=True, kw_only=True):
    """The whole form, and what is wrong with it at once."""

    groups: tuple[Group, ...]
    errors: tuple[tuple[str, str, Finding], ...]
    notes: tuple[Finding, ...]
    rest: str
    carried: tuple[str, ...]
    shorthand: Shorthand | None
    understood: tuple[tuple[str, str, str], ...]
    asked: str
    left_out: bool
    key: str
    seen: int


def form_view(
    filled: Filled,
    *,
    key: str,
    seen: int,
    findings: Iterable[Finding] = (),
    shorthand: Shorthand | None = None,
    more: str = "",
    left_out: bool = False,
) -> FormView:
    """Lay out the form.

    Args:
        filled: What is in it.
        key: Idempotency key of the ticket to be taken.
        seen: How many facts the record held when it was shown.
        findings: What is wrong with it.
        shorthand: The words it came from, if it came from words.
        more: List that gets another empty line.
        left_out: Whether the words not understood are knowingly left out.
    """
    found = by_field(findings)
    words = {} if shorthand is None else {item.field: item.words for item in shorthand.said if item.field}
    counted = shorthand is not None and any(item.counted for item in shorthand.said)
    opened = {*ALWAYS_OPEN, more, *(["base"] if counted or _asks_for_a_base(found) else [])}
    groups = tuple(_group(name, filled, found, words, more, name in opened) for name in _needed(filled, found, more))
    on_page = {field.name for group in groups for row in (group.fields, *group.rows) for field in row}
    errors = tuple(
        (field_of(item), label_of(field_of(item)), item) if field_of(item) in on_page else ("", str(item.where), item)
        for items in found.values()
        for item in items
        if item.severity == "error"
    )
    ticket: Mapping[str, Any] = filled.document.get("ticket", {})
    return FormView(
        groups=groups,
        errors=errors,
        notes=tuple(item for items in found.values() for item in items if item.severity != "error"),
        rest=rest_of(filled.document),
        carried=carried(filled.document),
        shorthand=shorthand,
        understood=() if shorthand is None else _understood(shorthand),
        asked=str(ticket.get("asked", "")),
        left_out=left_out,
        key=key,
        seen=seen,
    )


def _understood(shorthand: Shorthand) -> tuple[tuple[str, str, str], ...]:
    """Return, for each stretch of words: the words, the fields they fill, what they mean."""
    spans: dict[tuple[int, int], list[Said]] = {}
    for item in shorthand.said:
        spans.setdefault((item.start, item.end), []).append(item)
    return tuple(
        (
            items[0].words,
            "; ".join(label_of(item.field) for item in items if item.field),
            "; ".join(dict.fromkeys(item.meaning for item in items)),
        )
        for items in spans.values()
    )


def _asks_for_a_base(found: Mapping[str, list[Finding]]) -> bool:
    """True where a target stands wrong that may be counted from a base: mostly it lacks one."""
    return any(found.get(field_name("target", key)) for key in SHOWN["base"])


def _needed(filled: Filled, found: Mapping[str, list[Finding]], more: str) -> Iterable[str]:
    """Return the parts that the form shows: those it always has, and those with a field that is filled in or found at."""
    named = {read_line_name(name).section for name, text in (*filled.values.items(), *found.items()) if name and text}
    usual = {name for name, keys in SHOWN.items() if keys}
    if filled.values.get("ticket.kind", "") not in ("", *WOODS):
        usual.discard("adapter")
    return (name for name in SHOWN if name in usual | named or name == more or filled.is_long(name))


def _group(
    name: str,
    filled: Filled,
    found: Mapping[str, list[Finding]],
    words: Mapping[str, str],
    more: str,
    opened: bool,  # noqa: FBT001 - called in one place, by `form_view`
) -> Group:
    title, meaning = TITLES[name]
    fields: tuple[FieldView, ...] = ()
    rows: tuple[tuple[FieldView, ...], ...] = ()
    if filled.is_long(name):
        every = []
    elif name in LISTS:
        count = min(max(filled.lines[name], 1) + int(more == name), LISTS[name])
        keys = _keys(name, [field_name(name, "", place) for place in range(count)], filled, found)
        rows = tuple(tuple(_fields(name, f"{name}.{place}", keys, filled, found, words)) for place in range(count))
        every = [field for row in rows for field in row]
    else:
        fields = tuple(_fields(name, name, _keys(name, [field_name(name, "")], filled, found), filled, found, words))
        every = list(fields)
    count = filled.lines[name] if name in LISTS else sum(1 for field in every if field.value)
    return Group(
        name=name,
        title=title,
        meaning=meaning,
        fields=fields,
        rows=rows,
        many=name in LISTS,
        full=name in LISTS and filled.lines[name] >= LISTS[name],
        long=filled.is_long(name),
        open=opened or bool(count) or any(field.findings for field in every),
        filled=count,
    )


def _keys(section: str, begins: Iterable[str], filled: Filled, found: Mapping[str, list[Finding]]) -> tuple[str, ...]:
    """Return which fields of a part are shown: the usual ones, and others that are filled in or that a finding is about."""
    wanted = [f"{begin}{key}" for begin in begins for key in KEYS[section] if key not in SHOWN[section]]
    named = {read_line_name(name).key for name in wanted if filled.values.get(name) or found.get(name)}
    return tuple(key for key in KEYS[section] if key in SHOWN[section] or key in named)


def _fields(
    section: str,
    path: str,
    keys: Iterable[str],
    filled: Filled,
    found: Mapping[str, list[Finding]],
    words: Mapping[str, str],
) -> Iterable[FieldView]:
    for key in keys:
        field = section_of(section).field(key)
        assert field is not None, (section, key)  # KEYS names fields of the ticket file
        name = f"{path}.{key}"
        yield FieldView(
            name=name,
            label=_label(field),
            meaning=field.meaning if field.meaning not in (_label(field), "half-width") else "",
            hint=_HINTS.get(f"{section}.{key}", how_typed(field.kind)),
            value=filled.values.get(name, ""),
            choices=field.choices,
            usual=_USUAL.get(name, ""),
            needed=field.needed and section == "ticket",
            words=words.get(name, ""),
            findings=tuple(found.get(name, ())),
        )


def _label(field: Field) -> str:
    return {"id": "ticket number", "label": "club"}.get(field.key, spoken("key", field.key))
