"""Who may do what on the page: on the bench's own computer, and over the workshop's network."""

from __future__ import annotations

import stat
import threading
from datetime import timedelta
from http.cookies import SimpleCookie
from pathlib import Path
from typing import Any

import pytest
from fastapi import FastAPI

from benchwork import JOB, Clock, session_on
from clubwright.errors import InputError, NotAllowed, NotPossible, StepNotReady
from clubwright.services.actions import bench
from clubwright.services.checks.roles import ROLES, Role
from clubwright.services.record.session import Session
from clubwright.web.app import create_app
from clubwright.web.guard.access import open_access
from clubwright.web.guard.limits import FIELDS
from clubwright.web.guard.people import (
    pin_findings,
    pin_is_right,
    read_people,
    with_person,
    without_person,
    write_people,
)
from clubwright.web.guard.throttle import Buckets, WrongPins
from clubwright.web.settings import WebSettings
from webclient import LOOPBACK, PINS, TestClient, post, sign_in, signed_in, tablet, token_of

BENCH = f"/bench/{JOB}"
STEP = {"action": "step", "step": "weigh", "key": "k-1", "seen": "1"}
HAND = {"action": "pull", "hand": "right", "ordered": "right", "step": "pull", "key": "k-2", "seen": "1"}


def kinds(session: Session) -> list[str]:
    return [line.kind for line in session.job(JOB).trail]


# --- On loopback: the person at the bench, and nobody else ---------------------------------------------------------


def test_the_bench_itself_needs_no_pin_and_may_sign(web_client: TestClient, web_session: Session) -> None:
    assert post(web_client, BENCH, BENCH, **STEP).status_code == 303
    assert web_session.job(JOB).trail[-1].by == "bench"
    assert web_session.job(JOB).steps_done == ("weigh",)


@pytest.mark.parametrize("wrong", [None, "", "0" * 64, "\u00e9"])
def test_a_form_without_the_token_does_nothing(web_client: TestClient, web_session: Session, wrong: str | None) -> None:
    token_of(web_client)
    sent = STEP if wrong is None else {**STEP, "csrf": wrong}
    answer = web_client.post(BENCH, data=sent)
    assert answer.status_code == 403
    assert "Load the page anew" in answer.text
    assert kinds(web_session) == ["ticket taken"]


def test_the_token_of_another_browser_does_nothing(
    web_app: FastAPI, web_client: TestClient, web_session: Session
) -> None:
    other = TestClient(web_app, base_url=LOOPBACK)
    token = token_of(other)
    token_of(web_client)
    assert web_client.post(BENCH, data={**STEP, "csrf": token}).status_code == 403
    assert kinds(web_session) == ["ticket taken"]


def test_a_visit_that_somebody_made_up_gets_a_new_one(web_app: FastAPI, web_client: TestClient) -> None:
    cookie = web_app.state.access.visit_cookie
    web_client.cookies.set(cookie, "0" * 32 + "." + "0" * 64)
    answer = web_client.get("/tickets")
    assert cookie in answer.headers["set-cookie"]


@pytest.mark.parametrize(
    "headers",
    [
        {"Origin": "https://elsewhere.example"},
        {"Origin": "null"},
        {"Origin": "http://[::"},
        {"Origin": "http://127.0.0.1:3000"},
        {"Sec-Fetch-Site": "cross-site"},
        {"Sec-Fetch-Site": "same-site"},
    ],
    ids=str,
)
def test_another_page_of_the_same_browser_cannot_post(
    web_client: TestClient, web_session: Session, headers: dict[str, str]
) -> None:
    form = {**STEP, "csrf": token_of(web_client)}
    assert web_client.post(BENCH, data=form, headers=headers).status_code == 403
    assert kinds(web_session) == ["ticket taken"]
    good = {"Origin": LOOPBACK, "Sec-Fetch-Site": "same-origin"}
    assert web_client.post(BENCH, data=form, headers=good).status_code == 303


@pytest.mark.parametrize(
    "host", ["bench.example", "127.0.0.1.bench.example", "192.0.2.7", "", "localhost@evil.example"]
)
def test_a_foreign_name_that_leads_here_is_refused(web_client: TestClient, host: str) -> None:
    assert web_client.get("/tickets", headers={"Host": host}).status_code == 421


@pytest.mark.parametrize("host", ["localhost", "LOCALHOST:8484", "127.0.0.1:9", "[::1]", "[::1]:8484"])
def test_the_loopback_names_are_answered(web_client: TestClient, host: str) -> None:
    assert web_client.get("/tickets", headers={"Host": host}).status_code == 200


def test_two_workshops_on_one_computer_keep_their_cookies_apart(tmp_path: Path) -> None:
    names = set()
    for place in ("a", "b"):
        (tmp_path / place).mkdir()
        names.add(open_access(WebSettings(shop=str(tmp_path / place)), {}).visit_cookie)
    assert len(names) == 2


def test_cookies_are_not_for_scripts_nor_for_other_sites(
    tmp_path: Path, web_session: Session, web_app: FastAPI
) -> None:
    plain = TestClient(web_app, base_url=LOOPBACK).get("/tickets").headers.get_list("set-cookie")
    https = create_app(WebSettings(shop=str(tmp_path), secure_cookies=True), web_session)
    secure = TestClient(https, base_url=LOOPBACK).get("/tickets").headers.get_list("set-cookie")
    assert plain
    assert secure
    for text in [*plain, *secure]:
        assert "httponly" in text.lower()
        assert "samesite=strict" in text.lower()
        assert ("secure" in text.lower()) is (text in secure)


@pytest.mark.parametrize(
    "back", ["https://elsewhere.example", "//elsewhere.example", "/\\elsewhere.example", "/a\r\nX: y", "tickets"]
)
def test_nobody_is_led_to_another_site(web_client: TestClient, back: str) -> None:
    assert post(web_client, "/theme", theme="night", back=back).headers.get("location", "/") == "/"


def test_no_route_changes_anything_but_by_post(web_app: FastAPI) -> None:
    """The gate looks for the token where the method is POST, so every route that changes something must be one."""
    methods = {method for route in routes(web_app) for method in getattr(route, "methods", None) or ()}
    assert methods == {"GET", "HEAD", "POST"}


def routes(app: FastAPI) -> list[Any]:
    found, waiting = [], list(app.routes)
    while waiting:
        route = waiting.pop()
        found.append(route)
        inner = getattr(route, "original_router", None) or getattr(route, "router", None)
        waiting += list(getattr(inner, "routes", []))
    assert len(found) > 20
    return found


# --- Headers and sizes ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("method", "path", "status"),
    [("GET", "/tickets", 200), ("GET", "/nowhere", 404), ("POST", "/theme", 403), ("GET", "/static/bench.css", 200)],
)
def test_every_answer_carries_the_strict_headers(web_client: TestClient, method: str, path: str, status: int) -> None:
    answer = web_client.request(method, path)
    assert answer.status_code == status
    policy = answer.headers["content-security-policy"]
    assert "default-src 'none'" in policy
    assert "frame-ancestors 'none'" in policy
    assert "unsafe" not in policy
    assert answer.headers["x-content-type-options"] == "nosniff"
    assert answer.headers["referrer-policy"] == "same-origin"
    assert answer.headers["cross-origin-opener-policy"] == "same-origin"
    assert "geolocation=()" in answer.headers["permissions-policy"]


def test_pages_are_kept_nowhere_and_hashed_files_for_ever(web_client: TestClient) -> None:
    page = web_client.get("/tickets")
    assert page.headers["cache-control"] == "no-store"
    style = page.text.split('rel="stylesheet" href="')[1].split('"')[0]
    assert "immutable" in web_client.get(style).headers["cache-control"]
    assert web_client.get("/static/bench.css").headers["cache-control"] == "no-cache"
    assert web_client.get("/static/gone.css?v=1").headers["cache-control"] == "no-store"


def test_a_fault_of_ours_is_a_page_with_the_same_headers(web_app: FastAPI) -> None:
    @web_app.get("/broken")
    def broken() -> None:
        raise RuntimeError("a fault")

    client = TestClient(web_app, base_url=LOOPBACK, raise_server_exceptions=False)
    answer = client.get("/broken")
    assert answer.status_code == 500
    assert "a fault" not in answer.text
    assert "default-src 'none'" in answer.headers["content-security-policy"]


def test_too_much_is_refused(web_client: TestClient, web_session: Session) -> None:
    form = {**STEP, "csrf": token_of(web_client)}
    assert web_client.post(BENCH, data={**form, "note": "x" * 300_000}).status_code == 413
    in_parts = web_client.post(
        BENCH,
        content=(b"a" * 1000 for _ in range(300)),
        headers={"Content-Type": "application/x-www-form-urlencoded"},
    )
    assert in_parts.status_code == 413
    assert web_client.post(BENCH, data={**form, "note": "x" * 70_000}).status_code == 422
    assert web_client.post(BENCH, data={**form, **{f"f{n}": "1" for n in range(FIELDS + 1)}}).status_code == 422
    assert web_client.post(BENCH, data={**form, "n" * 200: "1"}).status_code == 422
    assert web_client.get("/tickets?" + "x" * 3000).status_code == 422
    assert kinds(web_session) == ["ticket taken"]


@pytest.mark.parametrize("note", ["\x00", "a\x1bb", "\x7f"])
def test_control_characters_are_refused_with_a_finding(web_client: TestClient, web_session: Session, note: str) -> None:
    answer = post(web_client, BENCH, BENCH, **{**STEP, "note": note})
    assert answer.status_code == 422
    assert "note: it is not plain text" in answer.text
    assert kinds(web_session) == ["ticket taken"]


def test_a_file_that_is_no_text_and_a_broken_form_are_refused(web_client: TestClient) -> None:
    token = token_of(web_client)
    picture = {"file": ("picture.png", b"\x89PNG\r\n\x1a\n\xff")}
    assert web_client.post("/tickets", data={"csrf": token}, files=picture).status_code == 422
    broken = {"Content-Type": "multipart/form-data; boundary=x"}
    assert web_client.post("/tickets", content=b"--x\r\nnonsense", headers=broken).status_code in (403, 422)
    assert web_client.post("/tickets", content=b"{}", headers={"Content-Type": "text/plain"}).status_code == 415


@pytest.mark.parametrize("path", ["/bench/%00", "/static/%00", "/bench/x%1b", "/tickets?q=%00"])
def test_control_characters_in_an_address_are_refused(web_client: TestClient, path: str) -> None:
    assert web_client.get(path).status_code == 422


# --- Over the network -----------------------------------------------------------------------------------------------


def test_the_network_stays_closed_while_nobody_may_sign_off(tmp_path: Path, web_session: Session) -> None:
    settings = WebSettings(shop=str(tmp_path), open_network=True)
    with pytest.raises(NotPossible, match='clubwright person NAME --role "sign off"'):
        create_app(settings, web_session)
    write_people(tmp_path / "people.toml", with_person({}, "Wil", "work", PINS["Wil"]))
    with pytest.raises(NotPossible, match="nobody may sign off"):
        create_app(settings, web_session)


def test_a_shared_record_needs_a_secret_and_a_place_for_its_people(tmp_path: Path) -> None:
    settings = WebSettings(shop="postgresql://bench.example/shop", open_network=True)
    with pytest.raises(NotPossible, match="no folder for its people"):
        open_access(settings, {})
    people = tmp_path / "people.toml"
    write_people(people, with_person({}, "Sol", "sign off", PINS["Sol"]))
    given = {"CLUBWRIGHT_PEOPLE": str(people)}
    with pytest.raises(NotPossible, match="no folder for its secret"):
        open_access(settings, given)
    with pytest.raises(NotPossible, match="at least 32"):
        open_access(settings, {**given, "CLUBWRIGHT_SECRET": "short"})
    assert open_access(settings, {**given, "CLUBWRIGHT_SECRET": "r" * 32}).open_network


def test_nobody_sees_anything_before_signing_in(open_app: FastAPI) -> None:
    client = tablet(open_app)
    for path in ("/", "/tickets", BENCH, f"/records/{JOB}/sheet.pdf", "/records"):
        answer = client.get(path)
        assert answer.status_code == 303, path
        assert answer.headers["location"].startswith("/sign-in")
    for path in ("/live", "/api/jobs", f"/api/jobs/{JOB}", "/openapi.json"):
        assert client.get(path).status_code == 401, path
    assert client.get(BENCH, headers={"HX-Request": "true"}).status_code == 401
    assert post(client, BENCH, "/sign-in", **STEP).status_code == 401
    assert client.get("/static/bench.css").status_code == 200
    assert "Robin Ashdown" not in client.get("/sign-in").text


def test_a_person_signs_in_works_and_signs_out(open_app: FastAPI, web_session: Session) -> None:
    client = tablet(open_app)
    answer = sign_in(client, "Wil", PINS["Wil"], back=BENCH)
    assert (answer.status_code, answer.headers["location"]) == (303, BENCH)
    assert "Wil · Sign out" in client.get("/tickets").text
    assert post(client, BENCH, BENCH, **STEP).status_code == 303
    assert web_session.job(JOB).trail[-1].by == "Wil"
    copied = dict(client.cookies)
    assert post(client, "/sign-out").headers["location"] == "/sign-in"
    assert client.get("/tickets").status_code == 303
    thief = tablet(open_app)
    thief.cookies.update(copied)
    assert thief.get("/tickets").status_code == 303, "a copy of the cookie outlives the sign-out"


def test_signing_in_needs_the_token_too(open_app: FastAPI) -> None:
    client = tablet(open_app)
    assert client.post("/sign-in", data={"name": "Wil", "pin": PINS["Wil"]}).status_code == 403


def test_the_token_is_bound_to_who_is_signed_in(open_app: FastAPI, web_session: Session) -> None:
    client = tablet(open_app)
    before = token_of(client, "/sign-in")
    sign_in(client, "Wil", PINS["Wil"])
    assert client.post(BENCH, data={**STEP, "csrf": before}).status_code == 403
    assert kinds(web_session) == ["ticket taken"]


def test_the_session_cookie_is_strict(open_app: FastAPI) -> None:
    answer = sign_in(tablet(open_app), "Wil", PINS["Wil"])
    name = open_app.state.access.session_cookie
    text = next(text for text in answer.headers.get_list("set-cookie") if text.startswith(name))
    cookie = SimpleCookie(text)[name]
    assert cookie["httponly"]
    assert (cookie["samesite"].lower(), cookie["max-age"], cookie["path"]) == ("strict", "36000", "/")


@pytest.mark.parametrize("change", ["name", "mark", "empty", "text"])
def test_a_changed_session_cookie_is_nobody(open_app: FastAPI, change: str) -> None:
    client = signed_in(open_app, "Wil")
    name = open_app.state.access.session_cookie
    text, _, mark = client.cookies[name].partition(".")
    other = signed_in(open_app, "Sol").cookies[name].partition(".")
    changed = {"name": f"{other[0]}.{mark}", "mark": f"{text}.{'0' * 64}", "empty": ".", "text": "é.é".encode().hex()}
    client.cookies.clear()
    client.cookies.set(name, changed[change])
    assert client.get("/tickets").status_code == 303


def test_a_session_ends_with_the_working_day(open_app: FastAPI, web_clock: Clock) -> None:
    client = signed_in(open_app, "Wil")
    web_clock.wait(hours=9, minutes=59)
    assert client.get("/tickets").status_code == 200
    web_clock.wait(minutes=2)
    assert client.get("/tickets").status_code == 303


def test_a_removed_person_and_an_old_pin_are_out_at_the_next_tap(open_app: FastAPI, tmp_path: Path) -> None:
    wil, lena = signed_in(open_app, "Wil"), signed_in(open_app, "Lena")
    assert (wil.get("/tickets").status_code, lena.get("/tickets").status_code) == (200, 200)
    path = tmp_path / "people.toml"
    people = with_person(without_person(read_people(path), "Lena"), "Wil", "work", "604815")
    write_people(path, people)
    assert lena.get("/tickets").status_code == 303
    assert wil.get("/tickets").status_code == 303
    assert sign_in(tablet(open_app), "Wil", "604815").status_code == 303


# --- Roles ----------------------------------------------------------------------------------------------------------


def test_who_may_look_cannot_post(open_app: FastAPI, web_session: Session) -> None:
    lena = signed_in(open_app, "Lena")
    assert lena.get(BENCH).status_code == 200
    answer = post(lena, BENCH, BENCH, **STEP)
    assert answer.status_code == 403
    assert "Lena may look here" in answer.text
    ours = {"X-Clubwright": "1", "Idempotency-Key": "k-9"}
    assert lena.post(f"/api/jobs/{JOB}/steps", json={"step": "weigh"}, headers=ours).status_code == 403
    assert kinds(web_session) == ["ticket taken"]


def test_who_may_work_cannot_sign(open_app: FastAPI, web_session: Session) -> None:
    wil, sol = signed_in(open_app, "Wil"), signed_in(open_app, "Sol")
    assert post(wil, BENCH, BENCH, **HAND).status_code == 303
    sign = {"action": "sign", "gate": "cut", "key": "k-3", "seen": "3", "looked": "yes"}
    assert post(wil, BENCH, BENCH, **sign).status_code == 403
    assert "gate signed" not in kinds(web_session)
    assert post(sol, BENCH, BENCH, **{**sign, "key": "k-4"}).status_code == 303
    signature = web_session.job(JOB).trail[-1]
    assert (signature.kind, signature.by) == ("gate signed", "Sol")
    undo = {"action": "undo", "fact": str(signature.sequence), "key": "k-5"}
    assert post(wil, BENCH, BENCH, **undo).status_code == 403
    assert "cut" in web_session.job(JOB).gates_signed


ACTIONS = {
    "ticket": (
        "work",
        lambda session: bench.take_ticket(session, {**session.job(JOB).document, "ticket": OTHER}, "test"),
    ),
    "part": ("work", lambda session: bench.change_part(session, JOB, "head", {"mass": "296.0 g"})),
    "order": (
        "sign off",
        lambda session: bench.change_order(session, JOB, {"target.lie": "63 deg"}, said_by="A", reason="b"),
    ),
    "reading": ("work", lambda session: bench.note_reading(session, JOB, "swing_weight", "D1.3", stage="dry, gripped")),
    "weights": ("work", lambda session: bench.fit_weights(session, JOB, [])),
    "trim": ("work", lambda session: bench.trim_shaft(session, JOB, "butt", "1/8 in")),
    "cut": ("work", lambda session: bench.cut_shaft(session, JOB, "34.01 in")),
    "bend": ("work", lambda session: bench.bend_head(session, JOB, lie="63.5 deg")),
    "tape": ("work", lambda session: bench.lay_tape(session, JOB, "build-up", "2", "2.9 g")),
    "mix": ("work", lambda session: bench.mix_adhesive(session, JOB, "4.0 g", "2.0 g", "22 C", "lot 7")),
    "step": ("work", lambda session: bench.do_step(session, JOB, "weigh")),
    "undo": ("work", lambda session: bench.undo(session, JOB, 3)),
    "sign": ("sign off", lambda session: bench.sign_gate(session, JOB, "cut")),
    "undo a signature": ("sign off", lambda session: bench.undo(session, JOB, 4)),
    "bring a signature back": ("sign off", lambda session: bench.undo(session, JOB, 5)),
}
OTHER = {"id": "T-0055", "label": "54 wedge", "kind": "wedge", "hand": "right", "job": "build"}


@pytest.mark.parametrize("role", ROLES)
@pytest.mark.parametrize("name", ACTIONS)
def test_every_bench_action_asks_for_its_role(web_session: Session, web_clock: Clock, name: str, role: Role) -> None:
    """Asked for in the services, so that no page, program or form can go around it."""
    needed, act = ACTIONS[name]
    bench.change_part(web_session, JOB, "head", {"hand": "right"})
    bench.do_step(web_session, JOB, "pull")
    bench.sign_gate(web_session, JOB, "cut")
    if name == "bring a signature back":
        bench.undo(web_session, JOB, 4)
    before = web_session.ledger.count()
    person = Session(
        ledger=web_session.ledger, site="bench", by="Wil", now=web_session.now, new_key=web_session.new_key, role=role
    )
    if ROLES.index(role) < ROLES.index(needed):  # type: ignore[arg-type]
        with pytest.raises(NotAllowed, match=f'this needs "{needed}"|this needs "work"'):
            act(person)
        assert web_session.ledger.count() == before
    else:
        act(person)
        assert web_session.ledger.count() == before + 1


@pytest.mark.parametrize("role", ROLES)
def test_a_grip_asks_for_its_role_before_it_says_what_is_missing(
    web_session: Session, web_clock: Clock, role: Role
) -> None:
    person = Session(
        ledger=web_session.ledger, site="bench", by="Wil", now=web_clock, new_key=web_session.new_key, role=role
    )
    with pytest.raises(NotAllowed if role == "look" else StepNotReady):
        bench.slide_grip(person, JOB)


def test_an_undo_that_names_no_bench_asks_for_the_role_of_what_it_may_mean(
    web_session: Session, web_clock: Clock
) -> None:
    """The fact is another bench's: it has that number there, and this bench has none so high."""
    bench.change_part(web_session, JOB, "head", {"hand": "right"})
    bench.do_step(web_session, JOB, "pull")
    bench.sign_gate(web_session, JOB, "cut")
    van = session_on(web_session.ledger, web_clock, site="van", by="Wil")
    wil = Session(ledger=van.ledger, site="van", by="Wil", now=van.now, new_key=van.new_key, role="work")
    with pytest.raises(NotAllowed):
        bench.undo(wil, JOB, 4)


# --- PINs -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "pin",
    [
        "",
        "12345",
        "123456",
        "987654",
        "890123",
        "111111",
        "121212",
        "123123",
        "112211",
        "48291a",
        "４８２９１３",
        "1" * 13,
    ],
)
def test_a_pin_that_anybody_would_try_is_refused(pin: str) -> None:
    found = pin_findings(pin)
    assert found
    assert not pin or pin not in found[0].sentence(), "the PIN is never repeated"


@pytest.mark.parametrize("pin", [*PINS.values(), "2718281828"])
def test_other_pins_are_taken(pin: str) -> None:
    assert not pin_findings(pin)


def test_all_findings_about_a_person_at_once() -> None:
    with pytest.raises(InputError) as refused:
        with_person({}, " ", "boss", "1234")
    assert [finding.where for finding in refused.value.findings] == ["name", "PIN", "--role"]
    people = with_person({}, "Wil", "work", PINS["Wil"])
    with pytest.raises(InputError, match="could be taken for"):
        with_person(people, "wil", "work", PINS["Wil"])
    with pytest.raises(InputError, match="There are: Wil"):
        without_person(people, "Will")


def test_pins_are_hashed_in_a_file_that_only_this_account_reads(tmp_path: Path) -> None:
    path = tmp_path / "people.toml"
    path.touch(mode=0o644)
    write_people(path, with_person({}, 'Sol "S"', "sign off", PINS["Sol"]))
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert PINS["Sol"] not in path.read_text()
    person = read_people(path)['Sol "S"']
    assert person.pin.startswith("$argon2id$")
    assert pin_is_right(person, PINS["Sol"])
    assert not pin_is_right(person, PINS["Wil"])
    assert not pin_is_right(None, PINS["Sol"])
    assert list(tmp_path.iterdir()) == [path], "a half-written copy was left"


@pytest.mark.parametrize("name", ["people.toml", "secret"])
def test_a_file_that_others_can_read_keeps_the_network_closed(tmp_path: Path, name: str) -> None:
    write_people(tmp_path / "people.toml", with_person({}, "Sol", "sign off", PINS["Sol"]))
    settings = WebSettings(shop=str(tmp_path), open_network=True)
    open_access(settings, {})
    assert stat.S_IMODE((tmp_path / "secret").stat().st_mode) == 0o600
    (tmp_path / name).chmod(0o640)
    with pytest.raises(NotPossible, match=f"chmod 600 .*{name}"):
        open_access(settings, {})


def test_a_damaged_people_file_is_said(tmp_path: Path) -> None:
    path = tmp_path / "people.toml"
    path.touch(mode=0o600)
    path.write_text('[person.Wil]\nrole = "boss"\npin = ""\n')
    with pytest.raises(NotPossible, match="cannot be read"):
        read_people(path)


def test_the_record_and_the_journal_hold_no_pin(open_app: FastAPI, tmp_path: Path) -> None:
    sol = signed_in(open_app, "Sol")
    post(sol, BENCH, BENCH, **STEP)
    record = b"".join(path.read_bytes() for path in tmp_path.glob("record.sqlite*"))
    assert b"Sol" in record
    assert PINS["Sol"].encode() not in record
    assert b"argon2" not in record


# --- Wrong PINs -----------------------------------------------------------------------------------------------------


def test_wrong_pins_wait_longer_and_longer(open_app: FastAPI, web_clock: Clock) -> None:
    client = tablet(open_app)
    for _ in range(3):
        assert sign_in(client, "Wil", "000001").status_code == 403
    waits = []
    for _ in range(12):
        answer = sign_in(client, "Wil", PINS["Wil"])
        assert answer.status_code == 429, "the right PIN must wait too, else a wrong one could be told from it"
        waits.append(int(answer.headers["retry-after"]))
        web_clock.wait(seconds=waits[-1])
        assert sign_in(client, "Wil", "000001").status_code == 403
    assert waits[:5] == [2, 4, 8, 16, 32]
    assert waits[-1] == max(waits) == 900
    web_clock.wait(seconds=900)
    assert sign_in(client, "Wil", PINS["Wil"]).status_code == 303
    assert sign_in(tablet(open_app), "Wil", "000001").status_code == 403, "a right PIN clears the count"


def test_a_person_is_guarded_on_every_device_and_a_device_for_every_person(open_app: FastAPI) -> None:
    for place in range(3):
        assert sign_in(tablet(open_app, f"192.0.2.{place}"), "wil", "000001").status_code == 403
    assert sign_in(tablet(open_app, "192.0.2.99"), "Wil", PINS["Wil"]).status_code == 429
    one = tablet(open_app, "192.0.2.50")
    for name in ("Ann", "Ben", "Cal"):
        assert sign_in(one, name, "000001").status_code == 403
    assert sign_in(one, "Sol", PINS["Sol"]).status_code == 429
    assert sign_in(tablet(open_app, "192.0.2.51"), "Sol", PINS["Sol"]).status_code == 303


def test_an_unknown_name_is_answered_like_a_wrong_pin(open_app: FastAPI) -> None:
    client = tablet(open_app)
    unknown, wrong = sign_in(client, "Nobody", "000001"), sign_in(client, "Wil", "000001")
    assert unknown.text.replace("Nobody", "Wil").replace(token(unknown.text), token(wrong.text)) == wrong.text


def token(text: str) -> str:
    return text.split('name="csrf" value="')[1].split('"')[0]


def test_many_tries_at_once_do_not_slip_in(web_clock: Clock) -> None:
    """Each is counted before it is checked: 40 at once get three free tries between them."""
    wrong, free = WrongPins(), []
    start = threading.Barrier(40)

    def try_once() -> None:
        start.wait()
        free.append(wrong.begin(("person wil",), web_clock.time) == 0)

    threads = [threading.Thread(target=try_once) for _ in range(40)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sum(free) == 3


def test_wrong_pins_are_forgotten_after_half_a_day(web_clock: Clock) -> None:
    wrong = WrongPins()
    for _ in range(3):
        assert wrong.begin(("a",), web_clock.time) == 0
    assert wrong.begin(("a",), web_clock.time) == 2
    assert wrong.begin(("a",), web_clock.time + timedelta(hours=12, seconds=1)) == 0


def test_a_clock_set_back_locks_nobody_out_for_long(web_clock: Clock) -> None:
    wrong = WrongPins()
    for _ in range(4):
        wrong.begin(("a",), web_clock.time)
        web_clock.wait(seconds=60)
    earlier = web_clock.time - timedelta(days=3)
    wait = wrong.begin(("a",), earlier)
    assert 0 < wait <= 900
    assert wrong.begin(("a",), earlier + timedelta(seconds=wait)) == 0


def test_no_flood_of_names_fills_the_memory(web_clock: Clock) -> None:
    wrong, buckets = WrongPins(), Buckets(burst=2, per_second=1)
    for number in range(5000):
        wrong.begin((f"person {number}",), web_clock.time)
        buckets.take(f"device {number}", web_clock.time)
    assert len(wrong._wrong) <= 2000
    assert len(buckets._left) <= 2000


def test_a_device_that_asks_without_end_is_slowed_and_eight_tablets_are_not(
    open_app: FastAPI, web_clock: Clock
) -> None:
    eight = [signed_in(open_app, "Wil", f"192.0.2.{place}") for place in range(8)]
    for _ in range(20):
        web_clock.wait(seconds=0.5)
        assert {client.get("/tickets").status_code for client in eight} == {200}
    statuses = [eight[0].get("/sign-in").status_code for _ in range(450)]
    assert 429 in statuses
    assert eight[1].get("/tickets").status_code == 200
    web_clock.wait(seconds=10)
    assert eight[0].get("/tickets").status_code == 200
