"""Alarms ring until they are put out: through a reload, on every tablet, silent where a tablet is set so."""

from __future__ import annotations

from browsing import TabletMaker, bring
from playwright.sync_api import Page, expect

from benchwork import JOB, Clock
from clubwright.services.actions import bench
from clubwright.services.jobs.clocks import RINGS_S
from clubwright.services.record.session import Session

LOCKS = """navigator.wakeLock.request = (kind) => {
  window.locked = (window.locked ?? 0) + 1;
  return Promise.resolve(Object.assign(new EventTarget(), { release: () => Promise.resolve() }));
};"""
RANG = "Number(document.documentElement.dataset.rang ?? 0)"


def rings_on(page: Page) -> None:
    """Wait until two more peals were heard."""
    heard = page.evaluate(RANG)
    page.wait_for_function(f"(heard) => {RANG} >= heard + 2", arg=heard)


def test_the_pot_life_rings_through_a_reload_until_another_tablet_puts_it_out(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock
) -> None:
    bring(web_session, web_clock, "mix")
    one = make_tablet(served)
    one.page.add_init_script(LOCKS)
    one.open()
    alarm = one.page.locator("#alarm")
    one.page.wait_for_function("() => window.locked === 1")  # while a clock runs the screen stays on
    expect(alarm).to_be_hidden()
    web_clock.wait(minutes=31)
    one.open("/tickets")
    expect(alarm).to_be_visible()
    expect(alarm).to_contain_text(f"{JOB}: the pot life is over")
    one.page.locator("h1").first.tap()  # browsers let a page sound once it was touched
    rings_on(one.page)
    one.open()
    expect(alarm).to_be_visible()
    other = make_tablet(served).open("/records")
    other.page.get_by_role("button", name="Put it out").tap()
    expect(other.page.locator("#alarm")).to_be_hidden()
    expect(alarm).to_be_hidden()
    one.open()
    one.page.wait_for_load_state("networkidle")
    expect(alarm).to_be_hidden()


def test_a_silent_tablet_shows_it_and_stays_silent(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock
) -> None:
    bring(web_session, web_clock, "glue")
    web_clock.wait(hours=16)
    tablet = make_tablet(served).open()
    page = tablet.page
    expect(page.locator("#alarm")).to_contain_text("cured by its table")
    page.get_by_role("button", name="Sound on").tap()  # it lies on the bar, which covers the head of the page
    tablet.open()
    expect(page.locator("#sound")).to_have_text("Silent")
    expect(page.locator("#alarm")).to_be_visible()
    page.locator("h1").first.tap()
    page.wait_for_timeout(1500)
    assert page.evaluate(RANG) == 0
    bench.do_step(web_session, JOB, "cure")  # acted on: nothing is left to ring
    expect(page.locator("#alarm")).to_be_hidden()
    expect(page.locator(".top #sound")).to_be_visible()


def test_a_promise_rings_and_old_news_does_not(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock
) -> None:
    page = make_tablet(served).open("/tickets").page
    web_clock.time = web_clock.time.replace(
        day=4, hour=15, minute=1
    )  # taken on a Monday, promised for Wednesday at 15:00
    page.reload()
    expect(page.locator("#alarm")).to_contain_text(f"{JOB}: was promised for now")
    web_clock.wait(seconds=RINGS_S)
    page.reload()
    page.wait_for_load_state("networkidle")
    expect(page.locator("#alarm")).to_be_hidden()
