"""The undo at page, command line and JSON interface: each takes a whole action back, and brings it back."""

from __future__ import annotations

import html
import re
from collections.abc import Callable
from pathlib import Path

import msgspec
import pytest

from benchwork import JOB
from cli_runs import clubwright
from clubwright.errors import NotAllowed
from clubwright.journal.facts import Undone
from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from webclient import TestClient, post

PATH = f"/bench/{JOB}"
CARD = {"head.mass": "297.3 g", "grip.mass": "51.5 g", "ferrule.mass": "1.9 g"}
PARTS = ("head", "grip", "ferrule")


def masses(session: Session) -> list[str]:
    document = session.job(JOB).document
    return [document.get(part, {}).get("mass", "") for part in PARTS]


@pytest.mark.parametrize("door", ["page", "api", "command"])
def test_a_card_of_three_parts_is_undone_and_brought_back_at_every_door(
    web_client: TestClient, web_session: Session, tmp_path: Path, capsys: pytest.CaptureFixture[str], door: str
) -> None:
    def at_page(fact: int) -> None:
        assert post(web_client, PATH, action="undo", fact=fact, site="bench", key=f"u-{fact}").status_code == 303

    def at_api(fact: int) -> None:
        headers = {"X-Clubwright": "1", "Idempotency-Key": f"u-{fact}"}
        sent = web_client.post(f"/api/jobs/{JOB}/undo", json={"fact": fact, "site": "bench"}, headers=headers)
        assert sent.status_code in (200, 201), sent.text

    def at_command(fact: int) -> None:
        ran = clubwright(
            capsys, "undo", JOB, str(fact), "--site", "bench", "--key", f"u-{fact}", "--shop", str(tmp_path)
        )
        assert ran.code == 0, ran.err

    doors: dict[str, Callable[[int], None]] = {"page": at_page, "api": at_api, "command": at_command}
    before = masses(web_session)
    assert post(web_client, PATH, action="figures", key="c-1", **CARD).status_code == 303
    kept = [line.sequence for line in web_session.job(JOB).trail if line.text.partition(":")[0] in PARTS]
    assert masses(web_session) == list(CARD.values()) and len(kept) == 3
    doors[door](kept[1])
    assert masses(web_session) == before
    undo = web_session.ledger.facts(JOB)[-1]
    wanted = Undone(job=JOB, subject=undo.what.subject, fact=kept[1], reason="", site="bench", whole=True)
    assert undo.what == wanted, "the same fact, whichever door it came in by"
    doors[door](undo.sequence)
    assert masses(web_session) == list(CARD.values())


def test_the_page_says_all_that_was_undone_and_offers_to_bring_it_back(
    web_client: TestClient, web_session: Session
) -> None:
    post(web_client, PATH, action="figures", key="c-1", **CARD)
    undo = bench.undo(web_session, JOB)
    text = html.unescape(web_client.get(PATH).text)
    assert "Undone: <strong>head: mass 297.3 g, grip: mass 51.5 g, ferrule: mass 1.9 g</strong>" in text
    button = re.search(r'<button name="fact" value="(\d+)@bench"[^>]*>Bring back</button>', text)
    assert button is not None and int(button[1]) == undo.sequence
    assert post(web_client, PATH, action="undo", fact=undo.sequence, site=undo.site, key="b-1").status_code == 303
    text = html.unescape(web_client.get(PATH).text)
    assert "brought back: head: mass 297.3 g" in text
    assert masses(web_session) == list(CARD.values())


def test_the_page_names_all_of_theirs_before_mine_takes_its_place(web_client: TestClient, web_session: Session) -> None:
    """A card of another tablet is undone whole, so it is shown whole, and comes back whole when mine is undone."""
    seen, before = web_session.ledger.last("bench"), masses(web_session)
    theirs = bench.change_parts(web_session, JOB, {"head": {"mass": "297.3 g"}, "grip": {"mass": "51.5 g"}})
    after_theirs = web_session.job(JOB).document
    mine = {"action": "figures", "key": "m-1", "seen": seen, "head.mass": "296.8 g"}
    asked = post(web_client, PATH, **mine)
    assert asked.status_code == 409
    assert "head: mass 297.3 g; grip: mass 51.5 g" in html.unescape(asked.text)
    kept = post(web_client, PATH, **mine, choose="mine", theirs=theirs[-1].sequence)
    assert kept.status_code == 303, kept.text
    assert masses(web_session)[:2] == ["296.8 g", before[1]]
    bench.undo(web_session, JOB)
    assert web_session.job(JOB).document == after_theirs


def test_who_may_not_sign_brings_no_signature_back(web_client: TestClient, web_session: Session) -> None:
    """A line that undid a signature is brought back by whoever may sign: the page offers it to nobody else."""
    bench.change_part(web_session, JOB, "head", {"hand": "right"})
    for step in ("pull", "weigh"):
        bench.do_step(web_session, JOB, step)
    signed = bench.sign_gate(web_session, JOB, "cut")
    undo = bench.undo(web_session, JOB, signed.sequence)
    text = web_client.get(PATH).text
    assert f'<button name="fact" value="{undo.sequence}@bench"' in text
    worker = msgspec.structs.replace(web_session, role="work")
    with pytest.raises(NotAllowed):
        bench.undo(worker, JOB, undo.sequence)
    assert "cut" not in web_session.job(JOB).gates_signed
