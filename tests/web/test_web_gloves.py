"""What a card asks is asked where it is known: R and T, what the shaft is made of, another head at the head check."""

from __future__ import annotations

import re

from benchwork import JOB
from clubwright.notation import parse
from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from webclient import TestClient, post

BENCH = f"/bench/{JOB}"


def send(client: TestClient, step: str, **sent: str) -> str:
    answer = post(client, BENCH, f"{BENCH}?step={step}", step=step, key=f"k-{len(sent)}-{step}", **sent)
    return "" if answer.status_code == 303 else " ".join(re.findall(r'class="finding"[^>]*>(.*?)</p>', answer.text))


def test_r_and_t_are_two_fields_and_the_record_keeps_both(web_client: TestClient, web_session: Session) -> None:
    page = web_client.get(f"{BENCH}?step=bore to ground").text
    assert 'name="bore_reading"' in page and 'name="test_shaft"' in page
    said = send(web_client, "bore to ground", action="measure", bore_reading="36.6", test_shaft="35 1/2 in")
    assert said == ""
    kept = web_session.job(JOB).document["head"]["bore_to_ground"]
    assert kept == "36.6 in - 35 1/2 in", "as read, with the unit of the rule"
    assert round(parse("length", kept).value / 0.0254, 6) == 1.1
    alone = send(web_client, "bore to ground", action="measure", bore_reading="36.6 in")
    assert "T is not there" in alone


def test_the_shaft_s_material_is_asked_until_it_is_said(web_client: TestClient, web_session: Session) -> None:
    assert "shaft.material" not in web_client.get(f"{BENCH}?step=weigh").text
    bench.change_part(web_session, JOB, "shaft", {"material": ""})
    assert 'name="shaft.material"' in web_client.get(f"{BENCH}?step=weigh").text
    assert send(web_client, "weigh", action="measure", **{"shaft.material": "graphite"}) == ""
    assert web_session.job(JOB).document["shaft"]["material"] == "graphite"
    assert "shaft.material" not in web_client.get(f"{BENCH}?step=weigh").text


def test_another_head_is_told_at_the_head_check(web_client: TestClient, web_session: Session) -> None:
    said = send(web_client, "head check", action="measure", **{"head.loft": "58.9 deg"})
    assert "another head" in said
    assert "head check" not in web_session.job(JOB).steps_done, "the figure is kept, the step waits"
    bench.undo(web_session, JOB, web_session.job(JOB).last_standing_line().sequence, reason="of another head")
    assert send(web_client, "head check", action="measure", **{"head.loft": "54.2 deg", "head.lie": "64 deg"}) == ""
    assert "head check" in web_session.job(JOB).steps_done
