"""A card whose figure has to be typed opens its keypad by itself, and neither a finger that lifts nor news takes it away."""

from __future__ import annotations

import re
import time
from threading import Event

from browsing import BENCH, TabletMaker, bring
from playwright.sync_api import Route, expect

from benchwork import JOB, Clock
from clubwright.services.actions import bench
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session

PAD = re.compile("^Keypad: ")
MIX = f"{BENCH}?step=mix"


def tell_another(session: Session) -> None:
    """Keep a fact from another tablet, which leaves the card of the mix as it is."""
    bench.note_reading(session, JOB, "total_weight", "465.4 g", stage="dry, gripped")


def test_the_finger_that_signed_lifts_from_its_own_button_and_taps_nothing_of_the_next_card(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock
) -> None:
    bring(web_session, web_clock, "done weigh")
    for step in answer_job(web_session.job(JOB), web_session.now()).steps:
        if step.key == "mark and cut":
            break
        if not step.done:
            bench.do_step(web_session, JOB, step.key)
    tablet = make_tablet(served).open(f"{BENCH}?step=mark%20and%20cut")
    tablet.page.evaluate("() => document.addEventListener('click', (event) => { window.tapped = event.target.name; })")
    tablet.hold("Sign: the marks agree")
    expect(tablet.page.locator("#bench input[name=cut_length]")).to_be_focused()
    tablet.page.wait_for_timeout(300)
    assert tablet.page.evaluate("() => window.tapped ?? null") is None
    expect(tablet.page.get_by_role("group", name=PAD)).to_be_visible()


def test_news_still_redraws_the_card_under_a_pad_on_which_nothing_is_typed(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock
) -> None:
    bring(web_session, web_clock, "done mark and cut")
    page = make_tablet(served).open(MIX).page
    pad = page.get_by_role("group", name=PAD)
    expect(pad).to_be_visible()
    facts = page.locator("#bench").get_attribute("data-facts")
    tell_another(web_session)
    expect(page.locator("#bench")).not_to_have_attribute("data-facts", str(facts))
    expect(pad).to_be_visible()
    expect(page.locator("#newer")).to_be_hidden()
    pad.get_by_role("button", name="4", exact=True).tap()
    tell_another(web_session)
    expect(page.locator("#newer")).to_be_visible()
    expect(page.locator("#bench input[name=part_a]")).to_have_value("4")
    pad.get_by_role("button", name="done").tap()
    expect(pad).to_be_hidden()


def test_what_is_typed_while_news_is_on_its_way_is_not_drawn_over(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock
) -> None:
    bring(web_session, web_clock, "done mark and cut")
    page = make_tablet(served).open(MIX).page
    held: list[Route] = []
    came = Event()

    def hold_back(route: Route) -> None:
        held.append(route)
        came.set()

    page.route("**/bench/**", hold_back)
    tell_another(web_session)
    until = time.monotonic() + 10
    while not came.is_set() and time.monotonic() < until:
        page.wait_for_timeout(50)
    page.locator(".keypad").get_by_role("button", name="4", exact=True).tap()
    held[0].continue_()
    expect(page.locator("#newer")).to_be_visible()
    page.wait_for_timeout(500)
    expect(page.locator("#bench input[name=part_a]")).to_have_value("4")
