"""Tickets on the page: the list, three ways to a new one, how soon; plain forms, as a browser without scripts sends them."""

from __future__ import annotations

import html
import re
from typing import Any

import pytest

from benchwork import JOB, TEXT, Clock, document
from clubwright.importers.ticket_file import dump_ticket
from clubwright.services.actions import bench
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session
from webclient import TestClient, post, token_of

SLIP = "54, mid bounce, 35 1/4 to the cap, D4, half flat, two wraps, logo down"


def take(session: Session, number: str, **ticket: str) -> None:
    said = {"id": number, "kind": "wedge", "hand": "right", **ticket}
    bench.take_ticket(session, {"ticket": said, "target": {"length": "35 1/4 in"}}, "test")


def fields_of(text: str) -> dict[str, str]:
    """Return every field of the ticket's form with its value, as a browser would send it."""
    form = text.split('<form id="ticket"')[1].split("</form>")[0]
    found = dict(re.findall(r'<input[^>]*? name="([^"]+)"(?: value="([^"]*)")?', form))
    for name, options in re.findall(r'<select[^>]*? name="([^"]+)"[^>]*>(.*?)</select>', form, re.DOTALL):
        chosen = re.search(r"<option([^>]*)selected>([^<]*)", options)
        found[name] = "" if chosen is None or 'value=""' in chosen[1] else chosen[2]
    return {name: html.unescape(value) for name, value in found.items()}


def words_form(client: TestClient, words: str) -> tuple[str, dict[str, str]]:
    answer = client.get("/tickets/new/form", params={"words": words})
    assert answer.status_code == 200
    return answer.text, fields_of(answer.text)


def test_the_most_urgent_and_earliest_promised_comes_first(
    web_client: TestClient, web_session: Session, web_clock: Clock
) -> None:
    take(web_session, "T-0060", priority="today", promised="Thu 9:00")
    take(web_session, "T-0061", priority="now", promised="when cured")
    take(web_session, "T-0062", priority="today", promised="Tue 16:00")
    take(web_session, "T-0063", priority="today", promised="soon")
    take(web_session, "T-0064")
    text = web_client.get("/tickets").text
    assert re.findall(r'<a class="to-bench" href="/bench/([^"]+)"', text) == [
        "T-0061", "T-0062", "T-0060", "T-0063", JOB, "T-0064",
    ]  # fmt: skip
    assert "Take out the parts" in text
    assert "cut open" in text
    assert "cut closed" in text
    assert "overdue" not in text
    web_clock.wait(days=2)
    assert web_client.get("/tickets").text.count("overdue") == 1


def test_a_promise_is_counted_from_when_it_was_made(
    web_client: TestClient, web_session: Session, web_clock: Clock
) -> None:
    take(web_session, "T-0060", promised="Tue 16:00")
    web_clock.wait(days=3)
    assert "overdue" in web_client.get("/tickets?q=T-0060").text
    assert post(web_client, "/tickets/T-0060", promised="Tue 17:00").status_code == 303
    assert "overdue" not in web_client.get("/tickets?q=T-0060").text


def test_search_finds_by_player_club_and_number(web_client: TestClient, web_session: Session) -> None:
    take(web_session, "T-0060", player="Mara Quill (invented)", label="58 wedge")
    for words in ("quill", "58 WEDGE", "T-0060", "mara t-0060"):
        text = web_client.get("/tickets", params={"q": words}).text
        assert "/bench/T-0060" in text
        assert f"/bench/{JOB}" not in text
    assert "No open ticket has these words" in web_client.get("/tickets?q=nobody").text


def test_words_are_confirmed_field_by_field_and_then_taken_with_their_defaults(
    web_client: TestClient, web_session: Session
) -> None:
    before = web_session.ledger.count()
    text, fields = words_form(web_client, SLIP)
    assert "“half flat”" in text
    assert fields["target.lie"] == "1/2 flat"
    assert fields["tape.0.layers"] == "2"
    assert fields["ticket.id"] == "T-0055"
    assert web_session.ledger.count() == before

    answer = post(web_client, "/tickets/new/form", **{**fields, "do": "take"})
    assert answer.status_code == 422
    assert 'id="f-ticket.hand-e"' in answer.text
    assert 'id="f-target.lie-e"' in answer.text
    assert web_session.ledger.count() == before

    filled = {**fields, "ticket.hand": "right", "base.lie": "64 deg", "do": "take"}
    answer = post(web_client, "/tickets/new/form", **filled)
    assert answer.headers.get("location") == "/tickets?taken=T-0055", answer.text
    job = web_session.job("T-0055")
    assert job.document["ticket"]["asked"] == SLIP
    assert job.document["grip"] == {"logo": "down"}
    assert {gate.step: gate.open for gate in answer_job(job, web_session.now()).gates} == {
        "cut": False, "glue": False, "release": False,
    }  # fmt: skip


def test_words_that_were_not_understood_must_be_left_out_knowingly(
    web_client: TestClient, web_session: Session
) -> None:
    text, fields = words_form(web_client, "54, D4, 1S, feels light")
    assert "SS1x" in text
    filled = {**fields, "ticket.hand": "right", "do": "take"}
    answer = post(web_client, "/tickets/new/form", **filled)
    assert answer.status_code == 422
    assert "feels light" in answer.text
    assert "T-0055" not in web_session.shop().jobs
    assert post(web_client, "/tickets/new/form", **filled, left_out="yes").status_code == 303
    assert web_session.job("T-0055").document["ticket"]["asked"] == "54, D4, 1S, feels light"


def test_all_errors_of_the_form_come_at_once_beside_their_fields(web_client: TestClient, web_session: Session) -> None:
    before = web_session.ledger.count()
    wrong = {
        "ticket.id": JOB,
        "ticket.kind": "wedge",
        "target.length": "35,5",
        "target.swing_weight": "D35",
        "head.mass": "NaN",
        "weight.0.name": "port 2",
        "weight.0.seat": "port",
        "weight.1.mass": "2 spoons",
        "do": "take",
    }
    answer = post(web_client, "/tickets/new/form", **wrong)
    assert answer.status_code == 422
    beside = set(re.findall(r'class="finding" id="f-([^"]+)-e"', answer.text))
    assert beside == {
        "ticket.id", "ticket.hand", "target.length", "target.swing_weight", "head.mass",
        "weight.0.mass", "weight.1.name", "weight.1.mass", "weight.1.seat",
    }  # fmt: skip
    assert "T-0055" in answer.text
    assert web_session.ledger.count() == before
    assert fields_of(answer.text)["target.length"] == "35,5"


def test_a_line_is_added_without_scripts_and_nothing_typed_is_lost(
    web_client: TestClient, web_session: Session
) -> None:
    fields: dict[str, Any] = {"ticket.id": "T-0070", "ticket.kind": "wedge", "ticket.hand": "left"}
    for place in range(3):
        answer = post(web_client, "/tickets/new/form", **fields, add="weight")
        assert answer.status_code == 200
        fields = fields_of(answer.text)
        assert f"weight.{place}.name" in fields
        fields |= {
            f"weight.{place}.name": f"port {place}",
            f"weight.{place}.mass": "2 g",
            f"weight.{place}.seat": "port",
        }
    assert post(web_client, "/tickets/new/form", **fields, do="take").status_code == 303
    taken = web_session.job("T-0070").document
    assert [row["name"] for row in taken["weight"]] == ["port 0", "port 1", "port 2"]
    assert taken["ticket"]["hand"] == "left"


def test_checking_keeps_nothing(web_client: TestClient, web_session: Session) -> None:
    before = web_session.ledger.count()
    fields = {"ticket.id": "T-0070", "ticket.kind": "wedge", "ticket.hand": "left", "do": "check"}
    assert "can be taken" in post(web_client, "/tickets/new/form", **fields).text
    assert web_session.ledger.count() == before


def test_a_form_sent_twice_takes_one_ticket(web_client: TestClient, web_session: Session) -> None:
    fields = {"ticket.id": "T-0070", "ticket.kind": "wedge", "ticket.hand": "right", "key": "one-tap", "do": "take"}
    before = web_session.ledger.count()
    answers = [post(web_client, "/tickets/new/form", **fields) for _ in range(2)]
    assert [answer.headers.get("location") for answer in answers] == ["/tickets?taken=T-0070"] * 2
    assert web_session.ledger.count() == before + 1


def test_a_number_taken_meanwhile_is_refused_with_the_next_free_one(
    web_client: TestClient, web_session: Session
) -> None:
    _, fields = words_form(web_client, "54")
    take(web_session, "T-0055")
    answer = post(web_client, "/tickets/new/form", **{**fields, "ticket.hand": "right", "do": "take"})
    assert answer.status_code == 422
    assert "The next free number is T-0056" in answer.text


def test_a_pasted_file_is_taken_once_and_a_wrong_one_not_at_all(web_client: TestClient, web_session: Session) -> None:
    text = TEXT.replace(JOB, "T-0080")
    for _ in range(2):
        answer = post(web_client, "/tickets/new/file", text=text, key="paste")
        assert answer.headers.get("location") == "/tickets?taken=T-0080"
    assert web_session.job("T-0080").document["weight"] == document()["weight"]

    wrong = text.replace("T-0080", "T-0081").replace('"296.4 g"', '"296,4 g"').replace('"D4"', '"D44"')
    answer = post(web_client, "/tickets/new/file", text=wrong, key="wrong")
    assert answer.status_code == 422
    assert "[head] mass" in answer.text
    assert "[target] swing_weight" in answer.text
    assert "T-0081" not in web_session.shop().jobs
    assert "T-0082" not in answer.text
    again = post(web_client, "/tickets/new/file", text=TEXT, key="again")
    assert "The next free number is T-0081" in again.text


def test_a_file_is_uploaded(web_client: TestClient, web_session: Session) -> None:
    def send(content: bytes, **more: str) -> Any:
        form = {"csrf": token_of(web_client), **more}
        return web_client.post("/tickets/new/file", data=form, files={"file": ("w.toml", content)})

    assert send(TEXT.replace(JOB, "T-0080").encode()).status_code == 303
    assert web_session.job("T-0080").source == "w.toml"
    assert send(b"[ticket\n").status_code == 422
    assert send(b"").status_code == 422
    assert send(TEXT.encode(), text="[ticket]").status_code == 422
    assert post(web_client, "/tickets/new/file").status_code == 422


def test_the_same_order_is_duplicated_without_the_parts_that_were_measured(
    web_client: TestClient, web_session: Session
) -> None:
    answer = web_client.get(f"/tickets/new/form?like={JOB}")
    fields = fields_of(answer.text)
    assert fields["ticket.id"] == "T-0055"
    assert fields["target.swing_weight"] == "D4"
    assert fields["grip.core"] == "M60"
    assert fields["head.mass"] == fields["head.bore_to_ground"] == fields["grip.cap"] == ""
    assert post(web_client, "/tickets/new/form", **{**fields, "do": "take"}).status_code == 303
    new = web_session.job("T-0055").document
    assert new["instrument"] == document()["instrument"]
    assert new["weight"] == document()["weight"]
    assert new["adhesive"] == document()["adhesive"]
    assert new["target"] == document()["target"]
    assert not answer_job(web_session.job("T-0055"), web_session.now()).gates[0].open


@pytest.mark.parametrize("rest", ['head = "x"', 'ticket = ["x"]', "[ticket", '[nowhere]\na = "b"', "weight = [1]"])
def test_what_is_carried_along_is_checked(web_client: TestClient, web_session: Session, rest: str) -> None:
    fields = {"ticket.id": "T-0070", "ticket.kind": "wedge", "ticket.hand": "right", "rest": rest, "do": "take"}
    assert post(web_client, "/tickets/new/form", **fields).status_code == 422
    assert "T-0070" not in web_session.shop().jobs


def test_priority_and_promise_are_changed_and_written_in_the_trail(
    web_client: TestClient, web_session: Session
) -> None:
    assert "Wednesday 15:00" in web_client.get(f"/tickets/{JOB}").text
    for _ in range(2):
        answer = post(web_client, f"/tickets/{JOB}", priority="now", promised="Tue 11:00", key="soon")
        assert answer.status_code == 303
    job = web_session.job(JOB)
    assert job.document["ticket"]["priority"] == "now"
    assert job.document["ticket"]["promised"] == "Tue 11:00"
    assert job.trail[-1].text == "ticket: priority now, promised Tue 11:00"
    assert len(job.trail) == 2
    assert post(web_client, f"/tickets/{JOB}", priority="soonest", promised="x").status_code == 422
    assert web_session.job(JOB).document["ticket"]["priority"] == "now"


def test_a_promise_changed_by_somebody_else_meanwhile_is_shown_first(
    web_client: TestClient, web_session: Session
) -> None:
    bench.change_part(web_session, JOB, "ticket", {"promised": "Tue 8:00"})
    stale = {"was_promised": "Wednesday 15:00", "was_priority": "", "priority": "this week", "promised": "Tue 10:00"}
    answer = post(web_client, f"/tickets/{JOB}", **stale)
    assert answer.status_code == 409
    assert "Tue 8:00" in answer.text
    assert "Tue 10:00" in answer.text
    assert web_session.job(JOB).document["ticket"]["promised"] == "Tue 8:00"


def test_a_ticket_keeps_its_number(web_client: TestClient, web_session: Session) -> None:
    post(web_client, f"/tickets/{JOB}", priority="now", id="T-9999")
    assert set(web_session.shop().jobs) == {JOB}


def test_the_ticket_file_comes_back_as_it_can_be_taken(web_client: TestClient, web_session: Session) -> None:
    text = web_client.get(f"/tickets/{JOB}/ticket.toml").text
    assert post(web_client, "/tickets/new/file", text=text.replace(JOB, "T-0099")).status_code == 303


@pytest.mark.parametrize("path", ["/tickets/T-9999", "/tickets/T-9999/ticket.toml", "/tickets/new/form?like=T-9999"])
def test_a_ticket_that_is_not_there_is_not_found(web_client: TestClient, path: str) -> None:
    assert web_client.get(path).status_code == 404


@pytest.mark.parametrize("path", ["/tickets", "/tickets/new", "/tickets/new/form", f"/tickets/new/form?like={JOB}"])
def test_pages_stay_light(web_client: TestClient, path: str) -> None:
    assert len(web_client.get(path).content) < 60_000


def test_forty_open_tickets_fit_one_light_page_and_the_rest_the_next(
    web_client: TestClient, web_session: Session
) -> None:
    for number in range(60, 103):
        take(web_session, f"T-{number:04d}", player="A player with quite a long name (invented)")
    answer = web_client.get("/tickets")
    assert len(answer.content) < 64_000
    assert answer.text.count('class="to-bench"') == 40
    assert web_client.get("/tickets?sheet=2").text.count('class="to-bench"') == 4


def tray(lines: int) -> list[dict[str, str]]:
    row = {"mass": "2 g", "seat": "port", "count": "1", "from_ground": "10 mm"}
    return [{"name": f"port with quite a long name {place}", **row} for place in range(lines)]


def test_a_large_tray_is_taken_whole_and_one_beyond_the_form_is_refused(
    web_client: TestClient, web_session: Session
) -> None:
    fields = fields_of(web_client.get("/tickets/new/form").text)
    fields |= {"ticket.id": "T-0070", "ticket.kind": "wedge", "ticket.hand": "right", "do": "take"}
    for place, row in enumerate(tray(30)):
        fields |= {f"weight.{place}.{key}": value for key, value in row.items()}
    answer = post(web_client, "/tickets/new/form", **fields, **{"weight.30.name": "port 30"})
    assert answer.status_code == 422
    assert "as a file" in answer.text
    assert post(web_client, "/tickets/new/form", **fields).status_code == 303
    assert len(web_session.job("T-0070").document["weight"]) == 30


@pytest.mark.parametrize("lines", [30, 31, 100])
def test_a_form_with_full_lists_stays_light_and_a_longer_list_is_carried_along(
    web_client: TestClient, web_session: Session, lines: int
) -> None:
    document = web_session.job(JOB).document
    long = {**document, "ticket": {**document["ticket"], "id": "T-0071"}, "weight": tray(lines)}
    long["tape"] = [{"name": f"layer {place}", "layers": "1", "thickness": "0.1 mm"} for place in range(8)]
    long["adhesive"] = {
        **document["adhesive"],
        "release": [{"temperature": f"{t} C", "time": "9 h"} for t in range(15, 25)],
    }
    bench.take_ticket(web_session, long, "test")
    answer = web_client.get("/tickets/new/form?like=T-0071")
    assert len(answer.content) < 64_000
    fields = fields_of(answer.text)
    assert ("weight.0.name" in fields) == (lines == 30)
    fields |= {"ticket.id": "T-0072", "ticket.note": "the same tray", "do": "take"}
    assert post(web_client, "/tickets/new/form", **fields).status_code == 303
    taken = web_session.job("T-0072").document
    assert taken["weight"] == long["weight"]
    assert taken["adhesive"]["release"] == long["adhesive"]["release"]


def test_a_finding_about_a_line_that_is_carried_along_leads_nowhere_on_the_page(web_client: TestClient) -> None:
    rows = tray(31)
    rows[30]["mass"] = "35,5 g"
    rest = dump_ticket({"weight": rows})
    fields = fields_of(web_client.get("/tickets/new/form").text)
    fields |= {"ticket.id": "T-0073", "ticket.kind": "wedge", "ticket.hand": "right", "rest": rest, "do": "check"}
    answer = post(web_client, "/tickets/new/form", **fields)
    assert answer.status_code == 422
    assert "<strong>form [[weight]] 31 mass</strong>" in answer.text


def test_lines_beside_those_that_are_carried_along_are_refused(web_client: TestClient, web_session: Session) -> None:
    fields = fields_of(web_client.get("/tickets/new/form").text)
    fields |= {"ticket.id": "T-0074", "ticket.kind": "wedge", "ticket.hand": "right", "do": "take"}
    fields |= {"rest": dump_ticket({"weight": tray(31)}), "weight.0.name": "one more", "weight.0.mass": "2 g"}
    answer = post(web_client, "/tickets/new/form", **fields)
    assert answer.status_code == 422
    assert "carries 31 lines of weight along" in answer.text
    assert "T-0074" not in web_session.shop().jobs
