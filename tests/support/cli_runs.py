"""Commands run inside the test's own process, and a workshop that stands somewhere along the wedge."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import msgspec
import pytest

from benchwork import Clock, run_to, session_on
from clubwright.bootstrap import open_session
from clubwright.cli.main import run


class Ran(msgspec.Struct, frozen=True):
    """What one command gave."""

    code: int
    out: str
    err: str

    def body(self) -> Any:
        """The one JSON value on stdout."""
        return json.loads(self.out)


def clubwright(capsys: pytest.CaptureFixture[str], *arguments: str) -> Ran:
    capsys.readouterr()
    with pytest.raises(SystemExit) as left:
        run(list(arguments))
    out, err = capsys.readouterr()
    return Ran(int(left.value.code or 0), out, err)


def workshop(folder: Path, last: str) -> str:
    """Make a workshop whose record stands where it is after an action of the wedge."""
    with open_session(str(folder), by="Ann") as session:
        run_to(session_on(session.ledger, Clock()), Clock(), last)
    return str(folder)
