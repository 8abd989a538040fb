"""The demo's page: the invented workshop with a finished wedge and tickets that wait, served to a browser."""

from __future__ import annotations

import sys
from pathlib import Path

from clubwright.bootstrap import open_session
from clubwright.cli.demo import DemoClock, actions, demo_session, make_room, take_waiting
from clubwright.cli.output import print_json, print_lines
from clubwright.cli.serving import address_of, listen, open_browser
from clubwright.web.app import create_app
from clubwright.web.serving import run_app
from clubwright.web.settings import WebSettings


def serve_demo(folder: Path, port: int, *, as_json: bool = False) -> None:
    """Make the invented workshop anew, with tickets that wait, and serve its page until Ctrl-C.

    Raises:
        NotPossible: when the port is taken (then the folder stays as it is), or the folder holds something else.
    """
    with listen(port) as listening:
        make_room(folder)
        with open_session(str(folder), by="bench") as real:
            clock = DemoClock()
            session = demo_session(real, clock)
            for _ in actions(session, clock):
                pass
            take_waiting(session)
            address = address_of(listening)
            if as_json:
                print_json({"address": address, "folder": str(folder)})
            else:
                print_lines([f"An invented workshop is in {folder}: a finished wedge, and tickets that wait.", ""])
                print_lines([f"The bench is at {address} (stop with Ctrl-C)."])
                print_lines(["The next demo makes the workshop anew: nothing real belongs into it."])
            sys.stdout.flush()
            open_browser(address)
            run_app(create_app(WebSettings(shop=str(folder)), real), listening)
