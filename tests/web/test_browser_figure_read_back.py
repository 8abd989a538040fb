"""What a typed figure goes against stands beside its field before the button is held, at both sizes of the screen."""

from __future__ import annotations

import pytest
from browsing import BENCH, LYING, STANDING, TabletMaker, bring
from playwright.sync_api import expect

from benchwork import JOB, Clock
from clubwright.services.record.session import Session


@pytest.mark.parametrize("size", [LYING, STANDING], ids=["lying", "standing"])
def test_a_short_cut_is_told_before_the_hold(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock, size: tuple[int, int]
) -> None:
    bring(web_session, web_clock, "sign cut")
    facts = web_session.ledger.count()
    tablet = make_tablet(served, size).open(f"{BENCH}?step=mark%20and%20cut")
    tablet.key_in("cut_length", "33.75")
    told = tablet.page.locator("#bench .cell:has(input[name=cut_length]) .figure-echo")
    expect(told).to_contain_text("short of the mark")
    expect(told).to_be_in_viewport(ratio=1)
    expect(tablet.page.locator("#bench button.hold")).to_be_in_viewport(ratio=1)
    tablet.snap(f"short-cut-{size[0]}")
    tablet.key_in("cut_length", "34 1/64")
    expect(told).to_contain_text("864.00 mm")
    expect(told).not_to_contain_text("mark")
    assert web_session.ledger.count() == facts and "cut_length" not in web_session.job(JOB).document["shaft"]


@pytest.mark.parametrize("size", [LYING, STANDING], ids=["lying", "standing"])
def test_a_bend_the_wrong_way_is_told_before_it_is_kept(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock, size: tuple[int, int]
) -> None:
    bring(web_session, web_clock, "grip")
    tablet = make_tablet(served, size).open(f"{BENCH}?step=loft%20and%20lie")
    tablet.key_in("lie", "64.5")
    told = tablet.page.locator("#bench .cell:has(input[name=lie]) .figure-echo")
    expect(told).to_contain_text("wrong way")
    expect(told).to_be_in_viewport(ratio=1)
    tablet.snap(f"wrong-way-{size[0]}")
