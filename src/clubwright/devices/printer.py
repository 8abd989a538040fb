"""The workshop's printer: a command of the shop's settings that takes a paper on its standard input. CUPS has one, ``lp``.

The command runs without a shell, so nothing in it but its own words is ever carried out, and nothing of a ticket stands in
it. It has its time; then it is stopped, with whatever it started.
"""

from __future__ import annotations

import os
import shlex
import signal
import subprocess
import tempfile
from contextlib import suppress
from typing import IO

from clubwright.errors import NotPossible

LONGEST_S = 20.0
"""So long a command may take to hand a paper over, s: a spooler answers at once."""
MOST_SAID = 400
"""Characters kept of what a command says."""


def send_to_printer(command: str, paper: bytes, *, within_s: float = LONGEST_S) -> str:
    """Hand a paper to a printer's command, and return what the command said.

    Args:
        command: Its words, parted by spaces, quoted as in a shell; no variable and no pattern in it is filled in.
        paper: A file that the printer understands, such as a PDF.
        within_s: How long it may take, s.

    Raises:
        NotPossible: when it cannot be started, says no, or is not done in time.
    """
    words = shlex.split(command)
    # files and no pipes: a command that reads nothing, or says very much, holds nobody up
    with tempfile.TemporaryFile() as given, tempfile.TemporaryFile() as said:
        given.write(paper)
        given.seek(0)
        try:
            run = subprocess.Popen(words, stdin=given, stdout=said, stderr=said, start_new_session=True)  # noqa: S603 - the shop's own words, and no shell
        except OSError as refused:
            what = f'the printer\'s command "{words[0]}" cannot be started: {refused.strerror}'
            raise NotPossible(what, _MEND) from refused
        try:
            ended = run.wait(within_s)
        except subprocess.TimeoutExpired as late:
            _stop(run)
            what = f'the printer\'s command "{words[0]}" was not done in {within_s:g} s, and was stopped{_words(said)}'
            raise NotPossible(what, "Look whether the printer is on and takes jobs, then print again.") from late
        if ended != 0:
            what = f'the printer\'s command "{words[0]}" refused (it ended with {ended}){_words(said)}'
            raise NotPossible(what, _MEND)
        return _heard(said)


_MEND = (
    "Try the command by hand with a PDF, or write another one in [printer] of shop.toml; the PDF itself can be opened."
)


def _stop(run: subprocess.Popen[bytes]) -> None:
    with suppress(ProcessLookupError, PermissionError):
        os.killpg(run.pid, signal.SIGKILL)
    run.kill()
    run.wait()


def _words(said: IO[bytes]) -> str:
    heard = _heard(said)
    return f': "{heard}"' if heard else ""


def _heard(said: IO[bytes]) -> str:
    """Return the first of what a command said, on one line, without signs that cannot be seen."""
    said.seek(0)
    text = " ".join(said.read(4 * MOST_SAID).decode("utf-8", "replace").split())
    return "".join(sign for sign in text if sign.isprintable())[:MOST_SAID]
