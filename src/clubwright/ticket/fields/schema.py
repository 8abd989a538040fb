"""The JSON Schema of ticket file and shop's settings, made from the same lists the program reads by."""

from __future__ import annotations

from typing import Any

from clubwright.club.stages import STAGES
from clubwright.ticket.fields.fields import CHANGE, CHANGED, KEY_PATTERN, RELEASE, SECTIONS, Field, Section
from clubwright.ticket.fields.shop import FROM_SHOP, SHOP_SECTIONS
from clubwright.ticket.fields.stiffness import FORMS, LISTED

DRAFT = "https://json-schema.org/draft/2020-12/schema"

Schema = dict[str, Any]


def ticket_schema() -> Schema:
    """Return the schema of a ticket document (TOML tables as JSON objects, every value a string)."""
    tables: Schema = {}
    for section in SECTIONS:
        if section.inner:
            tables[section.outer]["properties"][section.inner] = _list(section)
        elif section.named:
            tables[section.name] = {
                "additionalProperties": _table(section),
                "description": section.meaning,
                "type": "object",
            }
        else:
            tables[section.name] = _list(section) if section.many else _table(section)
    written = "what of it was taken from the shop's settings when it was taken into the record; the program writes it"
    tables[FROM_SHOP] = {"description": written, "type": "object"}
    return {
        "$schema": DRAFT,
        "additionalProperties": False,
        "description": "One club: what is wanted, the parts in hand, what was read. Values are in trade notation.",
        "properties": tables,
        "required": ["ticket"],
        "title": "clubwright ticket",
        "type": "object",
    }


def shop_schema() -> Schema:
    """Return the schema of a shop's settings (TOML tables as JSON objects, every value a string)."""
    tables: Schema = {}
    for section in SHOP_SECTIONS:
        if section.inner:
            tables[section.outer]["additionalProperties"]["properties"][section.inner] = _list(section)
        elif section.named:
            named = {"additionalProperties": _table(section), "propertyNames": {"minLength": 1}, "type": "object"}
            tables[section.name] = named | {"description": section.meaning}
        else:
            tables[section.name] = _table(section)
    return {
        "$schema": DRAFT,
        "additionalProperties": False,
        "description": "What a workshop says once for all its tickets. Values are in trade notation.",
        "properties": tables,
        "title": "clubwright shop",
        "type": "object",
    }


def _list(section: Section) -> Schema:
    return {"description": section.meaning, "items": _table(section), "type": "array"}


def _table(section: Section) -> Schema:
    table: Schema = {
        "additionalProperties": False,
        "description": section.meaning,
        "properties": {field.key: _value(field) for field in section.fields},
        "type": "object",
    }
    needed = [field.key for field in section.fields if field.needed]
    if needed:
        table["required"] = needed
    if section.name in ("adhesive", "change.adhesive"):
        pair = {"items": {"type": "string"}, "maxItems": 2, "minItems": 2, "type": "array"}
        text = "density_a and density_b together"
        table["properties"]["densities"] = {"anyOf": [{"type": "string"}, pair], "description": text}
        rows = {"items": {"anyOf": [pair, _table(RELEASE)]}, "type": "array"}
        table["properties"]["release_times"] = {**rows, "description": "rows of release, as pairs"}
    if section is CHANGE:
        parts = {part: _list(item) if item.many else _table(item) for part, item in CHANGED.items()}
        table["properties"] = {**table["properties"], **parts}
    if section.name in ("shaft", "change.shaft"):
        table["properties"]["stiffness"] = _stiffness(table["properties"]["stiffness"])
    if section.name == "reading":
        names = {"items": {"type": "string"}, "type": "array"}
        table["properties"]["weights"] = {**names, "description": section.fields[3].meaning}
        table["properties"]["stage"]["enum"] = list(STAGES)
    return table


def _stiffness(value: Schema) -> Schema:
    """Any of the forms; words are taken too, with a warning."""
    forms = [_table(form) for form in FORMS.values()]
    for form in forms:
        name = form["properties"]["kind"]["enum"][0]
        for key, entry in form["properties"].items():
            if (name, key) in LISTED:
                entry |= {"examples": [entry["examples"]], "items": {"type": "string"}, "type": "array"}
    return {"anyOf": [*forms, {"type": "string"}], "description": value["description"]}


def _value(field: Field) -> Schema:
    if field.kind == "gauges":
        return {"additionalProperties": {"type": "string"}, "description": field.meaning, "type": "object"}
    value: Schema = {"description": field.meaning, "examples": [field.example], "type": "string"}
    if field.kind == "count":
        value["type"] = ["string", "integer"]
    if field.choices:
        value["enum"] = list(field.choices)
    elif field.kind == "key":
        value["pattern"] = f"^{KEY_PATTERN}$"
    elif field.kind not in ("text", "table"):
        value["x-notation"] = field.kind
    if field.sd is not None:
        value["x-usual-uncertainty"] = field.sd
    if field.sd_share is not None:
        value["x-usual-uncertainty"] = f"{field.sd_share:.0%} of the value"
    return value
