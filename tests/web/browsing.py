"""A real browser on the served page: tablets with touch, a server in this process whose clock moves only when told."""

from __future__ import annotations

import os
import re
import shutil
import threading
from collections.abc import Callable, Iterator
from types import TracebackType
from typing import Any

import pytest
import uvicorn
from fastapi import FastAPI
from playwright.sync_api import Browser, BrowserContext, Error, Page, Response, sync_playwright

from benchwork import JOB, Clock, actions
from clubwright.services.record.session import Session
from clubwright.web.second_tap import HOLD_S
from repository import ROOT

BENCH = f"/bench/{JOB}"
SNAP_TRIES = 8
SCREENSHOTS = ROOT / "build" / "screenshots"
LYING, STANDING = (1280, 800), (800, 1280)
"""The two ways a ten-inch tablet is put up at the bench."""

FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
NAMES = ("chromium", "chromium-browser", "google-chrome")
WAIT_MS = 10_000
SETTLED = "() => !document.querySelector('#bench form[data-busy], .htmx-request')"


def chromium_path() -> str:
    """Return the browser to use; a machine without one is told what to type, and the test fails."""
    found = os.environ.get("CHROMIUM") or next(filter(None, map(shutil.which, NAMES)), None)
    if found is None or not shutil.which(found):
        pytest.fail(
            "no Chromium: type `make .venv/ready-for-browser` (Debian, as root), or `sudo apt-get install chromium`, "
            "or set CHROMIUM to one that is there",
            pytrace=False,
        )
    return found


class Server:
    """The page on a free port of this computer, in a thread of this process."""

    def __init__(self, app: FastAPI) -> None:
        config = uvicorn.Config(
            app, host="127.0.0.1", port=0, log_level="error", ws="none", timeout_graceful_shutdown=1, access_log=False
        )
        self.server = uvicorn.Server(config)
        self.thread = threading.Thread(target=self.server.run, daemon=True)

    def __enter__(self) -> str:
        self.thread.start()
        while not self.server.started:
            self.thread.join(0.01)
            assert self.thread.is_alive(), "the server did not start"
        port = self.server.servers[0].sockets[0].getsockname()[1]
        return f"http://127.0.0.1:{port}"

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.server.should_exit = True
        self.thread.join(10)


class Tablet:
    """One tablet at the bench: taps, keys, and what it complained about."""

    def __init__(self, page: Page, address: str) -> None:
        self.page, self.address = page, address
        self.complaints: list[str] = []
        self.asked: list[str] = []
        page.set_default_timeout(WAIT_MS)
        page.on("console", lambda said: self.complaints.append(said.text) if said.type == "error" else None)
        page.on("pageerror", lambda error: self.complaints.append(str(error)))
        page.on("request", lambda request: self.asked.append(request.url))

    def open(self, path: str = BENCH) -> Tablet:
        self.page.goto(self.address + path)
        return self

    def settle(self) -> None:
        self.page.wait_for_function(SETTLED)

    def tap(self, name: str, *, within: str = "#bench") -> None:
        """Tap a button or link by its words, and wait until its answer is there."""
        found = self.page.locator(within).get_by_role("button", name=name, exact=True)
        link = self.page.locator(within).get_by_role("link", name=name, exact=True)
        found.or_(link).first.tap()
        self.settle()

    def do(self, button: str | None = None) -> Response:
        """Tap the card's button (or another of its foot by its words); return the answer to its form."""
        foot = self.page.locator("#bench .foot")
        wanted = foot.locator("button.primary") if button is None else foot.get_by_role("button", name=button)
        with self.page.expect_response(lambda answer: answer.request.method == "POST") as waiting:
            wanted.first.tap()
        self.settle()
        return waiting.value

    def awake(self) -> None:
        """Wait until the card that was just drawn has rested."""
        self.page.locator("#bench [data-resting]").first.wait_for(state="detached")

    def send(self) -> Response:
        """Do the card's action, whether its button is tapped or held; return the answer to its form."""
        held = self.page.locator("#bench button.hold")
        return self.hold(held.inner_text()) if held.count() else self.do()

    def hold(self, button: str, *, seconds: float = HOLD_S + 0.3) -> Response:
        """Press the card's button that is held, by touch; return the answer to its form."""
        with self.page.expect_response(lambda answer: answer.request.method == "POST") as waiting:
            self.press(button, seconds)
        self.settle()
        return waiting.value

    def press(self, button: str, seconds: float) -> None:
        """Put a finger on a button once it is awake, and lift it after some time."""
        found = self.page.locator("#bench").get_by_role("button", name=button)
        found.tap(trial=True)
        box = found.bounding_box()
        assert box is not None
        point = {"x": box["x"] + box["width"] / 2, "y": box["y"] + box["height"] / 2}
        touch = self.page.context.new_cdp_session(self.page)
        touch.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [point]})
        self.page.wait_for_timeout(seconds * 1000)
        touch.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
        touch.detach()

    def key_in(self, field: str, text: str) -> None:
        """Type a figure on the page's own keypad, by touch."""
        self.page.locator(f"#bench input[name='{field}']").tap()
        pad = self.page.locator(".keypad")
        pad.get_by_role("button", name="clear").tap()
        for key in keys(text):
            pad.get_by_role("button", name=key, exact=True).tap()

    def read(self, quantity: str, text: str) -> None:
        """Take a reading by touch: what was read, the figure, a look at the echo, and one tap that keeps it."""
        self.page.locator(f"#bench .chip:has(input[value='{quantity}'])").tap()
        self.key_in("value", text)
        self.page.locator("#bench #echo .understood").wait_for()
        self.page.locator("#bench button.primary", has_text="Keep the reading").wait_for()
        self.do()

    def title(self) -> str:
        return self.page.locator("#bench .card h2").inner_text()

    def believed(self, key: str) -> str:
        return self.page.locator(f"#bench .strip[data-key='{key}'] .value").inner_text()

    def until(self, title: str) -> None:
        """Wait until the card shows a step."""
        self.page.locator("#bench .card h2", has_text=title).wait_for()

    def snap(self, name: str, *, whole: bool = False) -> None:
        """Keep a picture as an artefact of the run."""
        SCREENSHOTS.mkdir(parents=True, exist_ok=True)
        for left in reversed(range(SNAP_TRIES)):
            try:
                self.page.screenshot(path=SCREENSHOTS / f"{name}.png", full_page=whole)
                return
            except Error:  # a headless Chromium on a busy machine sometimes has no picture to give yet
                if not left:
                    raise
                self.page.wait_for_timeout(300)


def keys(text: str) -> list[str]:
    """Take a figure apart into the keys of the keypad: digits one by one, words whole."""
    return re.findall(r"1/64|1/32|1/16|1/8|1/4|1/2|kg cm2|[a-z]{2,}|[A-Za-z]|[0-9./-]", text)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    with sync_playwright() as play:
        found = play.chromium.launch(executable_path=chromium_path(), args=FLAGS)
        yield found
        found.close()


@pytest.fixture
def served(web_app: FastAPI) -> Iterator[str]:
    """The address of the page, with the wedge's ticket taken."""
    with Server(web_app) as address:
        yield address


TabletMaker = Callable[..., Tablet]


@pytest.fixture
def make_tablet(browser: Browser, request: pytest.FixtureRequest) -> Iterator[TabletMaker]:
    """Make tablets; at the end none may have complained: a broken script, or anything the page's own policy forbids."""
    made: list[tuple[BrowserContext, Tablet, bool]] = []

    def make(
        address: str,
        size: tuple[int, int] = LYING,
        *,
        theme: str = "light",
        scripts: bool = True,
        quiet: bool = True,
    ) -> Tablet:
        options: dict[str, Any] = {"color_scheme": theme, "has_touch": True, "java_script_enabled": scripts}
        context = browser.new_context(viewport={"width": size[0], "height": size[1]}, **options)
        tablet = Tablet(context.new_page(), address)
        made.append((context, tablet, quiet))
        return tablet

    yield make
    complaints = [text for _, tablet, quiet in made for text in tablet.complaints if quiet or "Policy" in text]
    for context, _, _ in made:
        context.close()
    assert not complaints, complaints


@pytest.fixture
def tablet(served: str, make_tablet: TabletMaker) -> Tablet:
    """A tablet lying at the bench, with the wedge on its page."""
    return make_tablet(served).open()


def bring(session: Session, clock: Clock, last: str) -> None:
    """Do the demo's wedge, whose ticket is taken, as far as an action, by its name in `benchwork.actions`."""
    done = [line.text for line in session.job(JOB).trail]
    assert len(done) == 1, "a job is brought on from its ticket"
    for name, do, hours in actions()[1:]:
        clock.wait(hours=hours)
        do(session)
        if name == last:
            return
    raise AssertionError(f"no action is called {last}")
