"""The link to the workshop's computer: nothing leaves it, a reload changes nothing, a lost link shows, nothing is lost."""

from __future__ import annotations

import os
import re
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from browsing import BENCH, Tablet, TabletMaker, bring
from fastapi import FastAPI
from playwright.sync_api import Route, expect

from benchwork import JOB, Clock
from clubwright.services.actions import bench
from clubwright.services.record.session import Session

SHOWS_MS = 3_000
"""A lost link shows within three seconds."""


class Apart:
    """The page as a program of its own, that can be held, killed and started again."""

    def __init__(self, shop: Path) -> None:
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            self.port = free.getsockname()[1]
        self.shop, self.address = shop, f"http://127.0.0.1:{self.port}"
        self.start()

    def start(self) -> None:
        command = [str(Path(sys.executable).with_name("clubwright")), "serve"]
        command += ["--shop", str(self.shop), "--port", str(self.port)]
        self.process = subprocess.Popen(command, stdout=subprocess.DEVNULL)
        for _ in range(200):
            with socket.socket() as knock:
                if knock.connect_ex(("127.0.0.1", self.port)) == 0:
                    return
            time.sleep(0.1)
        raise AssertionError("the page did not come up")

    def stop(self) -> None:
        self.process.send_signal(signal.SIGCONT)
        self.process.kill()
        self.process.wait()


@pytest.fixture
def apart(tmp_path: Path, web_session: Session) -> Iterator[Apart]:
    found = Apart(tmp_path)
    yield found
    found.stop()


def facts(session: Session) -> list[str]:
    return [line.text for line in session.job(JOB).trail]


def test_nothing_leaves_this_computer(tablet: Tablet) -> None:
    for path in ("/tickets", "/records", BENCH):
        tablet.open(path)
    tablet.page.get_by_text("live", exact=True).wait_for()
    assert len(tablet.asked) > 10
    assert not [url for url in tablet.asked if not url.startswith((f"{tablet.address}/", "data:"))]


def test_a_reload_in_mid_build_changes_nothing(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock
) -> None:
    bring(web_session, web_clock, "read swing_weight D1.3 dry, gripped")
    tablet = make_tablet(served).open()
    seen = tablet.page.locator("#bench .strips").inner_text()
    title = tablet.title()
    tablet.page.reload()
    assert (tablet.title(), tablet.page.locator("#bench .strips").inner_text()) == (title, seen)


def test_another_bench_wrote_and_the_page_follows_by_itself(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock
) -> None:
    tablet = make_tablet(served).open()
    assert tablet.title().startswith("Take out the parts")
    bring(web_session, web_clock, "done pull")
    tablet.until("Weigh")


def test_a_beat_that_is_older_than_the_page_does_not_load_it_anew(
    served: str, make_tablet: TabletMaker, web_app: FastAPI, web_session: Session
) -> None:
    """The count behind a beat may be a quarter of a second old; a page that was just loaded knows more."""

    async def old_count() -> int:
        return web_session.ledger.count() - 1

    web_app.state.watch.facts = old_count
    tablet = make_tablet(served).open()
    tablet.page.get_by_text("live", exact=True).wait_for()
    tablet.page.wait_for_timeout(1500)
    assert [url for url in tablet.asked if url.endswith(BENCH)] == [f"{served}{BENCH}"]


def test_the_focus_stays_where_it_was_when_another_tablet_keeps_something(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock
) -> None:
    bring(web_session, web_clock, "done mark and cut")
    page = make_tablet(served).open(f"{BENCH}?step=dry%20reading").page
    chip = page.locator("#bench input[name=quantity][value=total_weight]")
    chip.focus()
    before = page.locator("#bench").get_attribute("data-facts")
    bench.change_part(web_session, JOB, "grip", {"mass": "49.7 g"})
    expect(page.locator("#bench")).not_to_have_attribute("data-facts", before or "")
    expect(chip).to_be_focused()


def test_the_focus_never_moves_to_another_lines_undo(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock
) -> None:
    bring(web_session, web_clock, "done pull")
    page = make_tablet(served).open().page
    page.locator(".trail .bar button[name=fact]").focus()
    before = page.locator("#bench").get_attribute("data-facts")
    bench.change_part(web_session, JOB, "grip", {"mass": "49.7 g"})
    expect(page.locator("#bench")).not_to_have_attribute("data-facts", before or "")
    assert page.evaluate("document.activeElement.name ?? ''") != "fact"


def test_a_link_that_hangs_shows_and_comes_back_by_itself(apart: Apart, make_tablet: TabletMaker) -> None:
    tablet = make_tablet(apart.address, quiet=False).open()
    page = tablet.page
    button = page.locator("#bench button.primary")
    page.get_by_text("live", exact=True).wait_for()
    expect(button).to_be_enabled()
    os.kill(apart.process.pid, signal.SIGSTOP)
    page.locator("html.stale").wait_for(timeout=SHOWS_MS + 300)
    expect(page.locator("#lost")).to_be_visible()
    expect(button).to_be_disabled()
    struck = page.locator("#bench .value.live").first.evaluate("item => getComputedStyle(item).textDecorationLine")
    assert struck == "line-through", "colour is not the only sign"
    tablet.snap("link-lost")
    os.kill(apart.process.pid, signal.SIGCONT)
    page.locator("html:not(.stale)").wait_for()
    expect(button).to_be_enabled()
    expect(page.locator("#lost")).to_be_hidden()


def test_a_save_into_a_dead_link_is_not_lost_and_not_doubled(
    apart: Apart, make_tablet: TabletMaker, web_session: Session, web_clock: Clock
) -> None:
    """The computer is off and on again: what was typed is still there, and the same tap keeps it once."""
    bring(web_session, web_clock, "done mark and cut")
    tablet = make_tablet(apart.address, quiet=False).open(f"{BENCH}?step=dry%20reading")
    page = tablet.page
    tablet.key_in("value", "D1.3")
    page.locator("#echo .understood").wait_for()
    key = page.locator("#card-form input[name=key]").get_attribute("value")
    before = facts(web_session)
    apart.stop()
    page.locator("#bench button.primary").tap()
    expect(page.locator("#not-saved")).to_contain_text("NOT SAVED")
    expect(page.locator("#bench input[name=value]")).to_have_value("D1.3")
    tablet.snap("not-saved")
    apart.start()
    page.locator("html:not(.stale)").wait_for(timeout=15_000)
    expect(page.locator("#card-form input[name=key]")).to_have_value(str(key))
    expect(page.locator("#bench input[name=value]")).to_have_value("D1.3")
    expect(page.locator("#bench button.primary")).to_be_enabled()
    tablet.do("Keep the reading")
    expect(page.locator("#not-saved")).to_be_hidden()
    assert facts(web_session) == [*before, "swing_weight D1.3"]


def test_an_answer_that_is_lost_is_no_second_reading(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock
) -> None:
    """The reading arrives, its answer does not: tapping again with the same key finds it kept."""
    bring(web_session, web_clock, "done mark and cut")
    tablet = make_tablet(served, quiet=False).open(f"{BENCH}?step=dry%20reading")
    page = tablet.page

    def lose(route: Route) -> None:
        if route.request.method == "POST":
            route.fetch()
            route.abort()
        else:
            route.fallback()

    page.route(re.compile("/bench/"), lose)
    tablet.key_in("value", "D1.3")
    page.locator("#echo .understood").wait_for()
    page.locator("#bench button.primary").tap()
    expect(page.locator("#not-saved")).to_contain_text("NOT SAVED")
    page.unroute(re.compile("/bench/"))
    assert facts(web_session)[-1] == "swing_weight D1.3"
    tablet.do("Keep the reading")
    assert facts(web_session).count("swing_weight D1.3") == 1
    expect(page.locator("#not-saved")).to_be_hidden()
