"""A tap on a number leads to why it is so; the pages behind it are for everybody, at both sizes and in both themes."""

from __future__ import annotations

from browsing import BENCH, LYING, STANDING, Tablet, TabletMaker, bring
from test_browser_access import AXE, CHECK, RULES, target_findings

from benchwork import Clock
from clubwright.services.record.session import Session


def findings_of(tablet: Tablet) -> list[str]:
    page, found = tablet.page, []
    page.evaluate(AXE)
    for size in (LYING, STANDING):
        page.set_viewport_size({"width": size[0], "height": size[1]})
        found += [f"{size[0]} {finding}" for finding in target_findings(tablet)]
        for theme in ("light", "dark"):
            page.emulate_media(color_scheme=theme)  # type: ignore[arg-type]
            found += [f"{size[0]} {theme} {finding}" for finding in page.evaluate(CHECK, RULES)]
        assert page.evaluate("document.documentElement.scrollWidth") <= size[0], "the page scrolls sideways"
    return found


def test_one_tap_on_a_number_leads_to_its_budget(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock
) -> None:
    bring(web_session, web_clock, "read swing_weight D4.1 finished")
    tablet = make_tablet(served).open(f"{BENCH}?step=inspect")
    page = tablet.page
    page.locator(
        ".strip[data-key=swing_weight] .strip-text"
    ).tap()  # the card was just drawn: nothing leads away from it yet
    assert "/why/" not in page.url
    page.locator("#bench [data-resting]").first.wait_for(state="detached")
    page.locator(".strip[data-key=swing_weight] .strip-text").tap()
    page.locator("table.budget").wait_for()
    assert "/why/finished/swing_weight" in page.url
    box = page.locator("table.budget tbody tr").first.bounding_box()
    assert box is not None and box["y"] + box["height"] < LYING[1], "the largest share is below the fold"
    assert not findings_of(tablet)


def test_theory_and_source_are_for_everybody(served: str, make_tablet: TabletMaker) -> None:
    tablet = make_tablet(served)
    tablet.open(f"{BENCH}/why/steps/mix")
    found = findings_of(tablet)
    tablet.page.get_by_role("link", name="Theory", exact=True).tap()
    tablet.page.locator("article.theory").wait_for()
    assert "/theory/adhesive" in tablet.page.url
    assert tablet.page.evaluate(ELSEWHERE) == []
    assert not found


ELSEWHERE = """() => [...document.querySelectorAll("img, script[src], link[href]")].map((item) => item.src || item.href)
  .filter((address) => new URL(address).origin !== location.origin)"""
"""Whatever a page loads from somewhere else."""
