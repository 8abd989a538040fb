"""Without scripts and without touch: plain forms do all that matters, a keyboard reaches all of it, a scanner may type."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from browsing import BENCH, Server, Tablet, TabletMaker, bring
from fastapi import FastAPI
from playwright.sync_api import expect

from benchwork import JOB, Clock
from clubwright.devices.gauges import Gauges
from clubwright.services.record.session import Session


def standing(session: Session) -> list[str]:
    return [line.text for line in session.job(JOB).trail if not line.undone]


def send(tablet: Tablet, name: str) -> None:
    tablet.page.locator("#bench").get_by_role("button", name=name).first.click()


def test_with_scripts_off(served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock) -> None:
    tablet = make_tablet(served, scripts=False, quiet=False).open("/tickets")
    page = tablet.page
    page.get_by_role("link", name=JOB).first.click()
    page.locator("input[name=hand][value=right]").check()
    send(tablet, "Parts are right")
    assert tablet.title().startswith("Weigh")
    page.locator("input[name='head.mass']").fill("35,5")
    send(tablet, "Keep the weights")
    expect(page.locator(".finding").first).to_contain_text("35,5")
    expect(page.locator("input[name='head.mass']")).to_have_value("35,5")
    page.locator("input[name='head.mass']").fill("296.5 g")
    send(tablet, "Keep the weights")
    assert "head: mass 296.5 g" in standing(web_session)
    page.locator("#steps summary").click()
    page.locator("#steps a", has_text="Read the dry club").click()
    page.locator("input[name=value]").fill("D1.3")
    send(tablet, "Read it back")
    expect(page.locator("#echo")).to_contain_text("D1.3")
    assert "swing_weight D1.3" not in standing(web_session), "nothing is kept before it was seen"
    send(tablet, "Keep the reading")
    assert "swing_weight D1.3" in standing(web_session)
    page.locator("#steps summary").click()
    page.locator("#steps a", has_text="Choose and fit").click()
    page.locator(".offer", has_text="fit port 5").click()
    assert page.locator(".strip.moved").count() >= 2
    send(tablet, "Port 5 is fitted")
    assert "fitted port 5" in standing(web_session)
    page.get_by_role("button", name="Undo: fitted port 5", exact=True).first.click()
    expect(page.locator(".trail .last")).to_have_text("Undone: fitted port 5")
    assert "fitted port 5" not in standing(web_session)
    page.get_by_role("link", name="What each reading taught").click()
    assert page.locator(".belief-table tbody tr").count() == 2


def test_another_text_than_the_one_read_back_is_not_kept(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock
) -> None:
    bring(web_session, web_clock, "done mark and cut")
    tablet = make_tablet(served, scripts=False, quiet=False).open(f"{BENCH}?step=dry%20reading")
    tablet.page.locator("input[name=value]").fill("D1.3")
    send(tablet, "Read it back")
    tablet.page.locator("input[name=value]").fill("D1.4")
    send(tablet, "Keep the reading")
    expect(tablet.page.locator("#echo")).to_contain_text("D1.4")
    assert not [text for text in standing(web_session) if text.startswith("swing")]


def test_with_the_keyboard_alone(served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock) -> None:
    tablet = make_tablet(served).open()
    page = tablet.page

    def go_to(name: str) -> None:
        for _ in range(60):
            page.keyboard.press("Tab")
            focused = "document.activeElement.name || document.activeElement.textContent.trim()"
            if page.evaluate(focused) == name:
                ring = page.evaluate(
                    "getComputedStyle(document.activeElement.closest('.chip') ?? document.activeElement).outlineStyle"
                )
                assert ring == "solid", f"the focus on {name} does not show"
                return
        raise AssertionError(f"no way to {name} by Tab")

    go_to("hand")
    page.keyboard.press("Space")
    tablet.awake()
    go_to("Parts are right")
    page.keyboard.press("Enter")
    tablet.until("Weigh")
    page.goto(f"{served}{BENCH}?step=dry%20reading")
    go_to("quantity")
    page.keyboard.press("ArrowDown")
    go_to("value")
    page.keyboard.type("465.4 g")
    page.locator("#echo .understood").wait_for()
    tablet.awake()
    with page.expect_response(lambda answer: answer.request.method == "POST"):
        page.keyboard.press("Enter")
    tablet.settle()
    assert standing(web_session)[-1] == "total_weight 465.4 g"


def test_a_scanner_types_the_parts(served: str, make_tablet: TabletMaker, web_session: Session) -> None:
    tablet = make_tablet(served, quiet=False).open()
    page = tablet.page
    page.keyboard.type("Kestrel 54 mid")
    page.keyboard.press("Enter")
    expect(page.locator(".said")).to_contain_text("the head of this ticket")
    page.locator("input[name=code]").fill("Kestrel 58 low")
    page.keyboard.press("Enter")
    stop = page.locator(".stop")
    expect(stop).to_contain_text("STOP: WRONG PART")
    expect(stop).to_contain_text("Kestrel 58 low")
    assert page.locator("#bench button, #bench a").count() == 1, "no other button"
    tablet.snap("wrong-part")
    page.get_by_role("link", name="It is put back: go on").tap()
    tablet.until("Take out the parts")
    assert [line.kind for line in web_session.job(JOB).trail] == ["ticket taken"], "a scan is no fact"


def test_the_wrong_hand_stops_everything(served: str, make_tablet: TabletMaker, web_session: Session) -> None:
    tablet = make_tablet(served, quiet=False).open()
    page = tablet.page
    page.locator("label", has_text="left").locator("input").tap()
    page.locator("#bench button.primary").tap()
    expect(page.locator(".stop")).to_contain_text("The ticket is for the right hand. This head is left-handed.")
    assert page.locator("#bench button, #bench a").count() == 1, "no other button"
    assert page.locator(".card, .strip").count() == 0
    tablet.snap("wrong-hand")
    page.reload()
    expect(page.locator(".stop")).to_be_visible()
    page.get_by_role("button", name="Another head is in the hand: look again").tap()
    tablet.until("Take out the parts")
    page.locator("label", has_text="right").locator("input").tap()
    tablet.do("Parts are right")
    assert web_session.job(JOB).document["head"]["hand"] == "right"
    assert "pull" in web_session.job(JOB).steps_done


class Steady:
    """A scale on a cable with a club on it."""

    def readline(self) -> bytes:
        return b"465.4 g\n"

    def close(self) -> None:
        """Nothing to let go."""


@pytest.fixture
def with_scale(web_app: FastAPI) -> Iterator[str]:
    web_app.state.gauges = Gauges({"gram scale": "cable"}, lambda _: Steady())
    with Server(web_app) as address:
        yield address


def test_a_scale_on_its_cable_is_taken_by_one_tap(
    with_scale: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock
) -> None:
    bring(web_session, web_clock, "done mark and cut")
    tablet = make_tablet(with_scale).open(f"{BENCH}?step=dry%20reading")
    page = tablet.page
    expect(page.locator(".gauge-line")).to_contain_text("gram scale: 465.4 g")
    tablet.snap("gauge-line")
    tablet.tap("Take this reading")
    expect(page.locator("input[name=value]")).to_have_value("465.4 g")
    expect(page.locator("input[name=quantity][value=total_weight]")).to_be_checked()
    page.locator("#echo .understood").wait_for()
    tablet.do("Keep the reading")
    reading = web_session.job(JOB).document["reading"][-1]
    assert (reading["quantity"], reading["value"], reading["instrument"]) == ("total_weight", "465.4 g", "gram scale")
