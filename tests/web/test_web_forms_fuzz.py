"""Random forms sent to the page: whatever is typed, the answer is a page with a finding, never a fault."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from benchwork import JOB, Clock, document, run_to, session_on
from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from clubwright.store.engine import open_engine
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate
from clubwright.web.actions import ACTIONS
from clubwright.web.app import create_app
from clubwright.web.settings import WebSettings
from webclient import LOOPBACK, TestClient, token_of

GOOD = {
    "step": "weigh", "hand": "right", "ordered": "right", "code": "Kestrel 54 mid", "amount": "1/8 in",
    "cut_length": "34.01 in", "quantity": "swing_weight", "value": "D3.5", "stage": "finished", "gauge": "swing scale",
    "repeats": "2", "confirmed": "D3.5", "choice": "keep", "reading": "2", "reason": "read twice", "weights": "port 6",
    "part_a": "4.0 g", "part_b": "2.0 g", "temperature": "22 C", "batch": "lot 7", "loft": "54 deg", "lie": "63.5 deg",
    "bounce": "9.75 deg", "gate": "cut", "fact": "2", "note": "as usual", "seen": "1", "choose": "mine", "skips": "pull",
    "head.mass": "296.4 g", "shaft.mass": "125.2 g", "grip.cap": "0.14 in", "tape:build-up": "2.8 g",
    "id": "T-0091", "text": "[ticket]", "player": "Robin (invented)", "label": "52 wedge", "priority": "1", "like": "T-0054",
    "promised": "Friday 12:00", "do": "take", "add": "weight", "words": "52 wedge, D3", "asked": "52 wedge, D3",
    "from_words": "yes", "left_out": "yes", "ticket.id": "T-0092", "ticket.kind": "wedge", "target.length": "35 in",
    "weight.0.mass": "2 g", "weight.1.name": "port 9", "tape.0.layers": "1", "rest": "", "key": "a-key",
    "theme": "night", "back": "/tickets", "name": "Wil", "pin": "730164",
}  # fmt: skip
"""Each field of the page, filled as it might be."""

NASTY = [
    "", "35,5", "nan", "inf", "-1", "0", "9", "²", "٣", "1e999", "1/0 in", "9" * 5000, "no such thing", "{{ 7*7 }}", "<b>",
    "[ticket]\nid = 'T-0093'", "[[", "a = 1", "D4 ± D9", "1 mm ± 0 mm", "=", "±", "1e308 kg", "0 K", "-500 C", "x" * 900,
    "0x10", "1_0", "１２", "½", "\u202e", "T-0054", "/../..", "\r\n", "É" * 50, "mark and cut", "glue", "theirs",
]  # fmt: skip
NAMES = st.one_of(
    st.sampled_from(sorted(GOOD)), st.sampled_from(["nowhere.key", "weight.².mass", "weight.9999.mass", "", "tape:"])
)
WRONG = st.dictionaries(
    NAMES, st.lists(st.one_of(st.sampled_from(NASTY), st.text(max_size=20)), min_size=1, max_size=2), max_size=4
)


@st.composite
def forms(draw: st.DrawFn) -> dict[str, list[str]]:
    """A form whose fields are good ones, but for a few that are wrong, doubled, missing or strange."""
    good = {name: [value] for name, value in GOOD.items()}
    for name in draw(st.lists(st.sampled_from(sorted(GOOD)), max_size=6)):
        good.pop(name, None)
    return {**good, **draw(WRONG)}


FORMS = forms()
VALUES = st.one_of(st.sampled_from(NASTY), st.sampled_from(sorted(GOOD.values())), st.text(max_size=20))
STANDS = ["take", "grip"]
"""Where the wedge is when the form comes: just taken in, and gripped."""

CALM = settings(
    max_examples=40,
    deadline=None,
    derandomize=True,
    database=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
KEYS = itertools.count(1)
PLACES = [
    "/tickets", "/tickets/new/file", "/tickets/new/form", f"/tickets/{JOB}", f"/records/{JOB}/again", "/theme", "/sign-in",
    "/sign-out",
]  # fmt: skip
ADDRESSES = [
    f"/bench/{JOB}", f"/bench/{JOB}/echo", f"/bench/{JOB}/belief", "/tickets", "/tickets/new/form", f"/tickets/{JOB}",
    "/records", f"/records/{JOB}", f"/records/{JOB}/again", "/sign-in", "/bench/x%2f..%2fy", "/bench/²",
]  # fmt: skip
QUERIES = [
    "consider",
    "step",
    "quantity",
    "stage",
    "value",
    "q",
    "back",
    "words",
    "like",
    "kind",
    "state",
    "since",
    "until",
    "sheet",
]


@pytest.fixture(params=STANDS)
def anywhere(request: pytest.FixtureRequest, tmp_path: Path, played: None) -> Iterator[tuple[TestClient, Session]]:
    engine = open_engine(f"sqlite:///{tmp_path / 'record.sqlite'}")
    migrate(engine)
    clock = Clock()
    session = session_on(Ledger(engine), clock, site="bench", by="bench")
    if request.param == "take":
        bench.take_ticket(session, document(), "wedge-54.toml")
    else:
        run_to(session, clock, request.param)
    app = create_app(WebSettings(shop=str(tmp_path)), session)
    yield TestClient(app, base_url=LOOPBACK, follow_redirects=False), session
    engine.dispose()


def sent(client: TestClient, path: str, form: dict[str, Any]) -> None:
    """Post; a fault of ours would be raised here, since the client hands on what the server raises."""
    answer = client.post(path, data=form)
    assert answer.status_code < 500, answer.text
    assert answer.status_code in (200, 303, 403, 404, 405, 409, 422), answer.status_code


@CALM
@given(form=FORMS, action=st.one_of(st.sampled_from(sorted(ACTIONS)), VALUES), keyed=st.booleans())
def test_any_form_sent_to_the_bench_is_answered(
    anywhere: tuple[TestClient, Session], form: dict[str, list[str]], action: str, keyed: bool
) -> None:
    client, session = anywhere
    more = {"key": f"fuzz-{next(KEYS)}"} if keyed else {}
    sent(client, f"/bench/{JOB}", {**form, "action": action, "csrf": token_of(client), **more})
    assert client.get(f"/bench/{JOB}").status_code in (200, 404, 422)
    assert session.ledger.verify() == ()


@CALM
@given(form=FORMS, path=st.sampled_from(PLACES))
def test_any_form_sent_elsewhere_is_answered(
    anywhere: tuple[TestClient, Session], form: dict[str, list[str]], path: str
) -> None:
    client, _ = anywhere
    sent(client, path, {**form, "csrf": token_of(client)})


@CALM
@given(query=st.dictionaries(st.sampled_from(QUERIES), VALUES, max_size=4), path=st.sampled_from(ADDRESSES))
def test_any_address_is_answered(anywhere: tuple[TestClient, Session], query: dict[str, str], path: str) -> None:
    client, _ = anywhere
    assert client.get(path, params=query).status_code in (200, 303, 404, 409, 422)


@pytest.mark.parametrize("number", ["²", "٣", "9" * 5000, "-1", "1_0", "1.0", "２"])
@pytest.mark.parametrize("field", ["fact", "reading", "seen"])
def test_numbers_of_the_trail_are_plain_digits(
    web_client: TestClient, web_session: Session, field: str, number: str
) -> None:
    """What `isdigit` takes and `int` does not; and an undo never falls back to the last line when its number is wrong."""
    bench.do_step(web_session, JOB, "weigh")
    action = {"fact": "undo", "reading": "decide", "seen": "read"}[field]
    good = {
        "quantity": "swing_weight",
        "stage": "dry, gripped",
        "value": "D1.3",
        "confirmed": "D1.3",
        "reason": "misread",
    }
    form = {**good, "action": action, field: number, "key": "k", "csrf": token_of(web_client)}
    answer = web_client.post(f"/bench/{JOB}", data=form)
    assert answer.status_code < 500
    if field != "seen":
        assert answer.status_code == 422
        assert "is no number of the trail" in answer.text
        assert web_session.ledger.count() == 2
