"""A browser on the demo's page: the page in a thread of this process, a tablet to tap on, a picture of what it shows."""

from __future__ import annotations

import io
import os
import shutil
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import uvicorn
from fastapi import FastAPI
from PIL import Image
from playwright.sync_api import Browser, Page, sync_playwright

from clubwright.cli.demo import START
from clubwright.cli.serving import address_of, listen

NAMES = ("chromium", "chromium-browser", "google-chrome")
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--font-render-hinting=none",
]
COLOURS = 64
"""Of a picture's palette: ink, paper, two accents and the greys between them."""


@contextmanager
def served(app: FastAPI) -> Iterator[str]:
    """Serve the page on a free port of this computer; yields its address."""
    with listen(0) as listening:
        config = uvicorn.Config(app, access_log=False, log_level="error", ws="none", timeout_graceful_shutdown=1)
        server = uvicorn.Server(config)
        thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
        thread.start()
        while not server.started:
            if not thread.is_alive():
                raise RuntimeError("the page did not come up")
            time.sleep(0.01)
        try:
            yield address_of(listening).rstrip("/")
        finally:
            server.should_exit = True
            thread.join(10)


@contextmanager
def chromium() -> Iterator[Browser]:
    """Start the browser that `CHROMIUM` names, or the one that is installed."""
    found = os.environ.get("CHROMIUM") or next(filter(None, map(shutil.which, NAMES)), None)
    if found is None:
        sys.exit("No Chromium: install one (Debian: apt-get install chromium), or set CHROMIUM to one that is there.")
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=found, args=FLAGS)
        yield browser
        browser.close()


class Tablet:
    """One tablet at the bench.

    Args:
        browser: Which browser.
        address: Where the page is served.
        size: Width and height of its screen.
        night: Whether it asks for the night theme.
        still: Whether its own clock stands still, so that a countdown shows the same whenever its picture is taken.
    """

    def __init__(
        self, browser: Browser, address: str, size: tuple[int, int], *, night: bool = False, still: bool = True
    ) -> None:
        self.context = browser.new_context(
            viewport={"width": size[0], "height": size[1]}, color_scheme="dark" if night else "light", has_touch=True
        )
        self.page: Page = self.context.new_page()
        if still:
            self.page.clock.set_fixed_time(START)
        self.address = address

    def open(self, path: str) -> None:
        """Open a page; one with a link to the workshop's computer is waited for until that says so."""
        self.page.goto(self.address + path)
        if path.startswith("/bench/") and not path.endswith("/shaft"):
            self.page.get_by_text("live", exact=True).wait_for()

    def key_in(self, field: str, keys: list[str]) -> None:
        """Type a figure on the page's keypad, key by key."""
        self.page.locator(f"#bench input[name='{field}']").tap()
        for key in keys:
            self.page.locator(".keypad").get_by_role("button", name=key, exact=True).tap()

    def picture(self, *, whole: bool = False) -> Image.Image:
        """Return what the tablet shows; the whole page where it is longer than the screen."""
        seen = self.page.screenshot(full_page=whole, animations="disabled", caret="hide")
        return Image.open(io.BytesIO(seen)).convert("RGB")

    def close(self) -> None:
        """Put the tablet away."""
        self.context.close()


def keep(picture: Image.Image, file: Path) -> None:
    """Write a picture small: a palette without dither, which line work does not miss."""
    palette = picture.quantize(colors=COLOURS, method=Image.Quantize.MEDIANCUT, dither=Image.Dither.NONE)
    palette.save(file, optimize=True)
