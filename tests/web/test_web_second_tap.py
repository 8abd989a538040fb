"""A second tap, asked by the workshop's computer: a form that comes back at once; what cannot be undone without a look."""

from __future__ import annotations

import re

import pytest
from browsing import BENCH, bring
from fastapi import FastAPI

from benchwork import JOB, Clock
from clubwright.services.record.session import Session
from clubwright.web.actions import ACTIONS
from clubwright.web.rendering import STATIC
from clubwright.web.second_tap import HELD, HOLD_S, NEVER_RESTS, REST_S, require_rest, stamp
from webclient import TestClient, post


class Stopwatch:
    """Runs only when told."""

    def __init__(self) -> None:
        self.seconds = 5000.0

    def __call__(self) -> float:
        return self.seconds


@pytest.fixture
def stopwatch(web_app: FastAPI) -> Stopwatch:
    web_app.state.stopwatch = found = Stopwatch()
    return found


def form(client: TestClient, action: str, path: str = BENCH) -> dict[str, str]:
    """Return the hidden fields of the form that does an action, as drawn."""
    text = client.get(path).text
    start = text.index(f'name="action" value="{action}"')
    part = text[text.rindex("<form", 0, start) : text.index("</form>", start)]
    return dict(re.findall(r'type="hidden" name="(\w+)" value="([^"]*)"', part))


def texts(session: Session) -> list[str]:
    return [line.text for line in session.job(JOB).trail]


@pytest.mark.parametrize(("after_s", "kept"), [(0.15, False), (0.4, False), (0.7, False), (0.99, False), (1.0, True)])
def test_a_form_that_comes_back_at_once_keeps_nothing(
    web_client: TestClient, web_session: Session, stopwatch: Stopwatch, after_s: float, kept: bool
) -> None:
    sent = {**form(web_client, "pull"), "hand": "right"}
    before = texts(web_session)
    stopwatch.seconds += after_s
    answer = web_client.post(BENCH, data=sent)
    assert answer.status_code == (303 if kept else 422)
    assert (texts(web_session) != before) is kept
    if not kept:
        assert "second tap" in answer.text
        assert f"{after_s:.1f} s after this card was shown" in answer.text
        assert form(web_client, "pull")["key"] != sent["key"]
        assert f'name="key" value="{sent["key"]}"' in answer.text, "the same form, so that a retry is no second action"


def test_a_reading_is_never_too_early(
    web_client: TestClient, web_session: Session, web_clock: Clock, stopwatch: Stopwatch
) -> None:
    """A gauge's line comes when it comes."""
    bring(web_session, web_clock, "done mark and cut")
    path = f"{BENCH}?step=dry%20reading"
    for value in ("465.4 g", "465.5 g"):
        reading = {"quantity": "total_weight", "stage": "dry, gripped", "value": value, "confirmed": value}
        assert web_client.post(BENCH, data={**form(web_client, "read", path), **reading}).status_code == 303
    assert texts(web_session)[-2:] == ["total_weight 465.4 g", "total_weight 465.5 g"]


def test_a_scan_is_never_too_early(web_client: TestClient, stopwatch: Stopwatch) -> None:
    answer = web_client.post(BENCH, data={**form(web_client, "scan"), "code": "Kestrel 54 mid"})
    assert answer.status_code == 200
    assert "the head of this ticket" in answer.text


def test_a_stopwatch_that_began_anew_refuses_nothing() -> None:
    require_rest({"action": ["pull"], "drawn": [str(stamp(5000.0))]}, 3.0)
    with pytest.raises(Exception, match="second tap"):
        require_rest({"action": ["pull"], "drawn": [str(stamp(999_999.9))]}, 1_000_000.4)  # it goes round in between
    for nonsense in ("", "x", "-3", "9" * 40):
        require_rest({"action": ["pull"], "drawn": [nonsense]}, 3.0)


IRREVERSIBLE = {
    "cut": ("sign cut", {"cut_length": "34.01 in"}),
    "glue": ("sign glue", {"temperature": "22 C"}),
    "sign": ("done weigh", {"gate": "cut"}),
    "trim": ("sign cut", {"amount": "1/8 in"}),
    "finish": ("sign release", {}),
}


@pytest.mark.parametrize("action", IRREVERSIBLE)
def test_what_cannot_be_undone_asks_for_a_look(
    web_client: TestClient, web_session: Session, web_clock: Clock, action: str
) -> None:
    last, fields = IRREVERSIBLE[action]
    bring(web_session, web_clock, last)
    before = texts(web_session)
    answer = post(web_client, BENCH, BENCH, action=action, key="k", **fields)
    assert answer.status_code == 422
    assert "nobody said so" in answer.text
    assert texts(web_session) == before
    answer = post(web_client, BENCH, BENCH, action=action, key="k", looked="yes", **fields)
    assert "nobody said so" not in answer.text
    assert len(texts(web_session)) > len(before) or "taper" in answer.text, "a taper tip is not trimmed"


def test_every_action_that_is_held_is_an_action_and_is_tried_here() -> None:
    assert set(IRREVERSIBLE) == HELD
    assert set(ACTIONS) >= HELD | NEVER_RESTS
    assert not HELD & NEVER_RESTS


def test_page_and_style_sheet_say_the_same_spans(web_client: TestClient) -> None:
    text, style = web_client.get(BENCH).text, (STATIC / "bench.css").read_text(encoding="utf-8")
    assert f'data-rest-ms="{REST_S * 1000:.0f}" data-hold-ms="{HOLD_S * 1000:.0f}"' in text
    assert f"animation: rest {REST_S:g}s" in style
    assert f"transition: background-size {HOLD_S:g}s" in style
