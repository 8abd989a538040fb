"""Strangers at the door of a server that is up: half-sent requests, bodies by drops, a filled log, a borrowed address."""

from __future__ import annotations

import logging
import socket
import subprocess
import sys
import threading
import time
from collections.abc import AsyncIterator, Iterator
from contextlib import ExitStack, contextmanager, suppress
from datetime import UTC, datetime
from pathlib import Path

import httpx
import pytest
from fastapi import FastAPI
from starlette.requests import Request
from starlette.responses import PlainTextResponse, StreamingResponse

from clubwright.cli.serving import listen
from clubwright.errors import InputError
from clubwright.services.record.session import Session
from clubwright.web.app import create_app
from clubwright.web.guard.connections import MOST_OF_ONE, Connections, Guarded
from clubwright.web.guard.people import read_people, without_person, write_people
from clubwright.web.guard.quiet_log import AT_ONCE, LONGEST, FewLines
from clubwright.web.serving import proxies_of, server_of
from clubwright.web.settings import WebSettings
from webclient import PINS, add_people, post, sign_in, signed_in, tablet

HALF = b"GET /tickets HTTP/1.1\r\nHost: 127.0.0.1\r\nX-Half: "
DROPS = (
    b"POST /api/take HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 100000\r\nContent-Type: application/json\r\n\r\n"
)
SHORT_S = 0.4


@contextmanager
def serving(app: FastAPI, request_s: float = SHORT_S, listen_s: float = SHORT_S) -> Iterator[int]:
    """Serve an application as the program does, with short clocks; yields the port."""
    with listen(0) as listening:
        server = server_of(app, request_s=request_s, listen_s=listen_s)
        thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
        thread.start()
        while not server.started:
            thread.join(0.01)
        yield listening.getsockname()[1]
        server.should_exit = True
        thread.join(10)


def connected(port: int, sent: bytes) -> socket.socket:
    found = socket.create_connection(("127.0.0.1", port), timeout=5)
    found.sendall(sent)
    return found


def hung_up(link: socket.socket, within_s: float) -> bool:
    """True when the other end closes within this time."""
    link.settimeout(within_s)
    with suppress(ConnectionResetError):
        try:
            while link.recv(65536):
                pass
        except TimeoutError:
            return False
    return True


@pytest.mark.parametrize(
    "sent", [b"", HALF, DROPS, b"\x16\x03\x01"], ids=["nothing", "half headers", "half a body", "TLS"]
)
def test_a_request_that_is_not_whole_in_time_is_hung_up_on(web_app: FastAPI, sent: bytes):
    with serving(web_app) as port, connected(port, sent) as link:
        assert hung_up(link, 10 * SHORT_S)


@pytest.mark.parametrize(("start", "drop"), [(HALF, b"a"), (DROPS, b" ")])
def test_drops_do_not_lengthen_the_time(web_app: FastAPI, start: bytes, drop: bytes):
    with serving(web_app) as port, connected(port, start) as link:
        began = time.monotonic()
        with suppress(BrokenPipeError, ConnectionResetError):
            while time.monotonic() - began < 15 * SHORT_S:
                link.sendall(drop)
                time.sleep(SHORT_S / 8)
        assert time.monotonic() - began < 10 * SHORT_S


def test_three_hundred_half_sent_requests_shut_nobody_out(web_app: FastAPI):
    with serving(web_app, request_s=60) as port, ExitStack() as links:
        held = [links.enter_context(connected(port, HALF)) for _ in range(300)]
        assert httpx.get(f"http://127.0.0.1:{port}/tickets", timeout=10).status_code == 200
        gone = sum(hung_up(link, 0.01) for link in held)
        assert gone >= 300 - MOST_OF_ONE


def test_who_takes_nothing_of_an_answer_is_hung_up_on(tmp_path: Path, web_session: Session):
    app = create_app(WebSettings(shop=str(tmp_path)), web_session)
    much = 2**26

    async def lots() -> AsyncIterator[bytes]:
        for _ in range(much >> 20):
            yield b"x" * 2**20

    app.add_api_route("/much", lambda: StreamingResponse(lots()))
    with serving(app) as port, connected(port, b"GET /much HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n") as link:
        time.sleep(3 * SHORT_S)
        got = 0
        with suppress(ConnectionResetError, TimeoutError):
            while part := link.recv(2**20):
                got += len(part)
        assert got < much


class _Link:
    def __init__(self, *, asked: bool) -> None:
        self.asked, self.over = asked, False

    def hang_up(self) -> None:
        self.over = True


def test_whoever_is_being_answered_is_not_put_out_for_a_newcomer():
    among = Connections(most=3, most_of_one=2, proxies=lambda address: address == "proxy")
    busy, waiting, new, late = (_Link(asked=asked) for asked in (True, False, False, True))

    def let_in(link: _Link, address: str) -> bool:
        found: Guarded = link  # type: ignore[assignment]
        return among.let_in(found, address)

    assert let_in(busy, "a")
    assert let_in(waiting, "a")
    assert let_in(new, "a")
    assert (busy.over, waiting.over) == (False, True)
    among.gone(waiting)  # type: ignore[arg-type]
    new.asked = True
    assert not let_in(_Link(asked=False), "a"), "both of this address are being answered"
    assert let_in(late, "b")
    assert not let_in(_Link(asked=False), "c"), "all are being answered"
    more = Connections(most=9, most_of_one=2, proxies=lambda address: address == "proxy")
    assert all(more.let_in(_Link(asked=True), "proxy") for _ in range(9))  # type: ignore[arg-type]


def _where(app: FastAPI) -> FastAPI:
    async def where(request: Request) -> PlainTextResponse:
        return PlainTextResponse(f"{request.client.host if request.client else ''} {request.url.scheme}")

    app.add_api_route("/where", where)
    return app


def test_a_forwarded_address_is_believed_only_from_the_proxy_that_is_named(
    tmp_path: Path, web_session: Session, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setenv("FORWARDED_ALLOW_IPS", "*")
    said = {"X-Forwarded-For": "198.51.100.66, 192.0.2.7", "X-Forwarded-Proto": "https"}
    for named, seen in (
        ([], "127.0.0.1 http"),
        (["10.1.0.0/24"], "127.0.0.1 http"),
        (["127.0.0.1"], "192.0.2.7 https"),
    ):
        settings = WebSettings(shop=str(tmp_path), proxies=proxies_of(named))
        with serving(_where(create_app(settings, web_session)), request_s=30) as port:
            assert httpx.get(f"http://127.0.0.1:{port}/where", headers=said).text == seen


def test_a_proxy_is_named_by_its_address():
    with pytest.raises(InputError) as refused:
        proxies_of(["*", "proxy.example", "127.0.0.1"])
    assert len(refused.value.findings) == 2


def test_the_log_has_an_end():
    now = [0.0]
    few = FewLines(lambda: now[0])

    def line(text: str = "knock", **more: object) -> logging.LogRecord:
        return logging.makeLogRecord({"msg": text, "args": None, **more})

    assert sum(few.filter(line()) for _ in range(10_000)) == AT_ONCE
    now[0] = 10.0
    after = line("again")
    assert few.filter(after)
    assert after.getMessage() == f"({10_000 - AT_ONCE:.0f} lines were left out) again"
    assert not few.filter(line())
    now[0] = 1000.0
    try:
        raise ValueError("x" * 10 * LONGEST)
    except ValueError:
        long = line("y" * 10 * LONGEST, exc_info=sys.exc_info())
    assert few.filter(long)
    assert len(logging.Formatter().format(long)) < 3 * LONGEST


@contextmanager
def ended(program: subprocess.Popen[str]) -> Iterator[None]:
    """End a program whatever happens."""
    try:
        yield
    finally:
        program.terminate()
        program.wait(10)


@pytest.mark.skipif(sys.platform == "win32", reason="the limit of open files is POSIX's")
def test_a_served_workshop_with_few_files_to_open_goes_on_and_writes_little(tmp_path: Path):
    import resource

    def few_files() -> None:
        resource.setrlimit(resource.RLIMIT_NOFILE, (128, 128))

    with (tmp_path / "log").open("wb") as log:
        program = str(Path(sys.executable).with_name("clubwright"))
        command = [program, "serve", "--shop", str(tmp_path / "shop"), "--port", "0", "--json"]
        piped = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=log, preexec_fn=few_files, text=True)
        with piped as served, ended(served):
            assert served.stdout is not None
            address = next(line.split('"')[3] for line in served.stdout if '"address"' in line)
            port = int(address.rstrip("/").rsplit(":", 1)[1])
            with ExitStack() as links:
                for _ in range(150):
                    links.enter_context(connected(port, HALF))
                assert httpx.get(f"{address}tickets", timeout=10).status_code == 200
            for _ in range(100):
                with connected(port, b"\x16\x03\x01\r\n\r\n"):
                    pass
            assert httpx.get(f"{address}tickets", timeout=10).status_code == 200
    assert (tmp_path / "log").stat().st_size < 20_000


def test_who_signed_out_stays_out_after_a_restart_and_on_a_second_server(tmp_path: Path, web_session: Session):
    add_people(tmp_path)
    settings = WebSettings(shop=str(tmp_path), open_network=True)
    first, second = create_app(settings, web_session), create_app(settings, web_session)
    client = signed_in(first, "Wil")
    copied = dict(client.cookies)
    thief = tablet(second)
    thief.cookies.update(copied)
    assert thief.get("/tickets").status_code == 200
    post(client, "/sign-out")
    assert thief.get("/tickets").status_code == 303
    late = tablet(create_app(settings, web_session))
    late.cookies.update(copied)
    assert late.get("/tickets").status_code == 303
    other = tablet(create_app(settings, web_session))
    assert sign_in(other, "Wil", PINS["Wil"]).status_code == 303
    assert other.get("/tickets").status_code == 200
    assert (tmp_path / "signed-out").stat().st_mode & 0o077 == 0


def test_sessions_that_are_over_are_forgotten_and_a_damaged_file_lets_nobody_in_again(tmp_path: Path):
    from clubwright.web.guard.signed_out import SignedOut

    kept = SignedOut(tmp_path / "signed-out")
    kept.add("one", until=100, now=50.0)
    kept.add("two", until=300, now=200.0)
    assert (tmp_path / "signed-out").read_bytes() == b'{"two":300}'
    (tmp_path / "signed-out").write_bytes(b"{")
    assert "two" in kept


def test_a_removed_persons_live_link_ends(tmp_path: Path, web_session: Session):
    add_people(tmp_path)
    app = create_app(WebSettings(shop=str(tmp_path), open_network=True), web_session)
    cookie = signed_in(app, "Lena").cookies
    stays = signed_in(app, "Wil").cookies
    with (
        serving(app, request_s=30, listen_s=30) as port,
        httpx.stream("GET", f"http://127.0.0.1:{port}/live", cookies=dict(cookie), timeout=10) as link,
        httpx.stream("GET", f"http://127.0.0.1:{port}/live", cookies=dict(stays), timeout=10) as other,
    ):
        lines, others = link.iter_lines(), other.iter_lines()
        assert next(line for line in lines if "beat" in line)
        people = tmp_path / "people.toml"
        write_people(people, without_person(read_people(people), "Lena"))
        removed = datetime.now(UTC)
        for _ in lines:  # it ends, and is not only silent
            assert (datetime.now(UTC) - removed).total_seconds() < 5
        assert next(line for line in others if "beat" in line)
        answer = httpx.get(f"http://127.0.0.1:{port}/live", cookies=dict(cookie))
        assert answer.status_code == 401
