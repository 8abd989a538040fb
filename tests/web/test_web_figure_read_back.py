"""Every figure of a card is read back while it is typed; a cut too short and a bend the wrong way are told there."""

from __future__ import annotations

import re

import pytest
from browsing import bring

from benchwork import JOB, Clock
from clubwright.services.record.session import Session
from webclient import TestClient

SHORT, LONG, WRONG = "short of the mark", "longer than the mark", "the wrong way"


def told(client: TestClient, name: str, kind: str, value: str, gauge: str = "") -> tuple[int, str]:
    asked = {"name": name, "kind": kind, "value": value, "gauge": gauge}
    answer = client.get(f"/bench/{JOB}/figure", params=asked)
    return answer.status_code, re.sub(r"\s+", " ", re.sub("<[^>]+>", "", answer.text)).strip()


@pytest.mark.parametrize(
    ("typed", "against"),
    [
        ("34 1/64", ""),
        ("863.9 mm", ""),
        ("33 63/64 in", ""),  # within the 1/16 in that the club may be off
        ("33 15/16 in", SHORT),
        ("33.75 in", SHORT),  # not yet so short that the deed asks whether it is
        ("34 1/8 in", LONG),
    ],
)
def test_a_cut_off_its_mark_is_told_when_it_is_typed(
    web_client: TestClient, web_session: Session, web_clock: Clock, typed: str, against: str
) -> None:
    bring(web_session, web_clock, "sign cut")
    status, text = told(web_client, "cut_length", "length", typed)
    assert status == 200 and "mm" in text
    assert [words for words in (SHORT, LONG, WRONG) if words in text.lower()] == ([against] if against else [])
    if against:
        assert "34 1/64 in" in text, "the mark is said"


@pytest.mark.parametrize(
    ("angle", "typed", "against"),
    [
        ("lie", "63.5 deg", ""),
        ("lie", "62.5", ""),  # too far, and the right way
        ("lie", "64.1 deg", ""),  # within the finest step of its gauge
        ("lie", "64.5 deg", WRONG),
        ("loft", "54 deg", ""),
        ("loft", "54.75 deg", WRONG),
        ("bounce", "12 deg", ""),  # comes along with the loft, and has no bend of its own
    ],
)
def test_a_bend_the_wrong_way_is_told_when_it_is_typed(
    web_client: TestClient, web_session: Session, web_clock: Clock, angle: str, typed: str, against: str
) -> None:
    bring(web_session, web_clock, "grip")
    status, text = told(web_client, angle, "angle", typed)
    assert status == 200 and "deg" in text
    assert (WRONG in text.lower()) is bool(against)
    if against:
        assert {"lie": "flat", "loft": "strong"}[angle] in text, "which way it is to go is said"


def test_a_figure_is_read_back_as_the_door_will_take_it(web_client: TestClient) -> None:
    assert told(web_client, "head.mass", "mass", "296.4")[1].startswith("296.4 g")
    assert "36.600 in" in told(web_client, "bore_reading", "length", "36.6")[1]
    assert "has no unit" in told(web_client, "head.bore_diameter", "diameter", ".359")[1]
    assert "22" in told(web_client, "temperature", "temperature", "22 C")[1]
    assert "is no kind of figure" in told(web_client, "head.mass", "made-up", "1")[1]
    tag = web_client.get(f"/bench/{JOB}/figure", params={"name": "x", "kind": "mass", "value": "<b>"})
    assert "&lt;b&gt;" in tag.text and "<b>" not in tag.text
