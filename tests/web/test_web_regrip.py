"""A re-grip on the page and by a program: read as it came, strip, put on, read again; and the same refusal everywhere."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any

import pytest

from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from webclient import TestClient, post

JOB = "X-1206"
BENCH = f"/bench/{JOB}"
EXAMPLE = Path(__file__).parents[2] / "examples" / "regrip.toml"
OURS = {"X-Clubwright": "1", "Idempotency-Key": "regrip-1"}


def document(job: str = "regrip") -> dict[str, Any]:
    found = tomllib.loads(EXAMPLE.read_text(encoding="utf-8"))
    found["ticket"]["job"] = job
    return {name: content for name, content in found.items() if not name.startswith("old_") and name != "reading"}


@pytest.fixture
def taken(web_session: Session) -> Session:
    bench.take_ticket(web_session, document(), "regrip.toml")
    return web_session


def stage_of(client: TestClient, step: str) -> tuple[str, list[str]]:
    """Return the stage that a card has chosen, and all that it offers."""
    text = client.get(BENCH, params={"step": step}).text
    stages = re.findall(r'name="stage" value="([^"]+)"( checked)?>', text)
    assert stages, f"the card of {step} asks for no stage"
    (chosen,) = (name for name, checked in stages if checked)
    return chosen, [name for name, _ in stages]


def keep(client: TestClient, quantity: str, value: str, **more: str) -> int:
    fields = {
        "action": "read",
        "quantity": quantity,
        "value": value,
        "confirmed": value,
        "key": f"k-{quantity}",
        **more,
    }
    return post(client, BENCH, BENCH, **fields).status_code


def test_the_card_has_chosen_the_stage_of_the_old_parts(web_client: TestClient, taken: Session) -> None:
    offered = ["as it came", "glued, no grip", "finished"]
    assert stage_of(web_client, "weigh") == ("as it came", offered)
    assert stage_of(web_client, "inspect") == ("as it came", offered)
    bench.do_step(taken, JOB, "strip grip")
    assert stage_of(web_client, "inspect") == ("finished", offered)


def test_a_reading_as_it_came_is_kept_with_its_stage(web_client: TestClient, taken: Session) -> None:
    card = web_client.get(BENCH, params={"step": "weigh"}).text
    assert "expect 43" in card, "what the club should weigh stands beside the reading"
    assert keep(web_client, "total_weight", "432.0 g", stage="as it came", step="weigh") == 303
    (row,) = taken.job(JOB).document["reading"]
    assert (row["quantity"], row["stage"]) == ("total_weight", "as it came")


def test_the_card_of_the_old_grip_takes_what_came_off(web_client: TestClient, taken: Session) -> None:
    fields = {"old_grip.mass_with_tape": "53.0 g", "old_grip.cap": "5/32 in", "grip.mass": "56.1 g", "grip.cap": ""}
    answer = post(web_client, BENCH, BENCH, action="measure", step="strip grip", key="s-1", **fields)
    assert answer.status_code == 303, answer.text
    job = taken.job(JOB)
    assert job.document["old_grip"] == {"mass_with_tape": "53.0 g", "cap": "5/32 in"}
    assert job.document["grip"]["mass"] == "56.1 g"
    assert "strip grip" in job.steps_done


def test_the_page_and_a_program_refuse_a_finished_reading_alike(web_client: TestClient, taken: Session) -> None:
    facts = taken.ledger.count()
    fields = {"action": "read", "quantity": "swing_weight", "value": "D2", "confirmed": "D2", "stage": "finished"}
    page = post(web_client, BENCH, BENCH, key="p-1", step="inspect", **fields)
    assert page.status_code == 422
    assert "new grip" in page.text
    assert "as it came" in page.text
    body = {"quantity": "swing_weight", "value": "D2"}
    program = web_client.post(f"/api/jobs/{JOB}/readings", json=body, headers=OURS)
    assert program.status_code == 422
    (finding,) = program.json()["findings"]
    assert finding["where"] == "stage"
    assert taken.ledger.count() == facts
    kept = web_client.post(f"/api/jobs/{JOB}/readings", json={**body, "stage": "as it came"}, headers=OURS)
    assert kept.status_code == 201
    plan = web_client.get(f"/api/jobs/{JOB}/plan").json()["steps"]
    assert {item["stage"] for step in plan if step["key"] == "weigh" for item in step["expected"]} == {"as it came"}


def test_a_reshaft_is_read_before_its_head_is_pulled(web_client: TestClient, web_session: Session) -> None:
    bench.take_ticket(web_session, document("reshaft"), "reshaft.toml")
    assert stage_of(web_client, "as it came")[0] == "as it came"
    assert keep(web_client, "total_weight", "432.0 g", stage="as it came", step="as it came") == 303
    fields = {"old_shaft.mass": "104.5 g", "old_shaft.length": "35.1 in", "old_grip.mass_with_tape": "53.0 g"}
    answer = post(web_client, BENCH, BENCH, action="measure", step="pull head", key="s-1", **fields)
    assert answer.status_code == 303, answer.text
    assert web_session.job(JOB).document["old_shaft"] == {"mass": "104.5 g", "length": "35.1 in"}
    assert stage_of(web_client, "dry reading")[0] == "dry, gripped"
    assert keep(web_client, "swing_weight", "D2", stage="finished", step="inspect") == 422


def test_a_refused_card_keeps_nothing_of_any_part_and_tells_only_what_was_sent_wrong(
    web_client: TestClient, taken: Session
) -> None:
    before = taken.ledger.count()
    fields = {"old_grip.mass_with_tape": "52 g", "grip.mass": "lots", "shaft.butt_diameter": "wide"}
    answer = post(web_client, BENCH, BENCH, action="measure", step="strip grip", key="s-2", **fields)
    assert answer.status_code == 422, answer.text
    assert taken.ledger.count() == before
    told = re.findall(r'<p class="finding" role="alert"><strong>ticket X-1206 \[([^<]+):</strong>', answer.text)
    assert told == ["shaft] butt_diameter", "grip] mass"], answer.text[:3000]
