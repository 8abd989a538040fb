"""Every card of a wedge, an iron and a driver, on a lying and a standing tablet: nothing to touch is out of reach."""

from __future__ import annotations

import os
from typing import Any

import pytest
from browsing import LYING, STANDING, Tablet, TabletMaker
from every_step import DRIVER, IRON, WEDGE, stations, take_others

from benchwork import Clock
from clubwright.services.record.session import Session

HIDDEN = """() => {
  const pad = document.querySelector("#bench .keypad")?.getBoundingClientRect();
  const kinds = ["a", "button", "select", "summary", "input:not([type=hidden])"];
  const places = ["#bench .card", "#bench .keypad", "#bench .trail .bar"];
  const touched = places.flatMap((place) => kinds.map((kind) => `${place} ${kind}`)).join();
  const all = [...document.querySelectorAll(touched)].filter((item) => item.checkVisibility());
  const beyond = (low, high, frame_low, frame_high) => low < frame_low - 1 || high > frame_high + 1;
  const outside = (box, frame) => beyond(box.top, box.bottom, frame.top, frame.bottom)
    || beyond(box.left, box.right, frame.left, frame.right);
  const screen = { top: 0, left: 0, bottom: innerHeight, right: innerWidth };
  return all.filter((item) => {
    const box = (item.closest("label.chip, .looked") ?? item).getBoundingClientRect();
    const body = item.closest(".card-body, .strips");
    if (outside(box, screen) || (body && outside(box, body.getBoundingClientRect()))) return true;
    const covers = document.elementFromPoint(box.left + box.width / 2, box.top + box.height / 2);
    return !(item.contains(covers) || covers?.contains(item) || covers?.closest("label")?.contains(item));
  }).map((item) => (item.closest("label")?.innerText ?? item.innerText).trim().split("\\n")[0] || item.name);
}"""
"""What can be touched in the card, and is not whole on the screen, or lies under something else."""


def out_of_reach(tablet: Tablet) -> list[str]:
    """Return what of the card cannot be touched without scrolling: with its keypad closed, and open on its first field."""
    page = tablet.page
    found: list[str] = page.evaluate(HIDDEN)
    field = page.locator("#bench .card input[data-keypad]:not([data-keypad=''])")
    if field.count():
        field.first.focus()
        page.locator(".keypad").wait_for()
        found += [f"{item}, with the keypad open" for item in page.evaluate(HIDDEN)]
        page.keyboard.press("Escape")
    return found


@pytest.mark.parametrize("job", [WEDGE, IRON, DRIVER])
def test_nothing_to_be_touched_is_out_of_reach(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock, job: str
) -> None:
    take_others(web_session)
    tablet = make_tablet(served)
    found: dict[str, Any] = {}
    for number, card in enumerate(stations(web_session, job, web_clock), 1):
        tablet.open(f"/bench/{job}")
        for size in (LYING, STANDING):
            tablet.page.set_viewport_size({"width": size[0], "height": size[1]})
            if os.environ.get("SNAPS"):
                tablet.snap(f"every/{job}-{size[0]}-{number:02d}-{card.replace(', ', '-').replace(' ', '-')}")
            if hidden := out_of_reach(tablet):
                found[f"{card}, {size[0]} wide"] = hidden
        tablet.page.set_viewport_size({"width": LYING[0], "height": LYING[1]})
    assert not found, "\n".join(f"{card}: {hidden}" for card, hidden in found.items())
