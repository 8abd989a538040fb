"""Records on the page: search, the club as built, its papers, and making it again with what differs today."""

from __future__ import annotations

import re

import pytest

from benchwork import JOB, Clock, actions
from clubwright.labels.tag.from_work import tag_data
from clubwright.labels.tag.tag import tag_label
from clubwright.services.actions import bench
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session
from clubwright.services.report.as_built import as_built_record
from clubwright.ticket.duplicate import differences
from webclient import TestClient, post


@pytest.fixture
def closed(web_client: TestClient, web_session: Session, web_clock: Clock, finished_job: str) -> str:
    return finished_job


@pytest.fixture
def finished_job(web_session: Session, web_clock: Clock) -> str:
    """Work the wedge to its end in the record that the page shows."""
    for name, do, hours in actions():
        if name != "take":
            web_clock.wait(hours=hours)
            do(web_session)
    assert web_session.job(JOB).finished is not None
    return JOB


def ids(text: str) -> list[str]:
    return re.findall(r'<a class="to-bench" href="/records/([^"]+)"', text)


def test_closed_jobs_are_found_by_words_kind_state_and_day(
    web_client: TestClient, web_session: Session, closed: str
) -> None:
    bench.take_ticket(
        web_session, {"ticket": {"id": "T-0090", "kind": "iron", "hand": "left", "player": "Mara Quill"}}, "t"
    )
    assert ids(web_client.get("/records").text) == [JOB]
    assert ids(web_client.get("/records?state=all").text) == ["T-0090", JOB]
    assert ids(web_client.get("/records?state=open").text) == ["T-0090"]
    assert ids(web_client.get("/records?state=all&kind=iron").text) == ["T-0090"]
    assert ids(web_client.get("/records?q=ashdown+54").text) == [JOB]
    assert ids(web_client.get("/records?q=nobody").text) == []
    assert ids(web_client.get("/records?since=2026-03-03&until=2026-03-04").text) == [JOB]
    assert ids(web_client.get("/records?until=2026-03-01").text) == []
    answer = web_client.get("/records?since=yesterday")
    assert answer.status_code == 422
    assert "2026-11-25" in answer.text


def test_a_record_shows_targets_verdicts_readings_signatures_and_trail(web_client: TestClient, closed: str) -> None:
    text = web_client.get(f"/records/{closed}").text
    rows = re.findall(r'<tr><th scope="row">([^<]+)</th><td class="num">([^<]+)</td>', text)
    assert ("swing weight", "D4") in rows
    assert text.count('class="verdict within"') == 6
    assert "<s>477.2 g</s>" in text
    assert "left out by a person" in text
    assert "weights port 6" in text
    for step in ("cut", "glue", "release", "closed"):
        assert f"<dt>{step}</dt>" in text
    assert "misread" not in text.split("Trail")[0]
    assert "glued at 22 C" in text


def test_an_open_job_has_a_record_too_and_an_undecided_reading_is_marked(
    web_client: TestClient, web_session: Session
) -> None:
    bench.note_reading(web_session, JOB, "total_weight", "600 g", stage="dry, gripped", instrument="gram scale")
    text = web_client.get(f"/records/{JOB}").text
    assert "still open" in text
    assert "nobody has decided" in text


def test_a_reading_from_before_a_bend_is_shown_as_such(
    web_client: TestClient, web_session: Session, closed: str
) -> None:
    bench.undo(web_session, JOB)
    bench.undo(web_session, JOB)
    bench.undo(web_session, JOB)
    bench.bend_head(web_session, JOB, loft="54.5 deg")
    assert "counts for the club as it was then" in web_client.get(f"/records/{JOB}").text


def test_papers_and_the_record_come_as_files(web_client: TestClient, web_session: Session, closed: str) -> None:
    for name in ("sheet.pdf", "tag.pdf"):
        answer = web_client.get(f"/records/{closed}/{name}")
        assert answer.headers["content-type"] == "application/pdf"
        assert answer.content.startswith(b"%PDF-")
    state = web_session.job(closed)
    wanted = as_built_record(state, answer_job(state, web_session.now()))
    assert web_client.get(f"/records/{closed}/record.json").json() == wanted.plain()


def test_the_tag_comes_as_a_picture_at_the_dots_of_the_printer(
    web_client: TestClient, web_session: Session, closed: str
) -> None:
    links = web_client.get(f"/records/{closed}").text
    state = web_session.job(closed)
    data = tag_data(answer_job(state, web_session.now()), state, web_session.now().date().isoformat())
    for dpi in (180, 203, 300):
        assert f"/records/{closed}/tag.png?dpi={dpi}" in links
        answer = web_client.get(f"/records/{closed}/tag.png?dpi={dpi}")
        assert answer.headers["content-type"] == "image/png"
        assert answer.content == tag_label(data, format="png", dpi=dpi)
    assert web_client.get(f"/records/{closed}/tag.pdf").content == tag_label(data)
    assert web_client.get(f"/records/{closed}/tag.png").content == answer.content
    refused = web_client.get(f"/records/{closed}/tag.png?dpi=20")
    assert refused.status_code == 422
    assert "150 to 1200" in refused.text


def test_letters_that_the_papers_leave_a_line_for_are_said_before_they_are_printed(
    web_client: TestClient, web_session: Session
) -> None:
    assert "no sign" not in web_client.get(f"/records/{JOB}").text
    ticket = web_session.job(JOB).document
    changed = {**ticket, "ticket": {**ticket["ticket"], "id": "T-0099", "player": "架空 Ashdown"}}
    bench.take_ticket(web_session, changed, "test")
    assert "no sign for 架 空" in web_client.get("/records/T-0099").text
    assert web_client.get("/records/T-0099/tag.pdf").status_code == 200


def test_making_again_shows_what_differs_before_anything_is_taken(
    web_client: TestClient, web_session: Session, closed: str
) -> None:
    before = web_session.ledger.count()
    text = web_client.get(f"/records/{closed}/again").text
    missing = text.split("Still to measure")[1].split("</p>")[0]
    assert "head, bore to ground" in missing
    assert "grip, cap" in missing
    assert "head, hand" in missing
    assert "cut closed" in text

    typed = {"id": "T-0055", "head.mass": "299.1 g", "grip.cap": "1/8 in", "do": "check"}
    text = post(web_client, f"/records/{closed}/again", **typed).text
    table = dict(re.findall(r'<tr><th scope="row">([^<]+)</th><td>[^<]*</td><td class="num">([^<]+)</td></tr>', text))
    assert table["head, mass"] == "299.1 g"
    assert table["grip, cap"] == "1/8 in"
    assert "grip, cap" not in text.split("Still to measure")[1].split("</p>")[0]
    assert web_session.ledger.count() == before


def test_it_is_taken_once_as_shown_and_says_what_it_makes_again(
    web_client: TestClient, web_session: Session, closed: str
) -> None:
    typed = {"id": "T-0055", "head.mass": "299.1 g", "priority": "today", "promised": "Fri noon", "key": "again"}
    before = web_session.ledger.count()
    for _ in range(2):
        answer = post(web_client, f"/records/{closed}/again", **typed, do="take")
        assert answer.headers.get("location") == "/tickets?taken=T-0055", answer.text
    assert web_session.ledger.count() == before + 1
    new = web_session.job("T-0055").document
    assert new["ticket"]["again_of"] == closed
    assert new["ticket"]["promised"] == "Fri noon"
    assert new["head"]["mass"] == "299.1 g"
    assert "bore_to_ground" not in new["head"]
    assert "made again as" in web_client.get(f"/records/{closed}").text


def test_wrong_figures_and_a_taken_number_are_refused_beside_their_fields(
    web_client: TestClient, web_session: Session, closed: str
) -> None:
    before = web_session.ledger.count()
    wrong = {"id": "T-0055", "head.mass": "299,1 g", "grip.cap": "2", "do": "take"}
    answer = post(web_client, f"/records/{closed}/again", **wrong)
    assert answer.status_code == 422
    assert 'id="f-head.mass-e"' in answer.text
    assert 'id="f-grip.cap-e"' in answer.text
    answer = post(web_client, f"/records/{closed}/again", id=closed, do="take")
    assert answer.status_code == 422
    assert "The next free number is T-0055" in answer.text
    assert web_session.ledger.count() == before


def test_a_promise_of_the_first_club_is_not_copied(web_client: TestClient, web_session: Session, closed: str) -> None:
    assert post(web_client, f"/records/{closed}/again", id="T-0055", do="take").status_code == 303
    assert "promised" not in web_session.job("T-0055").document["ticket"]


def test_texts_that_say_the_same_number_are_no_difference() -> None:
    first = {"target": {"loft": "54 deg", "length": "35 1/4 in"}, "weight": [{"name": "port 6", "mass": "6 g"}]}
    second = {"target": {"loft": "54.0 deg", "length": "35.3 in"}, "weight": [{"name": "port 6", "mass": "6.1 g"}]}
    found = [(item.field, item.was, item.now, item.state) for item in differences(first, second)]
    assert found == [
        ("target.length", "35 1/4 in", "35.3 in", "changed"),
        ("weight port 6.mass", "6 g", "6.1 g", "changed"),
    ]


@pytest.mark.parametrize("path", ["", "/again", "/record.json", "/sheet.pdf", "/tag.pdf", "/tag.png"])
def test_a_record_that_is_not_there_is_not_found(web_client: TestClient, path: str) -> None:
    assert web_client.get(f"/records/T-9999{path}").status_code == 404


def test_pages_stay_light(web_client: TestClient, closed: str) -> None:
    for path in ("/records", f"/records/{closed}", f"/records/{closed}/again"):
        assert len(web_client.get(path).content) < 60_000
