"""A second tap does nothing: a card that was just drawn rests for a second, and what cannot be undone is held for one."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from browsing import BENCH, LYING, STANDING, Tablet, TabletMaker, bring
from playwright.sync_api import expect

from benchwork import JOB, Clock
from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from clubwright.web.second_tap import HOLD_S, REST_S

SECOND = (0.15, 0.4, 0.7)
"""How long after the first the second tap came, in seconds, as seen at a bench."""

LOG = """() => {
  window.drawn = 0;
  window.pressed = [];
  const say = (event) => window.pressed.push(event.timeStamp);
  for (const kind of ["pointerdown", "keydown"]) window.addEventListener(kind, say, true);
  document.addEventListener("htmx:after:swap", () => { window.drawn = performance.now(); });
}"""
"""When the page was drawn anew, and when a finger or key went down: a machine that was too slow to try it is told apart."""


def facts(session: Session) -> list[str]:
    return [line.text for line in session.job(JOB).trail]


def main_spot(tablet: Tablet) -> tuple[float, float]:
    """Where the main button stands on a card: the middle of its foot's button."""
    box = tablet.page.locator("#bench .foot button.primary").bounding_box()
    assert box is not None
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def pressed_in_rest(tablet: Tablet, begun: int) -> bool:
    """Say whether every press since then came while the card rested; a slow machine is told to try again."""
    log = tablet.page.evaluate("[window.drawn, window.pressed]")
    return all(0 < at - log[0] < REST_S * 1000 for at in log[1][begun:]) and len(log[1]) > begun


def presses(tablet: Tablet) -> int:
    return int(tablet.page.evaluate("window.pressed.length"))


CARDS: dict[str, tuple[str, Callable[[Tablet], None]]] = {
    "pull": ("take", lambda tablet: tablet.page.locator("label", has_text="right").locator("input").tap()),
    "weigh": ("done pull", lambda tablet: None),
    "weights": ("read swing_weight D3.8 dry, gripped", lambda tablet: None),
    "ferrule": ("done cure", lambda tablet: None),
    "misfit": ("read total_weight 477.2 g finished", lambda tablet: None),
}
"""Cards with a main button, each with the last action before it and what is filled in."""


def first_tap(tablet: Tablet) -> None:
    """Tap the main button, and wait for the answer's card."""
    tablet.page.locator("#bench .foot button.primary").tap(trial=True)
    spot = main_spot(tablet)
    with tablet.page.expect_response(lambda answer: answer.request.method == "POST"):
        tablet.page.touchscreen.tap(*spot)
    tablet.settle()


@pytest.mark.parametrize("card", CARDS)
def test_a_second_tap_keeps_nothing(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock, card: str
) -> None:
    last, fill = CARDS[card]
    if last != "take":
        bring(web_session, web_clock, last)
    path = f"{BENCH}?step=choose%20weight" if card == "weights" else BENCH
    tablet = make_tablet(served).open(path)
    tablet.page.evaluate(LOG)
    fill(tablet)
    tablet.page.locator("#bench .foot button.primary").tap(trial=True)
    spot = main_spot(tablet)
    first_tap(tablet)
    begun, kept = presses(tablet), facts(web_session)
    for after in (SECOND[0], SECOND[1] - SECOND[0]):
        tablet.page.wait_for_timeout(after * 1000)
        tablet.page.touchscreen.tap(*spot)
    assert pressed_in_rest(tablet, begun), "too slow a machine for this test: try again"
    tablet.page.wait_for_timeout(600)
    assert facts(web_session) == kept
    tablet.awake()


@pytest.mark.parametrize("after", SECOND)
def test_a_tap_after_a_redraw_keeps_nothing_and_later_it_does(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock, after: float
) -> None:
    """Another tablet kept something, so the card under the finger is another one."""
    bring(web_session, web_clock, "done cure")
    tablet = make_tablet(served).open()
    page = tablet.page
    page.locator("#bench .foot button.primary").tap(trial=True)
    page.evaluate(LOG)
    spot = main_spot(tablet)
    bench.change_part(web_session, JOB, "grip", {"mass": "49.7 g"})
    page.wait_for_function("() => window.drawn > 0", polling=20)
    expect(page.locator("#bench .foot button.primary")).to_have_attribute("aria-disabled", "true")
    page.wait_for_timeout(after * 1000)
    kept = facts(web_session)
    page.touchscreen.tap(*spot)
    assert pressed_in_rest(tablet, 0), "too slow a machine for this test: try again"
    page.wait_for_timeout(400)
    assert facts(web_session) == kept
    tablet.do()
    assert len(facts(web_session)) == len(kept) + 1


@pytest.mark.parametrize("key", ["Enter", "Space"])
def test_a_second_press_of_a_key_keeps_nothing(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock, key: str
) -> None:
    """The style sheet keeps fingers off; a key is held off by the script alone."""
    bring(web_session, web_clock, "done cure")
    tablet = make_tablet(served).open()
    page = tablet.page
    page.evaluate(LOG)
    button = page.locator("#bench .foot button.primary")
    button.tap(trial=True)
    button.focus()
    with page.expect_response(lambda answer: answer.request.method == "POST"):
        page.keyboard.press(key)
    tablet.settle()
    begun, kept = presses(tablet), facts(web_session)
    page.locator("#bench button.primary").first.focus()
    page.keyboard.press(key)
    page.wait_for_timeout(150)
    page.keyboard.press(key)
    assert pressed_in_rest(tablet, begun), "too slow a machine for this test: try again"
    page.wait_for_timeout(600)
    assert facts(web_session) == kept
    page.wait_for_timeout(REST_S * 1000)
    with page.expect_response(lambda answer: answer.request.method == "POST"):
        page.keyboard.press(key)
    tablet.settle()
    assert len(facts(web_session)) > len(kept)


def test_an_undo_is_not_doubled(served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock) -> None:
    bring(web_session, web_clock, "cut")
    tablet = make_tablet(served).open()
    page = tablet.page
    page.evaluate(LOG)
    undo = page.locator(".trail .bar button[name=fact]")
    undo.tap(trial=True)
    box = undo.bounding_box()
    assert box is not None
    spot = box["x"] + 20, box["y"] + box["height"] / 2
    with page.expect_response(lambda answer: answer.request.method == "POST"):
        page.touchscreen.tap(*spot)
    tablet.settle()
    begun = presses(tablet)
    page.wait_for_timeout(150)
    page.touchscreen.tap(*spot)
    assert pressed_in_rest(tablet, begun), "too slow a machine for this test: try again"
    page.wait_for_timeout(500)
    assert [line.text for line in web_session.job(JOB).trail if line.undone] == ["cut to 34.01 in"]


HELD = {
    "sign cut": ("done weigh", "mark%20and%20cut"),
    "glue": ("sign glue", "glue"),
    "finish": ("sign release", "tag"),
}


@pytest.mark.parametrize("name", HELD)
@pytest.mark.parametrize("size", [LYING, STANDING], ids=["lying", "standing"])
def test_what_cannot_be_undone_is_held_and_away_from_the_main_buttons_spot(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock, name: str, size: tuple[int, int]
) -> None:
    last, step = HELD[name]
    tablet = make_tablet(served, size).open()
    page = tablet.page
    main = page.locator("#bench .foot button.primary").bounding_box()  # as drawn: trying a tap may scroll the page
    assert main is not None
    bring(web_session, web_clock, last)
    if name == "glue":
        tablet.open(f"{BENCH}?step={step}").key_in("temperature", "22 C")
        page.locator(".keypad .done").tap()
    else:
        tablet.open(f"{BENCH}?step={step}")
    button = page.locator("#bench button.hold")
    assert page.locator("#bench .foot button.primary").count() == 0
    for item in (button, page.locator("#bench input[name=looked]")):
        box = item.bounding_box()
        assert box is not None
        assert box["y"] + box["height"] < main["y"], "a tap on the main button's spot lands on it"
        assert box["y"] + box["height"] < size[1]
    kept = facts(web_session)
    button.tap()
    expect(page.locator(".hold-how")).to_contain_text("Nothing is signed")
    words = button.inner_text()
    tablet.press(words, HOLD_S * 0.6)
    page.wait_for_timeout(HOLD_S * 1000)
    assert facts(web_session) == kept, "a tap and a short press do nothing"
    tablet.hold(words)
    assert len(facts(web_session)) > len(kept)


def test_what_cannot_be_undone_is_ticked_and_sent_by_the_keyboard(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock
) -> None:
    bring(web_session, web_clock, "done weigh")
    tablet = make_tablet(served).open(f"{BENCH}?step=mark%20and%20cut")
    page = tablet.page
    button = page.locator("#bench button.hold")
    button.tap(trial=True)
    button.focus()
    page.keyboard.press("Enter")
    page.wait_for_timeout(300)
    assert "signed: cut" not in facts(web_session)
    expect(page.locator(".hold-how")).to_contain_text("Nothing is signed")
    page.keyboard.press("Tab")
    page.keyboard.press("Space")
    expect(page.locator("input[name=looked]")).to_be_checked()
    page.keyboard.press("Shift+Tab")
    with page.expect_response(lambda answer: answer.request.method == "POST"):
        page.keyboard.press("Enter")
    tablet.settle()
    assert facts(web_session)[-1] == "signed: cut"


def test_what_cannot_be_undone_with_scripts_off(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock
) -> None:
    bring(web_session, web_clock, "done weigh")
    tablet = make_tablet(served, scripts=False, quiet=False).open(f"{BENCH}?step=mark%20and%20cut")
    page = tablet.page
    button = page.locator("#bench button.hold")
    button.click()
    assert "signed: cut" not in facts(web_session), "the browser asks for the tick"
    page.locator("input[name=looked]").check()
    button.click()
    page.locator(".trail .last", has_text="signed: cut").wait_for()
    box = page.locator("#bench .foot button.primary").bounding_box()
    assert box is not None
    page.touchscreen.tap(box["x"] + 30, box["y"] + 30)  # the card is new: the style sheet keeps the finger off
    page.wait_for_timeout(300)
    assert facts(web_session)[-1] == "signed: cut"
