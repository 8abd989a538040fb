"""The answer keeps to its schema, and its schema to what was promised under its number.

`docs/schema/answer-1.json` is what was promised. This file, run as a program, writes it anew after something was added, and
refuses what a program could stumble over: that needs the next number.
"""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import jsonschema
import msgspec
import pytest

from clubwright import work
from clubwright.services.answer.answer import empty_answer, rounded
from clubwright.services.told.answer import SCHEMA, Answer
from clubwright.services.told.schema import ANSWERS, broken_promises, number_of, schema_of

Validator = jsonschema.Draft202012Validator
ROOT = Path(__file__).parents[4]
PROMISED = ROOT / "docs" / "schema" / f"answer-{SCHEMA}.json"
EXAMPLES = sorted(path for path in (ROOT / "examples").glob("*.toml") if path.name != "shop.toml")
WEDGE = ROOT / "examples" / "wedge-54.toml"
ANEW = "where it only adds, write it anew: python tests/unit/services/told/test_answer_schema.py; else, the next number"


def promised() -> dict[str, Any]:
    found: dict[str, Any] = json.loads(PROMISED.read_text(encoding="utf-8"))
    return found


def test_the_schema_is_the_one_that_was_promised_under_its_number() -> None:
    Validator.check_schema(schema_of("answer"))
    assert schema_of("answer") == promised(), ANEW


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_keeps_to_it_and_says_its_number(path: Path) -> None:
    found = work(path).plain()
    assert found["schema"] == SCHEMA
    Validator(promised()).validate(found)
    again = msgspec.convert(found, Answer)
    assert again.plain() == found, "no key but those of the structs"


def test_an_answer_is_read_by_attribute_and_by_key() -> None:
    answer = work(WEDGE)
    assert answer.cut is not None
    assert answer["cut"]["shaft_length_m"] == answer.cut.shaft_length_m
    assert answer["finished"]["length"]["mean"] == answer.finished["length"].mean
    assert set(dict(answer)) == set(answer.plain()) == set(json.loads(answer.json()))
    assert "cut" in answer and "cost" not in answer
    with pytest.raises(KeyError, match="cost"):
        answer["cost"]
    assert json.loads(answer.json()) == answer.plain()
    assert answer.json().startswith('{"advice":'), "keys sorted"


def test_what_is_no_finite_number_is_never_told() -> None:
    with pytest.raises(ValueError, match="nan is no figure"):
        rounded(float("nan"))


def test_the_answer_to_a_refused_ticket_keeps_to_it_and_holds_findings_alone() -> None:
    answer = work({})
    Validator(promised()).validate(answer.plain())
    assert len(answer.findings) == 3
    assert msgspec.structs.replace(answer, findings=()) == empty_answer(())


@pytest.mark.parametrize(
    "changed",
    [
        {"verdicts": {"swing_weight": {"verdict": "maybe", "rule": "", "settle": ""}}},
        {"cut": {}},
        {"findings": None},
        {"schema": SCHEMA + 1},
    ],
)
def test_the_schema_refuses_what_is_no_answer(changed: dict[str, Any]) -> None:
    empty = empty_answer(()).plain()
    Validator(promised()).validate(empty)
    assert not Validator(promised()).is_valid({**empty, **changed})


Change = Callable[[dict[str, Any]], None]


def parts(schema: dict[str, Any], name: str) -> dict[str, Any]:
    found: dict[str, Any] = schema["$defs"][name]
    return found


def key_gone(schema: dict[str, Any]) -> None:
    del parts(schema, "CutAnswer")["properties"]["kerf_m"]
    parts(schema, "CutAnswer")["required"].remove("kerf_m")


def key_at_will(schema: dict[str, Any]) -> None:
    parts(schema, "GateAnswer")["required"].remove("why")


def other_type(schema: dict[str, Any]) -> None:
    parts(schema, "UnitEstimate")["properties"]["mean"]["type"] = "string"


def may_be_null(schema: dict[str, Any]) -> None:
    found = parts(schema, "UnitEstimate")["properties"]["sd"]
    found["anyOf"] = [{"type": found.pop("type")}, {"type": "null"}]


def one_more_severity(schema: dict[str, Any]) -> None:
    parts(schema, "FindingAnswer")["properties"]["severity"]["enum"].append("fatal")


def other_parts(schema: dict[str, Any]) -> None:
    schema["properties"]["gates"]["items"]["$ref"] = "#/$defs/FindingAnswer"


def closed(schema: dict[str, Any]) -> None:
    schema["additionalProperties"] = False


def no_cut(schema: dict[str, Any]) -> None:
    schema["properties"]["cut"]["anyOf"] = [{"type": "null"}]


def number_changed(schema: dict[str, Any]) -> None:
    schema["properties"]["schema"]["enum"] = [SCHEMA + 1]


BREAKS: dict[Change, str] = {
    key_gone: "answer.cut.kerf_m",
    key_at_will: "answer.gates.why",
    other_type: "answer.stages.mean: type",
    may_be_null: "answer.stages.sd: anyOf",
    one_more_severity: "answer.findings.severity: enum",
    other_parts: "answer.gates.step",
    closed: "answer: additionalProperties",
    no_cut: "answer.cut",
    number_changed: "answer.schema: enum",
}


@pytest.mark.parametrize("change", BREAKS, ids=lambda change: change.__name__)
def test_what_a_program_could_stumble_over_needs_the_next_number(change: Change) -> None:
    now = copy.deepcopy(promised())
    change(now)
    assert BREAKS[change] in broken_promises(promised(), now)


def test_what_is_added_needs_no_new_number() -> None:
    now = copy.deepcopy(promised())
    parts(now, "CutAnswer")["properties"]["cost"] = {"type": "number"}
    parts(now, "CutAnswer")["required"].append("cost")
    now["properties"]["notes"] = {"type": "array", "items": {"$ref": "#/$defs/Note"}}
    now["$defs"]["Note"] = {"type": "object", "properties": {}}
    parts(now, "FindingAnswer")["description"] = "Said better."
    now["properties"]["finished"]["propertyNames"]["examples"].append("flight time")
    assert broken_promises(promised(), now) == ()
    longer = {**work(WEDGE).plain(), "notes": []}
    Validator(promised()).validate(longer)


@pytest.mark.parametrize("name", ANSWERS)
def test_every_answer_that_says_a_number_keeps_to_what_was_promised_under_it(name: str) -> None:
    Validator.check_schema(schema_of(name))
    assert schema_of(name) == json.loads(promised_at(name).read_text(encoding="utf-8")), ANEW
    assert "schema" in schema_of(name)["required"]


def test_every_promise_is_of_an_answer() -> None:
    assert {path.name for path in PROMISED.parent.iterdir()} == {promised_at(name).name for name in ANSWERS}


def promised_at(name: str) -> Path:
    return PROMISED.parent / f"{name}-{number_of(name)}.json"


def write_anew() -> None:
    for name in ANSWERS:
        path, now = promised_at(name), schema_of(name)
        broken = broken_promises(json.loads(path.read_text(encoding="utf-8")), now) if path.exists() else ()
        if broken:
            raise SystemExit("These need the next number of the schema: " + ", ".join(broken))
        path.write_text(json.dumps(now, indent=2, ensure_ascii=False) + "\n", encoding="utf-8")


if __name__ == "__main__":
    write_anew()
