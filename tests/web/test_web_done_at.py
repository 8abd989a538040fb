"""Page and JSON interface: work that is written down later says when it was done."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from benchwork import JOB, Clock, actions
from clubwright.services.record.session import Session, utc_text
from webclient import TestClient, post


def to(session: Session, clock: Clock, last: str) -> None:
    """Work the wedge, whose ticket is there, until an action is done."""
    for name, do, hours in actions()[1:]:
        clock.wait(hours=hours)
        do(session)
        if name == last:
            return


def api(client: TestClient, path: str, key: str, body: dict[str, Any] | None) -> Any:
    headers = {"X-Clubwright": "1", "Idempotency-Key": key}
    return client.post(f"/api/jobs/{path}", json=body, headers=headers)


def test_the_joint_says_when_it_was_closed_by_page_and_by_program(
    web_client: TestClient, web_session: Session, web_clock: Clock
) -> None:
    to(web_session, web_clock, "sign glue")
    page = f"/bench/{JOB}"
    form = web_client.get(f"{page}?step=glue").text
    assert 'name="done_at" value=""' in form, "an empty field"
    closed = web_clock.time + timedelta(minutes=2)
    web_clock.wait(hours=20)
    late = post(web_client, page, page, action="glue", temperature="22 C", done_at="soon", looked="yes", key="g-0")
    assert late.status_code == 422
    typed = f"{closed:%Y-%m-%d %H:%M}"
    assert api(web_client, f"{JOB}/glue", "g-1", {"temperature": "22 C", "done_at": "26:00"}).status_code == 422
    answer = post(web_client, page, page, action="glue", temperature="22 C", done_at=typed, looked="yes", key="g-2")
    assert answer.status_code == 303, answer.text
    assert web_session.job(JOB).glued_at == utc_text(closed.replace(second=0, microsecond=0))
    grip = api(web_client, f"{JOB}/grip", "g-3", {"done_at": utc_text(web_clock.time - timedelta(minutes=5))})
    assert grip.status_code == 201, grip.text
    assert "done at" in grip.json()["text"]
    shown = web_client.get(f"{page}?step=tag").text
    assert f"time at which the head was glued (closed at {typed} UTC, written at" in shown
    assert "by bench)" in shown
