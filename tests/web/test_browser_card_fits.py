"""What a card has to say is on the screen: its refusal above long buttons, and the button to hold above the fold."""

from __future__ import annotations

import pytest
from browsing import BENCH, LYING, STANDING, TabletMaker
from playwright.sync_api import Locator, expect

from benchwork import JOB
from clubwright.services import bench
from clubwright.services.desk import Desk

SIZES = pytest.mark.parametrize("size", [LYING, STANDING], ids=["lying", "standing"])


def box(item: Locator) -> dict[str, float]:
    found = item.bounding_box()
    assert found is not None
    return {**found, "end": found["y"] + found["height"]}


@SIZES
def test_a_misfit_says_why_in_the_card_and_leaves_it_its_room(
    served: str, make_tablet: TabletMaker, web_desk: Desk, size: tuple[int, int]
) -> None:
    bench.change_part(web_desk, JOB, "shaft", {"tip_diameter": ".335 in"})
    bench.change_part(web_desk, JOB, "head", {"bore_diameter": ".370 in"})
    tablet = make_tablet(served, size, quiet=False).open(f"{BENCH}?step=dry%20fit")
    page = tablet.page
    assert tablet.do().status == 409
    tablet.snap(f"misfit-{size[0]}")
    body, card = box(page.locator(".card-body")), box(page.locator(".card"))
    assert body["height"] >= card["height"] / 3
    refusal = page.locator(".card-body .finding", has_text="leaves a bond line")
    expect(refusal).to_have_count(1)
    assert body["y"] <= box(refusal)["y"] and box(refusal)["end"] <= min(body["end"], size[1])
    skip = page.locator(".foot .second")
    expect(skip).to_have_text("Skip: it does not fit")
    assert box(skip)["height"] <= 100
    tablet.open(f"{BENCH}?step=dry%20fit")
    expect(page.locator(".card-body .settle", has_text="leaves a bond line")).to_be_in_viewport()
    tablet.do("Skip: it does not fit")
    assert "leaves a bond line" in web_desk.job(JOB).trail[-1].text, "the record says all of it"
