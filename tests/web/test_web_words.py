"""Words of an order: page, command and Python read them by one function and leave the same ticket."""

from __future__ import annotations

import html

import pytest
from test_web_tickets import fields_of, words_form

import clubwright
from cli_runs import clubwright as run
from clubwright.services.record.session import Session
from clubwright.ticket.shorthand.document import document_of
from clubwright.ticket.shorthand.reader import read_shorthand
from clubwright.web.ticket_form import of_document
from webclient import TestClient, post

SAID = (
    "54, mid bounce, 35 1/4 to the cap, D4, half flat, two wraps, logo down",
    "7-iron 1/2 over 1 up D2, 1/64 over, 2 wraps and 1 lower",
    "1 wrap left hand, 1/8 over, midsize, D3",
    "1 wrap, left-handed, grip .810 at 6 in",
    "1 wrap lower hand",
    "not D2 blah",
    "",
)


@pytest.mark.parametrize("words", SAID)
def test_page_command_and_python_say_the_same(
    web_client: TestClient, capsys: pytest.CaptureFixture[str], words: str
) -> None:
    python = clubwright.words(words)
    ran = run(capsys, "words", words, "--json")
    assert ran.body() == python.plain()
    assert ran.code == (2 if python.left else 0)
    assert python.document == document_of(read_shorthand(words))
    if not words:
        return
    text, fields = words_form(web_client, words)
    shown = of_document(python.document).values
    assert {name: value for name, value in fields.items() if value and name in shown} == shown
    assert {
        name for name, value in fields.items() if value and name.partition(".")[0] in ("target", "tape", "grip")
    } <= set(shown)
    for item in python.left:
        assert html.escape(item.mend, quote=False) in html.unescape(text) or item.mend in html.unescape(text)


def test_a_grip_size_is_taken_once_its_base_is_written(web_client: TestClient, web_session: Session) -> None:
    _, fields = words_form(web_client, "54, right-handed, 1/64 over, 1 wrap lower hand")
    assert fields["target.grip_diameter_2in"] == "+1/64 in"
    assert "target.length" not in {name for name, value in fields.items() if value}
    assert (fields["tape.0.covers"], fields["tape.0.layers"], fields["ticket.hand"]) == ("lower", "1", "right")
    filled = {**fields, "do": "take"}
    answer = post(web_client, "/tickets/new/form", **filled)
    assert answer.status_code == 422
    assert 'id="f-target.grip_diameter_2in-e"' in answer.text
    assert fields_of(answer.text)["base.grip_diameter_2in"] == ""
    answer = post(web_client, "/tickets/new/form", **{**filled, "base.grip_diameter_2in": "0.900 in"})
    assert answer.headers.get("location") == "/tickets?taken=T-0055", answer.text
    assert web_session.job("T-0055").document["base"] == {"grip_diameter_2in": "0.900 in"}


def test_a_wrap_under_a_hand_is_left_out_knowingly_or_not_at_all(web_client: TestClient, web_session: Session) -> None:
    text, fields = words_form(web_client, "54, D4, 1 wrap left hand")
    assert "1 wrap lower hand" in text
    assert fields["ticket.hand"] == ""
    filled = {**fields, "ticket.hand": "right", "do": "take"}
    assert post(web_client, "/tickets/new/form", **filled).status_code == 422
    assert post(web_client, "/tickets/new/form", **filled, left_out="yes").status_code == 303
    job = web_session.job("T-0055").document
    assert job["ticket"]["hand"] == "right"
    assert "tape" not in job
