"""One mix for two jobs at the page, at the command line and at the JSON interface: the same facts by each of them."""

from __future__ import annotations

import html
from collections.abc import Callable
from pathlib import Path

import pytest

from benchwork import JOB, Clock, document
from cli_runs import clubwright
from clubwright.journal.facts import Fact, MixCalledBad, MixTaken
from clubwright.services.actions import bench
from clubwright.services.actions.making.mix_list import mixes
from clubwright.services.record.session import Session
from webclient import TestClient, post

OTHER = "T-0900"
HEADERS = {"X-Clubwright": "1"}


@pytest.fixture
def two_jobs(web_session: Session) -> Session:
    made = document()
    made["ticket"] |= {"id": OTHER, "player": "Ada Quill"}
    bench.take_ticket(web_session, made, "t")
    bench.mix_adhesive(web_session, OTHER, "4.0 g", "2.0 g", "22 C", "lot 7")
    return web_session


@pytest.mark.parametrize("door", ["page", "api", "command"])
def test_every_door_takes_from_a_mix_and_calls_it_bad(
    web_client: TestClient, two_jobs: Session, tmp_path: Path, capsys: pytest.CaptureFixture[str], door: str
) -> None:
    (row,) = mixes(two_jobs)

    def by_page() -> None:
        path = f"/bench/{JOB}"
        assert post(web_client, path, action="mix from", mix=row.mix, key="m-1").status_code == 303
        bad = post(web_client, path, action="bad mix", mix=row.mix, reason="too old", key="m-2")
        assert bad.status_code == 303, bad.text

    def by_api() -> None:
        path = f"/api/jobs/{JOB}/mixes"
        taken = web_client.post(f"{path}/from", json={"mix": row.mix}, headers=HEADERS | {"Idempotency-Key": "m-1"})
        bad = web_client.post(f"{path}/bad", json={"reason": "too old"}, headers=HEADERS | {"Idempotency-Key": "m-2"})
        assert (taken.status_code, bad.status_code) == (201, 201), (taken.text, bad.text)

    def by_command() -> None:
        shop = ("--shop", str(tmp_path))
        assert clubwright(capsys, "mix-from", JOB, row.mix, "--key", "m-1", *shop).code == 0
        bad = clubwright(capsys, "bad-mix", JOB, "--reason", "too old", "--key", "m-2", *shop)
        assert bad.code == 0, bad.err
        listed = clubwright(capsys, "mixes", *shop).out
        assert row.mix in listed and f"{JOB}, {OTHER}" in listed and "BAD" in listed

    doors: dict[str, Callable[[], None]] = {"page": by_page, "api": by_api, "command": by_command}
    doors[door]()
    kept: dict[str, Fact] = {fact.key: fact for fact in two_jobs.ledger.facts()}
    taken, bad = kept["m-1"].what, kept["m-2"].what
    assert isinstance(taken, MixTaken) and (taken.job, taken.of) == (JOB, OTHER)
    assert isinstance(bad, MixCalledBad) and (bad.job, bad.mix, bad.reason) == (OTHER, taken.mix, "too old")
    body = web_client.get("/api/mixes").json()["mixes"]
    assert [joint["job"] for joint in body[0]["joints"]] == [JOB, OTHER]
    assert body[0]["bad"]["reason"] == "too old"
    for job in (JOB, OTHER):
        assert "says that this mix is bad: too old" in html.unescape(web_client.get(f"/bench/{job}").text)


def test_the_mix_card_offers_what_is_mixed_for_others(
    web_client: TestClient, two_jobs: Session, web_clock: Clock
) -> None:
    (row,) = mixes(two_jobs)
    card = html.unescape(web_client.get(f"/bench/{JOB}?step=mix").text)
    assert (
        f'<button name="mix" value="{row.mix}" class="quiet">Take from 4.0 g + 2.0 g, lot 7, mixed 08:00 on job {OTHER}'
        in card
    )
    assert "Take from" not in web_client.get(f"/bench/{OTHER}?step=mix").text, "its own is no other one's"
    assert "Take from" not in web_client.get(f"/bench/{JOB}").text, "on another card it is in the way"
    assert "This mix is bad" in web_client.get(f"/bench/{OTHER}").text
    web_clock.wait(minutes=60)
    assert "Take from" not in web_client.get(f"/bench/{JOB}?step=mix").text, "its pot life is over"
    refused = post(web_client, f"/bench/{OTHER}", action="bad mix", mix=row.mix, reason="", key="m-3")
    assert refused.status_code == 422
    assert mixes(two_jobs)[0].bad is None
