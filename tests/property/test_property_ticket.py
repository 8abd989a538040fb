"""Whatever a document holds, the ticket reader and the answer give findings; neither raises anything else."""

from __future__ import annotations

import copy
import math
from pathlib import Path
from typing import Any

import jsonschema
from hypothesis import given, settings
from hypothesis import strategies as st

from clubwright.services.answer.club_answer import answer_document
from clubwright.services.told.schema import schema_of
from clubwright.ticket.fields.fields import SECTIONS
from clubwright.ticket.read import read_ticket
from shopwork import completed_example

EXAMPLES = [
    completed_example(path)
    for path in sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
    if path.name != "shop.toml"
]
VALIDATOR = jsonschema.Draft202012Validator(schema_of("answer"))
OF_KIND: dict[str, list[str]] = {
    "length": [
        "35 1/4 in",
        "0 in",
        "-1 in",
        "1 mm",
        "2.4 m",
        "37 in",
        "36 in ± 30 in",
        "10 mm ± 2 m",
        "1/16 in",
        "6 in",
        "1 m",
    ],
    "mass": ["300 g", "0 g", "1e-9 g", "4 kg", "50 g", "300 g ± 400 g", "50 g ± 1e-6 g", "2 g", "120 g", "1 kg"],
    "angle": ["0 deg", "89 deg", "-90 deg", "54 deg", "64 deg ± 40 deg", "10 deg"],
    "swing_weight": ["D4", "A0 - 90", "G10", "D4 ± 40", "D0 ± 0.001"],
    "points": ["1/4 pt", "0 pt", "100 pt", "0.001 pt"],
    "diameter": ["0.600 in", "0 in", "90 mm", "0.900 in ± 1 in"],
    "grip_core": ["60", "M58R", "0.42 in"],
    "linear_density": ["3.6 g/in", "0 g/in", "50 g/in"],
    "moi": ["2700 kg cm2", "0 kg cm2", "2 kg cm2", "19 kg m2"],
    "frequency": ["320 cpm", "1000 cpm"],
    "count": ["0", "1", "2", "3", "99999"],
    "number": ["0", "1", "-3", "0.4 ± 9", "1e9"],
    "text": [
        "dry, gripped",
        "finished",
        "bare shaft",
        "swing_weight",
        "moi",
        "grip.mass",
        "grip.core",
        "shaft.tip_trim",
    ],
}
OF_KIND["loft"] = OF_KIND["lie"] = OF_KIND["angle"]
OF_KIND["text"] += [
    "grip_diameter_6in",
    "pendulum_period",
    "frequency",
    "head.own_inertia",
    "shaft.butt_density",
    "D4",
    "²",
]
OF_KIND["text"] += ["0.1 pt", "1 g", "0 pt", "300 g", "35 in", "0.7 s", "40 deg", "0.9 in", "200", "3 kg cm2"]
FIELDS = {(section.name, field.key): field for section in SECTIONS for field in section.fields}
WORDS = st.sampled_from(
    [
        "",
        " ",
        "35,5",
        "NaN",
        "inf",
        "3 ± 4",
        "1 g ± 0",
        "2:1",
        "25 C",
        "12 h",
        "yes",
        "no",
        "left",
        "volume",
        "60 degree plane",
    ]
    + [text for texts in OF_KIND.values() for text in texts]
    + [field.example for field in FIELDS.values()]
)
TEXT = WORDS | st.text(max_size=12)
LEAF = TEXT | st.none() | st.booleans() | st.integers() | st.floats() | st.lists(TEXT, max_size=3)
KEYS = st.sampled_from(sorted({field.key for section in SECTIONS for field in section.fields})) | st.text(max_size=6)
TABLE = st.dictionaries(KEYS, LEAF | st.dictionaries(KEYS, LEAF, max_size=3), max_size=6)
NAMES = st.sampled_from(sorted({section.name.partition(".")[0] for section in SECTIONS})) | st.text(max_size=6)
ANYTHING = st.dictionaries(NAMES, TABLE | LEAF | st.lists(TABLE, max_size=3), max_size=8)


@settings(max_examples=300, deadline=None)
@given(ANYTHING)
def test_any_tables_at_all_give_findings_and_nothing_else(document: dict[str, Any]) -> None:
    ticket, findings = read_ticket(document)
    assert (ticket is None) == any(finding.severity == "error" for finding in findings)
    for finding in findings:
        assert finding.where
        assert finding.what
        assert finding.mend
    VALIDATOR.validate(answer_document(document).plain())


def _places(document: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    if isinstance(document, str):
        return [path]
    items = document.items() if isinstance(document, dict) else enumerate(document)
    return [place for key, item in items for place in _places(item, (*path, key))]


def _fitting(path: tuple[Any, ...]) -> st.SearchStrategy[str | None]:
    """What may be written there: mostly a value of the right kind, sometimes extreme."""
    names = [part for part in path if isinstance(part, str)]
    field = FIELDS.get((".".join(names[:-1]), names[-1])) or FIELDS.get((names[0], names[-1]))
    if field is None:
        return st.none() | TEXT
    known = list(field.choices) or OF_KIND.get(field.kind, [field.example])
    return st.sampled_from(known) | st.sampled_from(known) | st.sampled_from(known) | st.none() | TEXT


def _set(document: Any, path: tuple[Any, ...], value: Any) -> None:
    for key in path[:-1]:
        document = document[key]
    if value is None:
        document.pop(path[-1])
    else:
        document[path[-1]] = value


@settings(max_examples=250, deadline=None)
@given(st.data())
def test_a_ticket_with_some_of_its_values_changed_is_answered_or_refused_with_findings(data: st.DataObject) -> None:
    document = copy.deepcopy(data.draw(st.sampled_from(EXAMPLES)))
    for _ in range(data.draw(st.integers(1, 4))):
        path = data.draw(st.sampled_from(_places(document)))
        _set(document, path, data.draw(_fitting(path)))
    answer = answer_document(document)
    VALIDATOR.validate(answer.plain())
    assert answer.json() == answer_document(document).json()
    if any(item["severity"] == "error" for item in answer["findings"]):
        assert answer["finished"] == {}
        return
    for figure in answer["finished"].values():
        assert math.isfinite(figure["mean"])
        assert figure["sd"] >= 0
    for advice in answer["advice"]:
        assert 0 <= advice["chance"] <= 1
