"""The printer's command: it gets the paper, nothing of it goes through a shell, it has its time, and its refusal is told."""

from __future__ import annotations

import os
import shlex
import sys
import time
from pathlib import Path

import pytest

from clubwright.devices.printer import send_to_printer
from clubwright.errors import NotPossible


def program(text: str, *words: str) -> str:
    return shlex.join([sys.executable, "-c", text, *words])


def test_the_paper_comes_whole_on_standard_input_and_what_is_said_comes_back(tmp_path: Path) -> None:
    into = tmp_path / "spool file"
    paper = bytes(range(256)) * 5000
    copy = "import sys; open(sys.argv[1], 'wb').write(sys.stdin.buffer.read()); print('request id is\\n office-7')"
    assert send_to_printer(program(copy, str(into)), paper) == "request id is office-7"
    assert into.read_bytes() == paper


def test_no_shell_reads_the_command(tmp_path: Path) -> None:
    there = tmp_path / "there"
    said = send_to_printer(f"echo $HOME `id` ; touch {there} && echo > {there}", b"%PDF-")
    assert said == f"$HOME `id` ; touch {there} && echo > {there}"
    assert not there.exists()


def test_a_command_that_is_not_there_is_told_with_what_to_do() -> None:
    with pytest.raises(
        NotPossible, match=r'"no-such-printer" cannot be started: No such file.*\[printer\] of shop\.toml'
    ):
        send_to_printer("no-such-printer -d office", b"%PDF-")


def test_what_a_command_refuses_with_is_told_in_its_words() -> None:
    refuse = "import sys; print('lp: The printer or class does not exist.', file=sys.stderr); sys.exit(1)"
    with pytest.raises(NotPossible, match=r'ended with 1\): "lp: The printer or class does not exist\."'):
        send_to_printer(program(refuse), b"%PDF-")


def test_signs_that_cannot_be_seen_and_floods_are_cut_off() -> None:
    flood = "print('\\x1b[31mred\\x07' + 'x' * 2_000_000)"
    said = send_to_printer(program(flood), b"%PDF-")
    assert said.isprintable() and said.startswith("[31mred") and len(said) == 400


def test_a_command_that_hangs_is_stopped_in_time_with_all_that_it_started(tmp_path: Path) -> None:
    mark = tmp_path / "child"
    hang = (
        "import subprocess, sys, time;"
        "child = subprocess.Popen([sys.executable, '-c', 'import time; time.sleep(60)']);"
        "open(sys.argv[1], 'w').write(str(child.pid)); time.sleep(60)"
    )
    began = time.monotonic()
    with pytest.raises(NotPossible, match=r"was not done in 1\.5 s, and was stopped"):
        send_to_printer(program(hang, str(mark)), b"%PDF-", within_s=1.5)
    assert time.monotonic() - began < 10
    child = int(mark.read_text())
    deadline = time.monotonic() + 5
    while _runs(child) and time.monotonic() < deadline:
        time.sleep(0.05)
    assert not _runs(child)


def _runs(process: int) -> bool:
    """True while a process does something; one that ended and was not yet asked for is no longer at work."""
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    stat = Path(f"/proc/{process}/stat")
    return not (stat.exists() and stat.read_text().rpartition(")")[2].split()[0] == "Z")
