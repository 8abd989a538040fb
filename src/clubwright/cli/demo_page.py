"""The demo's page: the invented workshop with a finished wedge and tickets that wait, served to a browser."""

from __future__ import annotations

import sys
from datetime import timedelta
from pathlib import Path

from clubwright.bootstrap import open_session
from clubwright.cli.demo import DemoClock, actions, demo_session, make_room, take_waiting, worked_in
from clubwright.cli.output import print_json, print_lines
from clubwright.cli.serving import address_of, listen, open_browser
from clubwright.services.record.session import Session
from clubwright.web.app import create_app
from clubwright.web.serving import run_app
from clubwright.web.settings import WebSettings

BEFORE = timedelta(hours=24)
"""So long before now the served demo begins: its wedge is done by now, and what waits is promised for days to come."""


def serve_demo(folder: Path, port: int, *, as_json: bool = False, anew: bool = False) -> None:
    """Make the invented workshop, with tickets that wait, and serve its page until Ctrl-C.

    A workshop of before in which somebody worked is served as it was left, unless `anew` says that it may go.

    Raises:
        NotPossible: when the port is taken (then the folder stays as it is), or the folder holds something else.
    """
    with listen(port) as listening:
        kept = not anew and worked_in(folder)
        if not kept:
            make_room(folder, anew=anew)
        with open_session(str(folder), by="bench") as real:
            if not kept:
                make_demo(real)
            address = address_of(listening)
            if as_json:
                print_json({"address": address, "folder": str(folder)})
            else:
                what = "as it was left" if kept else "a finished wedge, and tickets that wait"
                print_lines([f"An invented workshop is in {folder}: {what}.", ""])
                print_lines([f"The bench is at {address} (stop with Ctrl-C)."])
                print_lines(["What is done in it stays until --anew is said. Nothing real belongs into it."])
            sys.stdout.flush()
            open_browser(address)
            run_app(create_app(WebSettings(shop=str(folder)), real), listening)


def make_demo(real: Session) -> None:
    """Work the wedge and take the tickets that wait, by a clock that comes near today."""
    clock = DemoClock(real.now() - BEFORE)
    session = demo_session(real, clock)
    for _ in actions(session, clock):
        pass
    clock.time = real.now()
    take_waiting(session)
