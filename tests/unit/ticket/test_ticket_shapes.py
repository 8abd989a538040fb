"""A ticket may say the same in another shape; what it means does not change."""

from __future__ import annotations

from typing import Any

import jsonschema
import pytest

from clubwright.state.particulars import whole_number
from clubwright.ticket.fields.schema import ticket_schema
from clubwright.ticket.read import read_ticket

PLAIN: dict[str, Any] = {
    "ticket": {"id": "T-0001", "kind": "wedge", "hand": "right"},
    "adhesive": {
        "ratio": "2:1",
        "basis": "volume",
        "density_a": "1.16 g/cm3",
        "density_b": "0.97 g/cm3",
        "joints": "2",
        "release": [{"temperature": "20 C", "time": "15 h"}, {"temperature": "25 C", "time": "12 h"}],
    },
    "tape": [{"name": "masking", "layers": "2", "mass": "2.8 g"}],
}


def other(**changes: Any) -> dict[str, Any]:
    adhesive = {**PLAIN["adhesive"], **changes}
    return {**PLAIN, "adhesive": {key: value for key, value in adhesive.items() if value is not None}}


def values(document: dict[str, Any]) -> tuple[object, ...]:
    ticket, findings = read_ticket(document)
    assert ticket is not None, findings
    adhesive = ticket.row("adhesive")
    rows = [(row.value("temperature"), row.value("time")) for row in ticket.club.release]
    return adhesive.value("density_a"), adhesive.value("density_b"), whole_number(adhesive.joints, 1), tuple(rows)


@pytest.mark.parametrize(
    "document",
    [
        other(density_a=None, density_b=None, densities=["1.16 g/cm3", "0.97 g/cm3"]),
        other(density_a=None, density_b=None, densities="1.16 g/cm3, 0.97 g/cm3"),
        other(density_a=None, density_b=None, densities="1.16 g/cm3 / 0.97 g/cm3"),
        other(release=None, release_times=[["20 C", "15 h"], ["25 C", "12 h"]]),
        other(joints=2),
    ],
)
def test_another_shape_means_the_same(document: dict[str, Any]):
    assert values(document) == values(PLAIN)
    jsonschema.validate(document, ticket_schema())


def test_a_whole_number_counts_only_where_things_are_counted():
    assert read_ticket({**PLAIN, "tape": [{"name": "masking", "layers": 2, "mass": "2.8 g"}]})[0] is not None
    ticket, findings = read_ticket({**PLAIN, "head": {"mass": 300}})
    assert ticket is None
    assert "not in quotes" in findings[0].what


def test_three_densities_are_refused():
    ticket, findings = read_ticket(other(densities=["1 g/cm3", "1 g/cm3", "1 g/cm3"]))
    assert ticket is None
    assert any("densities" in str(finding.where) for finding in findings)


@pytest.mark.parametrize("number", ["T/7", "a/b/c", "/"])
def test_a_number_that_no_address_can_carry_is_refused(number: str):
    ticket, findings = read_ticket({"ticket": {"id": number, "kind": "wedge", "hand": "right"}})
    assert ticket is None
    assert "stroke" in findings[0].what


def test_the_tables_of_a_change_are_taken_in_the_same_shapes_as_those_of_the_ticket() -> None:
    tape = [{"name": "masking", "layers": 2, "mass": "2.8 g"}]
    adhesive = {"name": "two-part", "in_joint": "0.8 g", "densities": ["1.16 g/cm3", "0.97 g/cm3"]}
    taken, findings = read_ticket({**PLAIN, "change": [{"name": "1", "tape": tape, "adhesive": adhesive}]})
    assert taken is not None, findings
    (change,) = taken.changes
    assert change.tapes is not None
    assert whole_number(change.tapes[0].layers, 1) == 2
    assert change.rows["adhesive"].value("density_b") == pytest.approx(970.0)
