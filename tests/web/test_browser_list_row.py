"""The list of tickets under a finger: anywhere on a row leads to the bench, and its button still to the ticket."""

from __future__ import annotations

import pytest
from browsing import TabletMaker
from playwright.sync_api import expect

from benchwork import JOB


@pytest.mark.parametrize(("part", "leads_to"), [(".standing", f"/bench/{JOB}"), ("> .button", f"/tickets/{JOB}")])
def test_a_row_opens_the_bench_and_its_button_the_ticket(
    served: str, make_tablet: TabletMaker, part: str, leads_to: str
) -> None:
    page = make_tablet(served).page
    page.goto(f"{served}/tickets")
    box = page.locator(f".tickets li {part}").first.bounding_box()
    assert box is not None
    page.touchscreen.tap(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    expect(page).to_have_url(f"{served}{leads_to}")
