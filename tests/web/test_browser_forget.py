"""On a tablet a player is forgotten by a button that is held; a tap on it erases nothing."""

from __future__ import annotations

import pytest
from browsing import LYING, SCREENSHOTS, STANDING, TabletMaker
from playwright.sync_api import expect

from benchwork import JOB
from clubwright.services.record.session import Session

NAME = "Robin Ashdown (invented)"


@pytest.mark.parametrize("size", [LYING, STANDING])
def test_a_tap_erases_nothing_and_a_hold_does(
    served: str, make_tablet: TabletMaker, web_session: Session, size: tuple[int, int]
) -> None:
    tablet = make_tablet(served, size=size, quiet=False).open("/forget")
    page = tablet.page
    page.get_by_label("player, as a ticket says it").fill(NAME)
    page.get_by_role("button", name="Look what would be erased").click()
    erase = page.get_by_role("button", name="Erase for good")
    expect(erase).to_be_in_viewport()
    page.get_by_label("who asked for it").fill("the player, by letter")
    before = web_session.ledger.count()
    erase.click()
    expect(page.locator("#hold-how")).to_contain_text("Hold the button above until it is full")
    assert web_session.ledger.count() == before
    page.screenshot(path=SCREENSHOTS / f"forget-look-{size[0]}.png")
    box = erase.bounding_box()
    assert box is not None
    page.mouse.move(box["x"] + 20, box["y"] + 20)
    page.mouse.down()
    expect(page.get_by_role("heading", name="Erased")).to_be_visible()
    page.mouse.up()
    page.screenshot(path=SCREENSHOTS / f"forget-done-{size[0]}.png")
    assert NAME not in page.content()
    assert web_session.ledger.count() == before + 1
    assert NAME not in str(web_session.job(JOB))
