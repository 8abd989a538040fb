"""`make run`: the invented workshop on its page, in a program of its own, until Ctrl-C."""

from __future__ import annotations

import asyncio
import json
import os
import signal
import socket
import subprocess
import sys
import time
import tomllib
from concurrent.futures import ThreadPoolExecutor
from importlib.resources import files
from pathlib import Path

import httpx
import pytest

from clubwright.bootstrap import open_session
from clubwright.cli import serving
from clubwright.cli.demo import JOB, TICKET, WAITING
from clubwright.cli.demo_page import serve_demo
from clubwright.errors import NotPossible

ENDS_WITHIN_S = 15.0
"""Ctrl-C ends the page, with a live stream still open that would hold it for ever; a busy machine takes its time."""

ROOT = Path(__file__).parents[2]


def test_the_demo_is_served_until_ctrl_c(tmp_path: Path) -> None:
    command = [str(Path(sys.executable).with_name("clubwright")), "demo", "--serve", "--json", "--port", "0"]
    command += ["--folder", str(tmp_path / "demo")]
    surroundings = {**os.environ, "CLUBWRIGHT_NO_BROWSER": "1"}
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env=surroundings
    ) as program:
        try:
            assert program.stdout is not None
            said = ""
            while not said.rstrip().endswith("}"):
                line = program.stdout.readline()
                assert line, program.communicate()[1]
                said += line
            address = json.loads(said)["address"]
            tickets = httpx.get(f"{address}tickets", timeout=60).text
            assert "T-0107" in tickets
            assert "T-0109" in tickets
            assert "CLOSED" in httpx.get(f"{address}records", timeout=60).text.upper()
            assert "The job is closed" in httpx.get(f"{address}bench/{JOB}", timeout=60).text
            with httpx.stream("GET", f"{address}live", timeout=60) as stream:
                next(stream.iter_lines())
                program.send_signal(signal.SIGINT)
                assert program.wait(ENDS_WITHIN_S) == 0
        finally:
            program.kill()
        assert program.stderr is not None
        assert program.stderr.read() == "", "Ctrl-C is how it ends, not a fault"


def test_a_taken_port_is_told_before_the_folder_is_touched(tmp_path: Path) -> None:
    kept = tmp_path / TICKET
    kept.write_text("an earlier demo", encoding="utf-8")
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        with pytest.raises(NotPossible, match=r"cannot be used: .*name another port"):
            serve_demo(tmp_path, other.getsockname()[1])
    assert kept.read_text(encoding="utf-8") == "an earlier demo"
    with pytest.raises(NotPossible, match="99999"):
        serving.listen(99999)


def test_an_answer_does_not_wait_for_the_packet_before_it() -> None:
    """A connection without TCP_NODELAY holds a small packet back until the one before is acknowledged: 40 ms on Linux."""
    held: list[int] = []

    async def meet(listening: socket.socket) -> None:
        met = asyncio.Event()

        def look(_: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
            accepted = writer.get_extra_info("socket")
            held.append(accepted.getsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY))
            writer.close()
            met.set()

        async with await asyncio.start_server(look, sock=listening):
            _, writer = await asyncio.open_connection(*listening.getsockname())
            await asyncio.wait_for(met.wait(), 10)
            writer.close()

    # In a thread of its own: a browser test may have left its event loop in this one.
    with ThreadPoolExecutor(1) as pool:
        pool.submit(asyncio.run, meet(serving.listen(0))).result(timeout=20)
    assert held == [1]


def test_the_waiting_tickets_can_be_built_and_are_marked_as_invented(tmp_path: Path) -> None:
    from clubwright.cli.demo import DemoClock, demo_session, take_waiting
    from clubwright.services.jobs.job_answer import answer_job

    for name in (TICKET, *WAITING):
        text = (files("clubwright.demo") / name).read_text(encoding="utf-8")
        assert text.startswith("# Invented demo data")
        assert tomllib.loads(text)["ticket"]["invented"] == "yes"
        assert "reading" not in tomllib.loads(text), "nothing is read yet"
    with open_session(str(tmp_path), by="demo") as real:
        session = demo_session(real, DemoClock())
        take_waiting(session)
        for job in session.shop().jobs:
            worked = answer_job(session.job(job), session.now())
            assert not [item for item in worked.findings if item.severity == "error"]
            assert worked.steps[0].key == "pull"
            assert worked.cut is not None


def test_a_browser_is_opened_only_where_there_is_one(monkeypatch: pytest.MonkeyPatch) -> None:
    opened: list[str] = []

    class Browser:
        def open(self, address: str) -> None:
            opened.append(address)

    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.setattr("webbrowser.get", Browser)
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "BROWSER", "CLUBWRIGHT_NO_BROWSER"):
        monkeypatch.delenv(name, raising=False)
    assert not serving.open_browser("http://127.0.0.1:1/"), "no display"
    monkeypatch.setenv("DISPLAY", ":0")
    assert serving.open_browser("http://127.0.0.1:1/")
    monkeypatch.setenv("CLUBWRIGHT_NO_BROWSER", "1")
    assert not serving.open_browser("http://127.0.0.1:2/")
    for _ in range(100):
        if opened:
            break
        time.sleep(0.01)
    assert opened == ["http://127.0.0.1:1/"]


def test_the_front_door_runs_it() -> None:
    recipe = (ROOT / "Makefile").read_text(encoding="utf-8").partition("\nrun:")[2].partition("\n\n")[0]
    assert "clubwright demo --serve" in recipe
