"""The invented workshop that the web benchmark works at, and a tablet without a browser."""

from __future__ import annotations

import json
import re
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path
from typing import Any

import httpx

sys.path.insert(0, str(Path(__file__).parents[1] / "docs" / "pictures"))
from browser import Tablet, chromium

from clubwright.bootstrap import open_session
from clubwright.cli.demo import JOB, DemoClock, actions, demo_session, take_waiting
from clubwright.journal.facts import StepDone
from clubwright.services.record.session import Session, utc_text

__all__ = ["JOB", "OTHER_CLUBS", "Client", "Plain", "Tablet", "chromium", "empty_route", "workshop"]

Plain = dict[str, Any]
STEP = "dry%20reading"
SERVE = (str(Path(sys.executable).with_name("clubwright")), "serve", "--json", "--port", "0")
OTHER_CLUBS = ("T-0107", "T-0109")
"""Clubs of the workshop beside the wedge."""


class Client:
    """A tablet without a browser: it looks at a club's page, and sends a reading as the page's form does."""

    def __init__(self, address: str, job: str = JOB) -> None:
        headers = {"HX-Request": "true", "Origin": address}
        self.http, self.job = httpx.Client(base_url=address, headers=headers, timeout=60), job

    def form(self, key: str, value: str) -> Plain:
        text = self.http.get(f"/bench/{self.job}?step={STEP}").text
        csrf, seen = (re.findall(rf'name="{name}" value="([^"]*)"', text)[0] for name in ("csrf", "seen"))
        return {
            "action": "read",
            "csrf": csrf,
            "seen": seen,
            "key": key,
            "step": "dry reading",
            "gauge": "",
            "quantity": "swing_weight",
            "value": value,
            "confirmed": value,
            "stage": "dry, gripped",
        }

    def next_page(self) -> int:
        return self.http.get(f"/bench/{self.job}?step={STEP}&stay=yes").status_code

    def post(self, form: Plain) -> int:
        return self.http.post(f"/bench/{self.job}", data=form).status_code


@contextmanager
def workshop(others: int = 0) -> Iterator[tuple[str, Session]]:
    """Serve the invented workshop, its wedge at the dry reading and so many facts of another club in its record."""
    with tempfile.TemporaryDirectory() as folder, open_session(folder, by="demo") as real:
        clock = DemoClock()
        session = demo_session(real, clock)
        take_waiting(session)
        for action in actions(session, clock):
            if action.command.endswith('"tape"'):
                break
        done = StepDone(job=OTHER_CLUBS[-1], step="pull")
        for start in range(0, others, 1000):
            real.ledger.append(
                "bench", [done] * 1000, by="demo", at=utc_text(clock.now()), typed="", key=f"old-{start}"
            )
        with program(*SERVE, "--shop", folder) as address:
            yield address, session


@contextmanager
def program(*command: str) -> Iterator[str]:
    """Run a program that says its address in JSON and serves it; yields the address."""
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as found:
        try:
            assert found.stdout is not None
            said = ""
            while "}" not in said:
                said += found.stdout.readline()
            yield json.loads(said)["address"].rstrip("/")
        finally:
            found.kill()


def empty_route() -> AbstractContextManager[str]:
    """Serve a route that does nothing, in a program of its own as the bench page is."""
    return program(sys.executable, str(Path(__file__).with_name("empty_route.py")))
