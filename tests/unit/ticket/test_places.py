"""A finding says its place as data: table, line, key; words are made of it last, and form fields found by it."""

from __future__ import annotations

import pytest

from clubwright.errors import DocumentPlace, Finding
from clubwright.ticket.field_names import FieldName, field_name, read_field_name, read_line_name
from clubwright.ticket.read import read_ticket
from clubwright.web.ticket_form import field_of


@pytest.mark.parametrize(
    ("place", "words"),
    [
        (DocumentPlace("head"), "[head]"),
        (DocumentPlace("head", ("mass",), source="t.toml"), "t.toml [head] mass"),
        (DocumentPlace("weight", many=True, source="t.toml").at("fitted"), "t.toml [[weight]] fitted"),
        (DocumentPlace("weight", many=True).one(0).at("mass"), "[[weight]] 1 mass"),
        (DocumentPlace("change", many=True).one(1).at("tape").at(0).at("mass"), "[[change]] 2 tape 1 mass"),
        (DocumentPlace("adhesive").at("name").within("T-1"), "T-1 [adhesive] name"),
        (DocumentPlace("instrument.gram scale").at("bias"), "[instrument.gram scale] bias"),
    ],
)
def test_the_words_of_a_place_are_as_the_file_has_it(place: DocumentPlace, words: str) -> None:
    assert str(place) == words
    assert Finding(where=place, what="off", mend="Mend it.").sentence() == f"{words}: off. Mend it."


def test_only_a_figure_of_the_table_itself_is_its_key() -> None:
    head = DocumentPlace("head")
    assert [head.key, head.at("mass").key, head.at("gauges", "mass").key] == ["", "mass", ""]
    assert DocumentPlace("tape", (0,), many=True).key == ""


@pytest.mark.parametrize(
    ("where", "field"),
    [
        (DocumentPlace("head", ("mass",), source="any name [at all] 2 mass"), "head.mass"),
        (DocumentPlace("weight", ("mass",), row=1, many=True), "weight.1.mass"),
        (DocumentPlace("adhesive.release", ("time",), row=2, many=True), "adhesive.release.2.time"),
        (DocumentPlace("head", ("gauges", "mass")), ""),
        (DocumentPlace("head", ("own_inertia",)), "head.own_inertia"),
        (DocumentPlace("head", ("no such",)), ""),
        (DocumentPlace("instrument.scale", ("bias",)), ""),
        ("merge [head] mass", ""),
    ],
)
def test_a_finding_stands_beside_the_field_of_its_place(where: DocumentPlace | str, field: str) -> None:
    assert field_of(Finding(where=where, what="off", mend="Mend it.")) == field


def test_what_a_ticket_is_named_moves_no_finding_to_another_field() -> None:
    """The words of the place could be read two ways here, its data cannot."""
    _, findings = read_ticket(
        {"ticket": {"id": "T-1", "kind": "iron", "hand": "right"}, "head": {"mass": "x"}}, "[grip] mass"
    )
    (wrong,) = (finding for finding in findings if finding.severity == "error")
    assert (str(wrong.where), field_of(wrong)) == ("[grip] mass [head] mass", "head.mass")


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("grip.mass", FieldName("grip", "mass")),
        ("old_grip.mass_with_tape", FieldName("old_grip", "mass_with_tape")),
        ("tape.0.layers", FieldName("tape", "layers", 0)),
        ("adhesive.release.11.time", FieldName("adhesive.release", "time", 11)),
        ("swing_weight", FieldName("", "swing_weight")),
    ],
)
def test_the_name_of_a_field_is_read_as_it_is_written(text: str, name: FieldName) -> None:
    assert read_line_name(text) == name
    assert not name.section or str(name) == field_name(*name) == text


def test_where_there_is_one_table_no_line_is_read() -> None:
    assert read_field_name("grip.0.mass") == FieldName("grip.0", "mass")
    assert read_line_name("tape.²3.mass") == FieldName("tape.²3", "mass")
    assert read_line_name(f"tape.{'9' * 10}.mass").row is None
