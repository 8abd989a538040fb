"""Changing an order with a finger: who, why and the button are above the fold; the bench then says what is void."""

from __future__ import annotations

import pytest
from browsing import BENCH, LYING, STANDING, TabletMaker, bring
from playwright.sync_api import expect

from benchwork import JOB, Clock
from clubwright.services.record.session import Session


@pytest.mark.parametrize("size", [LYING, STANDING], ids=["lying", "standing"])
def test_a_changed_length_voids_the_signed_cut_before_the_eyes(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock, size: tuple[int, int]
) -> None:
    bring(web_session, web_clock, "sign cut")
    name = "lying" if size == LYING else "standing"
    tablet = make_tablet(served, size).open(f"{BENCH}/order")
    page = tablet.page
    button = page.get_by_role("button", name="Change the order")
    box = button.bounding_box()
    assert box is not None and box["y"] + box["height"] <= size[1]
    assert page.evaluate("document.documentElement.scrollWidth") <= size[0]
    tablet.snap(f"order-{name}")
    page.get_by_label("length", exact=True).first.fill("35 in")
    page.get_by_label("who said so").fill("R. Ashdown")
    page.get_by_label("why it is changed").fill("stands closer")
    button.click()
    page.wait_for_url(f"**/bench/{JOB}")
    page.goto(f"{served}{BENCH}?step=mark+and+cut")
    expect(page.locator(".card .void")).to_contain_text("void now: 34.010 in then, 33.760 in now")
    tablet.snap(f"order-void-{name}")
    page.goto(f"{served}{BENCH}/order")
    page.get_by_text("Adhesive, from its own data sheet").click()
    page.get_by_label("name", exact=True).fill("slow two-part")
    page.get_by_label("who said so").fill("Ann")
    page.get_by_label("why it is changed").fill("the tin is empty")
    button.click()
    expect(page.get_by_role("status").filter(has_text="Another adhesive")).to_be_visible()
    expect(page.get_by_label("ratio", exact=True)).to_have_value("")
    tablet.snap(f"order-adhesive-{name}")
