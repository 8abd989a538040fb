"""A card at arm's length: its figures as they are done, its stage as buttons, and what is only foreseen looks so."""

from __future__ import annotations

from browsing import BENCH, TabletMaker, bring
from playwright.sync_api import expect

from benchwork import JOB, Clock
from clubwright.club.stages import DRY_NO_GRIP
from clubwright.services.actions import bench
from clubwright.services.record.session import Session


def test_the_cut_is_told_in_one_fraction_for_each_mark(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock
) -> None:
    bring(web_session, web_clock, "done weigh")
    page = make_tablet(served).open(f"{BENCH}?step=mark%20and%20cut").page
    expect(page.locator("#bench .big-number")).to_have_text(["34 1/64 in", "35 7/64 in"])
    page.locator("#bench .figures summary").tap()
    expect(page.locator("#bench .figures")).to_contain_text("34 1/64 in less 0.006 in (34.010 in, 863.85 mm)")


def test_what_is_expected_follows_the_stage_that_is_tapped(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock
) -> None:
    bring(web_session, web_clock, "done mark and cut")
    page = make_tablet(served).open(f"{BENCH}?step=dry%20reading").page
    note = page.locator("#bench .chip:has(input[value='swing_weight']) .chip-note")
    expect(note).to_have_text("expect D1.3 ± 0.8")
    page.locator("#bench .stages .chip", has_text=DRY_NO_GRIP.name).tap()
    expect(note).not_to_have_text("expect D1.3 ± 0.8")
    expect(note).to_contain_text("expect E")  # a club without its grip swings about nine points heavier
    page.locator("#bench .stages .chip:has(input[value='dry, gripped'])").tap()
    expect(note).to_have_text("expect D1.3 ± 0.8")


def test_what_was_not_measured_looks_not_measured(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock
) -> None:
    bring(web_session, web_clock, "done mark and cut")
    tablet = make_tablet(served).open()
    strip = tablet.page.locator("#bench .strip[data-key='swing_weight']")
    expect(strip.locator(".belief")).to_have_css("fill", 'url("#hatch-swing_weight")')
    expect(strip.locator("title")).to_contain_text("not measured yet")
    bench.note_reading(web_session, JOB, "swing_weight", "D1.3", stage="dry, gripped")
    tablet.open()
    expect(strip.locator(".belief")).not_to_have_css("fill", 'url("#hatch-swing_weight")')
    expect(strip.locator("title")).not_to_contain_text("not measured yet")
