"""How many taps a club costs, counted in a real browser: the one long test of a count, every tap of it a finger's."""

from __future__ import annotations

from browsing import Tablet, TabletMaker
from playwright.sync_api import expect

from benchwork import JOB
from clubwright.services.record.session import Session

PULL_TO_JOINT = 30
"""Taps from the parts in the hand to the closed joint, where all parts are known (50 before they were counted)."""

TAPS = "() => Number(sessionStorage.getItem('taps') ?? 0)"
COUNT = f"""document.addEventListener("touchstart", () => sessionStorage.setItem("taps", ({TAPS})() + 1))"""
"""Counted where an event has bubbled up to: one that the driver of the browser tries out and takes back is no tap."""


def press_keys(tablet: Tablet, *keys: str) -> None:
    for key in keys:
        tablet.page.locator(".keypad").get_by_role("button", name=key, exact=True).tap()


def test_parts_known_from_pull_to_the_closed_joint(served: str, make_tablet: TabletMaker, web_session: Session) -> None:
    tablet = make_tablet(served)
    page = tablet.page
    page.add_init_script(COUNT)
    tablet.open()
    page.locator("label", has_text="right").locator("input").tap()
    tablet.do("Parts are right")
    tablet.do("Known: weights, angles, lengths")
    tablet.do("Done")
    tablet.do("Done")
    tablet.do("Keep the fit")
    tablet.hold("Sign: the marks agree")
    press_keys(tablet, "3", "4", "1/64")
    tablet.hold("Cut: keep this length")
    tablet.do("Tape is laid")
    page.locator("#bench input[name=value]").tap()
    press_keys(tablet, "D", "1", ".", "3")
    page.locator("#bench .goes-on").wait_for()
    tablet.do("Keep it, go on")
    tablet.do("Fitted, go on")
    press_keys(tablet, "4")
    page.locator("#bench input[name=part_b]").tap()
    press_keys(tablet, "2")
    page.locator("#bench input[name=temperature]").tap()
    press_keys(tablet, "2", "2", "C")
    tablet.do("Mixed")
    tablet.hold("Sign")
    page.get_by_role("button", name="as at the mix: 22 C").tap()
    tablet.hold("Head is glued")
    tablet.until("Let the joint cure")
    taps = page.evaluate(TAPS)
    job = web_session.job(JOB)
    assert job.glued_at is not None and not [line for line in job.trail if line.undone]
    assert job.document["shaft"]["cut_length"] == "34 1/64"
    assert 20 < taps <= PULL_TO_JOINT, f"{taps} taps"
    expect(page.locator("#bench .clock")).to_contain_text("left")
