"""Everybody can use it: axe-core finds nothing in both themes at both sizes, targets are large, pages are light."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from browsing import BENCH, LYING, STANDING, Tablet, TabletMaker, bring

from benchwork import JOB, Clock
from clubwright.services.actions import bench
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session
from shaftwork import DRY, IRON, dry_hz, irons

AXE = (Path(__file__).parent / "vendor" / "axe.min.js").read_text(encoding="utf-8")
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
LEAST_PX, APART_PX = 48, 8
MOST_PAGE, MOST_ASSETS = 60_000, 250_000

CHECK = """async (rules) => {
  const found = await axe.run(document, { runOnly: { type: "tag", values: rules } });
  const said = (rule, node) => `${rule.id}: ${node.html.slice(0, 140)} ${node.failureSummary.slice(0, 160)}`;
  return found.violations.flatMap((rule) => rule.nodes.map((node) => said(rule, node)));
}"""

TARGETS = """() => {
  const seen = (item) => item.checkVisibility({ visibilityProperty: true }) && item.getBoundingClientRect().right > 0;
  const inputs = "input:not([type=hidden]):not([type=radio]), label:has(input[type=radio])";
  return [...document.querySelectorAll(`a[href], button, select, summary, ${inputs}`)].filter(seen).map((item) => {
    const { left, top, right, bottom } = item.getBoundingClientRect();
    const name = `${item.tagName} ${item.textContent.trim().slice(0, 40) || item.name}`;
    const scrolls = item.closest(".card-body, .strips, .foot")?.className ?? "page";
    return { left, top, right, bottom, name, scrolls };
  });
}"""
"""Radio buttons are tapped by their label, so that is their target."""


def too_close(one: dict[str, float], other: dict[str, float]) -> bool:
    across = max(one["left"], other["left"]) - min(one["right"], other["right"])
    down = max(one["top"], other["top"]) - min(one["bottom"], other["bottom"])
    return max(across, down) < APART_PX - 0.5


def target_findings(tablet: Tablet) -> list[str]:
    """Say which targets are too small, and which too close to another that scrolls along with them."""
    items = tablet.page.evaluate(TARGETS)
    assert items, "nothing to tap"
    small = [
        f"{item['name']}: {item['right'] - item['left']:.0f} x {item['bottom'] - item['top']:.0f}"
        for item in items
        if min(item["right"] - item["left"], item["bottom"] - item["top"]) < LEAST_PX - 0.5
    ]
    close = [
        f"{one['name']} | {other['name']}"
        for place, one in enumerate(items)
        for other in items[place + 1 :]
        if one["scrolls"] == other["scrolls"] and too_close(one, other)
    ]
    return small + close


def pull(tablet: Tablet, session: Session, clock: Clock) -> None:
    tablet.open()


def cutting(tablet: Tablet, session: Session, clock: Clock) -> None:
    bring(session, clock, "sign cut")
    tablet.open(f"{BENCH}?step=mark%20and%20cut")
    tablet.page.locator("input[name=cut_length]").tap()


def reading(tablet: Tablet, session: Session, clock: Clock) -> None:
    bring(session, clock, "done mark and cut")
    tablet.open(f"{BENCH}?step=dry%20reading")
    tablet.key_in("value", "D1.3")
    tablet.page.locator("#echo .understood").wait_for()


def considering(tablet: Tablet, session: Session, clock: Clock) -> None:
    bring(session, clock, "read total_weight 465.4 g dry, gripped")
    worked = answer_job(session.job(JOB), session.now())
    advised = next(item.id for item in worked.advice if item.weights == ("port 6",))
    tablet.open(f"{BENCH}?step=choose%20weight&consider={advised}")
    tablet.page.locator("#trail summary").tap()
    tablet.page.locator("#steps summary").tap()
    tablet.page.get_by_role("link", name="What each reading taught").tap()
    tablet.page.locator("#belief-chart canvas").wait_for()


def deciding(tablet: Tablet, session: Session, clock: Clock) -> None:
    bring(session, clock, "read total_weight 477.2 g finished")
    tablet.open()
    tablet.page.locator(".decide").wait_for()


def bending(tablet: Tablet, session: Session, clock: Clock) -> None:
    bring(session, clock, "grip")
    tablet.open(f"{BENCH}?step=loft%20and%20lie")


def inspecting(tablet: Tablet, session: Session, clock: Clock) -> None:
    bring(session, clock, "read swing_weight D4.1 finished")
    tablet.open(f"{BENCH}?step=inspect")


def stopped(tablet: Tablet, session: Session, clock: Clock) -> None:
    bench.change_part(session, JOB, "head", {"hand": "left"})
    tablet.open()


def closed(tablet: Tablet, session: Session, clock: Clock) -> None:
    bring(session, clock, "finish")
    tablet.open()
    tablet.page.locator("#bench .reopen summary").tap()


def tickets(tablet: Tablet, session: Session, clock: Clock) -> None:
    tablet.open("/tickets")


def records(tablet: Tablet, session: Session, clock: Clock) -> None:
    bring(session, clock, "finish")
    tablet.open("/records")


def shaft(tablet: Tablet, session: Session, clock: Clock) -> None:
    for document in irons():
        bench.take_ticket(session, document, "iron.toml")
    bench.note_reading(session, "X-1006", "frequency", f"{dry_hz(irons()[1]) * 60:.1f} cpm", stage=DRY, weights=[])
    bench.change_part(session, IRON, "shaft", {"stiffness_factor": "1 ± 0.05"})
    tablet.open(f"/bench/{IRON}/shaft?trim=76200&head=262%20g")
    tablet.page.locator("#family form").wait_for()


def form(tablet: Tablet, session: Session, clock: Clock) -> None:
    tablet.open(f"/tickets/new/form?like={JOB}")
    tablet.page.locator("#g-weight summary").tap()


Scene = Callable[[Tablet, Session, Clock], None]
SCENES: tuple[Scene, ...] = (
    pull,
    cutting,
    reading,
    considering,
    bending,
    inspecting,
    deciding,
    stopped,
    closed,
    tickets,
    records,
    shaft,
    form,
)


@pytest.mark.parametrize("scene", SCENES, ids=lambda scene: scene.__name__)
def test_a_page_is_for_everybody(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock, scene: Scene
) -> None:
    tablet = make_tablet(served)
    scene(tablet, web_session, web_clock)
    page = tablet.page
    page.evaluate(AXE)
    findings = []
    for size in (LYING, STANDING):
        page.set_viewport_size({"width": size[0], "height": size[1]})
        findings += [f"{size[0]} {finding}" for finding in target_findings(tablet)]
        for theme in ("light", "dark"):
            page.emulate_media(color_scheme=theme)  # type: ignore[arg-type]
            findings += [f"{size[0]} {theme} {finding}" for finding in page.evaluate(CHECK, RULES)]
            tablet.snap(f"page-{scene.__name__}-{size[0]}-{theme}")
        assert page.evaluate("document.documentElement.scrollWidth") <= size[0], "the page scrolls sideways"
    assert not findings, "\n".join(findings)


@pytest.mark.parametrize("scene", [considering, inspecting, closed, shaft, form], ids=lambda scene: scene.__name__)
def test_pages_are_light(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock, scene: Scene
) -> None:
    tablet = make_tablet(served)
    sizes: dict[str, int] = {}
    tablet.page.on("response", lambda answer: sizes.__setitem__(answer.url, _length(answer)))  # type: ignore[arg-type]
    scene(tablet, web_session, web_clock)
    html = len(tablet.page.request.get(tablet.page.url).body())
    assert html < MOST_PAGE, f"{html} bytes of HTML"
    assets = sum(size for url, size in sizes.items() if "/static/" in url)
    assert 50_000 < assets < MOST_ASSETS, f"{assets} bytes of assets"


def _length(answer: object) -> int:
    return int(answer.headers.get("content-length", 0))  # type: ignore[attr-defined]


@pytest.mark.parametrize("size", [LYING, STANDING], ids=["lying", "standing"])
@pytest.mark.parametrize("scene", [pull, considering, bending, inspecting], ids=lambda scene: scene.__name__)
def test_strips_and_button_are_seen_without_scrolling(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock, scene: Scene, size: tuple[int, int]
) -> None:
    tablet = make_tablet(served, size)
    scene(tablet, web_session, web_clock)
    tablet.page.evaluate("window.scrollTo(0, 0)")
    below = """(query) => [...document.querySelectorAll(query)].map((item) => item.getBoundingClientRect().bottom)"""
    strips = tablet.page.evaluate(below, "#bench .strip")
    assert len(strips) == 6
    assert max(strips) <= size[1]
    (button,) = tablet.page.evaluate(below, "#bench .foot .primary")
    assert button <= size[1]
    digits = "(query) => parseFloat(getComputedStyle(document.querySelector(query)).fontSize)"
    assert tablet.page.evaluate(digits, "#bench .strip .value") >= 32, "24 pt is 32 px"
    tall = "(query) => document.querySelector(query).scrollHeight - document.querySelector(query).clientHeight"
    assert tablet.page.evaluate(tall, "#bench .strips") <= 1, "the strips scroll"
