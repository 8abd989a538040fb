"""The JSON Schemas describe what the program reads and answers: the same lists, valid by their own draft."""

from __future__ import annotations

import re
from typing import Any

import jsonschema
import pytest

from clubwright.club.quantities import QUANTITIES, TARGETS
from clubwright.notation import KINDS, parse, parse_difference
from clubwright.ticket.fields.fields import INSTRUMENT, KEY_PATTERN, SECTIONS, TARGET, TOLERANCE
from clubwright.ticket.fields.schema import ticket_schema
from clubwright.ticket.fields.stiffness import FORMS
from clubwright.ticket.read import read_ticket

Validator = jsonschema.Draft202012Validator


def test_the_schema_is_a_schema() -> None:
    schema = ticket_schema()
    Validator.check_schema(schema)
    assert schema["additionalProperties"] is False
    assert schema["type"] == "object"


def test_every_section_and_key_is_in_the_schema_with_its_meaning_and_example() -> None:
    tables = ticket_schema()["properties"]
    for section in SECTIONS:
        outer, _, inner = section.name.partition(".")
        table = tables[outer]["properties"][inner] if inner else tables[outer]
        table = table["items"] if section.many else table["additionalProperties"] if section.named else table
        keys = {field.key for field in section.fields}
        assert keys <= set(table["properties"])
        assert set(table.get("required", ())) == {field.key for field in section.fields if field.needed}
        for field in section.fields:
            assert table["properties"][field.key]["description"] == field.meaning


def test_every_field_has_a_notation_and_an_example_that_is_understood() -> None:
    for section in (*SECTIONS, *FORMS.values()):
        for field in section.fields:
            assert field.meaning
            if field.kind == "choice":
                assert field.example in field.choices
            elif field.kind == "key":
                assert re.fullmatch(KEY_PATTERN, field.example)
            elif field.kind not in ("text", "table", "gauges"):
                assert field.kind in KINDS
                read = parse_difference if section in (TOLERANCE, INSTRUMENT) else parse
                read(field.kind, field.example)


def test_targets_and_tolerances_are_those_of_the_register() -> None:
    assert tuple(field.key for field in TARGET.fields if field.key != "length_method") == tuple(TARGETS)
    assert tuple(field.key for field in TOLERANCE.fields) == tuple(TARGETS)
    for field in TARGET.fields:
        if field.key in QUANTITIES:
            assert field.kind == QUANTITIES[field.key].kind
    for field in TOLERANCE.fields:
        assert field.kind == QUANTITIES[field.key].tolerance_kind


BAD_DOCUMENTS = [
    {},
    {"ticket": {"id": "T-1", "kind": "wedge"}},
    {"ticket": {"id": "T-1", "kind": "spoon", "hand": "right"}},
    {"ticket": {"id": 1, "kind": "wedge", "hand": "right"}},
    {"ticket": {"id": "T-1", "kind": "wedge", "hand": "right"}, "heads": {}},
    {"ticket": {"id": "T-1", "kind": "wedge", "hand": "right"}, "head": {"weight": "300 g"}},
    {"ticket": {"id": "T-1", "kind": "wedge", "hand": "right"}, "weight": {"name": "port 2"}},
    {"ticket": {"id": "T-1", "kind": "wedge", "hand": "right"}, "weight": [{"name": "port 2", "seat": "port"}]},
    {
        "ticket": {"id": "T-1", "kind": "wedge", "hand": "right"},
        "reading": [{"quantity": "swing_weight", "value": "D4", "stage": "raw"}],
    },
    {
        "ticket": {"id": "T-1", "kind": "wedge", "hand": "right"},
        "reading": [{"quantity": "swing_weight", "value": "D4", "weights": "port 2"}],
    },
]


@pytest.mark.parametrize("document", BAD_DOCUMENTS)
def test_what_the_schema_refuses_the_reader_refuses_too(document: dict[str, Any]) -> None:
    assert not Validator(ticket_schema()).is_valid(document)
    assert read_ticket(document)[0] is None
