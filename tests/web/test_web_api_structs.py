"""The JSON interface takes and gives structs: its document, its answers and what it refuses are made of the same ones."""

from __future__ import annotations

from typing import Annotated, Any

import msgspec
import pytest

from benchwork import JOB, document
from clubwright.errors import InputError
from clubwright.services.record.session import Session
from clubwright.services.told.answer import Answer
from clubwright.services.told.club import ClubJobsAnswer
from clubwright.services.told.schema import schema_of
from clubwright.services.told.times import JobTimesAnswer, OpenTimesAnswer
from clubwright.services.told.words import NewTicketAnswer
from clubwright.web.api.models import JobOut, JobsOut, PlanOut, Refused
from clubwright.web.api.structs import COMPONENTS, Taken, body_in
from webclient import TestClient

OURS = {"X-Clubwright": "1"}


@pytest.fixture
def described(web_client: TestClient) -> dict[str, Any]:
    found: dict[str, Any] = web_client.get("/openapi.json").json()
    return found


def test_the_document_describes_the_answer_as_its_own_schema_does(described: dict[str, Any]) -> None:
    schemas = described["components"]["schemas"]
    schema = schema_of("answer")
    assert set(schemas["Answer"]["properties"]) == set(schema["properties"])
    for name, part in schema["$defs"].items():
        assert set(schemas[name]["properties"]) == set(part["properties"])
    assert schemas["CutAnswer"] == schema["$defs"]["CutAnswer"] | {"properties": schemas["CutAnswer"]["properties"]}
    assert described["paths"]["/api/work"]["post"]["responses"]["200"]["content"]["application/json"]["schema"] == {
        "$ref": "#/components/schemas/Answer"
    }


def test_every_answer_of_the_document_is_made_of_structs(described: dict[str, Any]) -> None:
    for path, operations in described["paths"].items():
        for operation in operations.values():
            for status, answer in operation["responses"].items():
                schema = answer["content"]["application/json"]["schema"]
                name = schema.get("items", schema)["$ref"].removeprefix("#/components/schemas/")
                assert name in COMPONENTS, f"{path} {status}"


def test_every_body_of_the_document_is_made_of_a_struct(described: dict[str, Any]) -> None:
    bodies = [
        operation["requestBody"]["content"]["application/json"]["schema"]["$ref"].removeprefix("#/components/schemas/")
        for operations in described["paths"].values()
        for operation in operations.values()
        if "requestBody" in operation
    ]
    assert len(bodies) > 20
    assert set(bodies) <= set(COMPONENTS)
    assert all(COMPONENTS[name]["additionalProperties"] is False for name in bodies)
    assert set(described["components"]["schemas"]) - set(COMPONENTS) == set(), "no model beside the structs"


def test_an_action_gets_every_finding_about_its_body_and_keeps_nothing(
    web_client: TestClient, web_session: Session
) -> None:
    before = web_session.ledger.count()
    sent = {"value": 3, "stage": "", "weights": ["port 6", 7], "colour": "red"}
    headers = {**OURS, "Idempotency-Key": "bad-1"}
    found = web_client.post(f"/api/jobs/{JOB}/readings", json=sent, headers=headers)
    assert found.status_code == 422
    assert [(item["where"], item["what"]) for item in found.json()["findings"]] == [
        ("body colour", "there is no such key"),
        ("body quantity", "it is missing"),
        ("body stage", "Expected `str` of length >= 1"),
        ("body value", "Expected `str`, got `int`"),
        ("body weights", "Expected `str`, got `int` - at `$[1]`"),
    ]
    assert web_session.ledger.count() == before


def test_a_body_of_which_nothing_is_needed_may_be_left_out(web_client: TestClient) -> None:
    headers = {**OURS, "Idempotency-Key": "bare-1"}
    without = web_client.post(f"/api/jobs/{JOB}/grip", headers=headers)
    with_none = web_client.post(f"/api/jobs/{JOB}/grip", json={}, headers=headers)
    assert (without.status_code, without.text) == (with_none.status_code, with_none.text)
    assert without.status_code == 409, "its gate is closed: the body was not what it was refused for"


@pytest.mark.parametrize(
    ("path", "kind"),
    [
        ("/api/jobs", JobsOut),
        (f"/api/jobs/{JOB}", JobOut),
        (f"/api/jobs/{JOB}/plan", PlanOut),
        (f"/api/jobs/{JOB}/club", ClubJobsAnswer),
        (f"/api/jobs/{JOB}/minutes", JobTimesAnswer),
        ("/api/minutes", OpenTimesAnswer),
        ("/api/jobs/T-none", Refused),
    ],
)
def test_what_is_given_is_read_back_as_its_struct(web_client: TestClient, path: str, kind: type) -> None:
    given = web_client.get(path).json()
    assert msgspec.json.decode(msgspec.json.encode(msgspec.convert(given, kind))) == given


def test_what_is_worked_and_what_is_made_of_words_is_read_back_as_its_struct(web_client: TestClient) -> None:
    worked = web_client.post("/api/work", json={"document": document()}, headers=OURS)
    assert msgspec.convert(worked.json(), Answer).json() == worked.text
    new = web_client.post("/api/new", json={"words": "54 mid bounce, D4"}, headers=OURS)
    assert msgspec.convert(new.json(), NewTicketAnswer).json() == new.text


def test_a_body_gets_every_finding_at_once(web_client: TestClient) -> None:
    sent = {"player": 7, "also": ["", "x"], "asked": "nobody"}
    found = web_client.post("/api/forget/look", json=sent, headers=OURS)
    assert found.status_code == 422
    assert [(item["where"], item["what"]) for item in found.json()["findings"]] == [
        ("body also", "Expected `str` of length >= 1 - at `$[0]`"),
        ("body asked", "there is no such key"),
        ("body player", "Expected `str`, got `int`"),
    ]
    assert found.json()["findings"][2]["mend"] == "Name, as a ticket says it."


@pytest.mark.parametrize("body", [b"", b"[]", b'"text"', b"7", b"{"])
def test_what_is_no_object_is_refused(body: bytes) -> None:
    with pytest.raises(InputError) as refused:
        body_in(body, Body)
    assert [item.where for item in refused.value.findings] == ["body"]


class Body(Taken, frozen=True, kw_only=True):
    """One of everything."""

    number: Annotated[int, msgspec.Meta(ge=1)]
    keep: bool
    texts: tuple[str, ...] = ()


def test_values_of_another_kind_are_refused_and_never_turned_into_one() -> None:
    assert body_in(b'{"number": 1, "keep": true}', Body) == Body(number=1, keep=True)
    with pytest.raises(InputError) as refused:
        body_in(b'{"number": "1", "keep": 1, "texts": "abc"}', Body)
    assert [item.where for item in refused.value.findings] == ["body keep", "body number", "body texts"]
    with pytest.raises(InputError) as missing:
        body_in(b'{"number": 0}', Body)
    assert [(item.where, item.what) for item in missing.value.findings] == [
        ("body keep", "it is missing"),
        ("body number", "Expected `int` >= 1"),
    ]
