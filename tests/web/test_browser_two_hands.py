"""Two hands at once: a double tap, and two tablets on one club."""

from __future__ import annotations

import pytest
from browsing import BENCH, LYING, Tablet, TabletMaker, bring
from playwright.sync_api import expect

from benchwork import JOB, Clock
from clubwright.services.record.session import Session

CUT, DRY, MIX, BEND = "mark%20and%20cut", "dry%20reading", "mix", "loft%20and%20lie"


def standing(session: Session) -> list[str]:
    return [line.text for line in session.job(JOB).trail if not line.undone and line.kind != "undone"]


def test_a_double_tap_keeps_one_reading(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock
) -> None:
    bring(web_session, web_clock, "done mark and cut")
    tablet = make_tablet(served).open(f"{BENCH}?step={DRY}")
    tablet.key_in("value", "D1.3")
    tablet.page.locator("#echo .understood").wait_for()
    button = tablet.page.locator("#bench button.primary")
    tablet.awake()
    with tablet.page.expect_response(lambda answer: answer.request.method == "POST"):
        button.evaluate("button => { button.click(); button.click(); button.click(); }")
    tablet.settle()
    expect(tablet.page.locator("#bench input[name=value]")).to_have_value("")
    assert standing(web_session).count("swing_weight D1.3") == 1
    # the same reading once more is a second reading: a new form has a new key
    tablet.read("swing_weight", "D1.3")
    assert standing(web_session).count("swing_weight D1.3") == 2


def two_tablets(served: str, make_tablet: TabletMaker, path: str, field: str, mine: str, theirs: str) -> Tablet:
    """Both type; theirs is kept first; mine is sent from a page that had not seen it."""
    here, there = make_tablet(served, LYING).open(path), make_tablet(served, LYING).open(path)
    for tablet, text in ((here, mine), (there, theirs)):
        tablet.key_in(field, text)
        if field == "value":
            tablet.page.locator("#echo .understood").wait_for()
    there.send()
    expect(here.page.locator("#newer")).to_be_visible()
    expect(here.page.locator(f"#bench input[name={field}]")).to_have_value(mine)
    here.complaints.clear()
    assert here.send().status == 409
    here.complaints.clear()  # the browser itself notes an answer of 409
    shown = here.page.locator(".conflict").inner_text()
    assert mine in shown
    assert theirs in shown
    return here


READ = ("done mark and cut", DRY, "value", "D1.3", "D1.4", "swing_weight D1.3", "swing_weight D1.4")


@pytest.mark.parametrize(
    ("choice", "left"),
    [
        ("Keep theirs", ["swing_weight D1.4"]),
        ("Use mine", ["swing_weight D1.3"]),
        ("Keep both", ["swing_weight D1.4", "swing_weight D1.3"]),
    ],
)
def test_the_second_reading_gets_both_to_choose_from(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock, choice: str, left: list[str]
) -> None:
    bring(web_session, web_clock, "done mark and cut")
    here = two_tablets(served, make_tablet, f"{BENCH}?step={DRY}", "value", "D1.3", "D1.4")
    here.snap("two-tablets")
    here.do(choice)
    assert [text for text in standing(web_session) if text.startswith("swing_weight")] == left


def test_the_second_cut_gets_both_to_choose_from(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock
) -> None:
    bring(web_session, web_clock, "sign cut")
    here = two_tablets(served, make_tablet, f"{BENCH}?step={CUT}", "cut_length", "34.01 in", "34.02 in")
    here.do("Use mine")
    assert [text for text in standing(web_session) if text.startswith("cut")] == ["cut to 34.01 in"]
    assert web_session.job(JOB).document["shaft"]["cut_length"] == "34.01 in"


def test_the_second_bend_gets_both_to_choose_from(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock
) -> None:
    bring(web_session, web_clock, "grip")
    here = two_tablets(served, make_tablet, f"{BENCH}?step={BEND}", "loft", "54 deg", "54.1 deg")
    here.do("Keep theirs")
    assert web_session.job(JOB).document["head"]["loft"] == "54.1 deg"


def test_the_second_weight_gets_both_to_choose_from(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock
) -> None:
    bring(web_session, web_clock, "read total_weight 465.4 g dry, gripped")
    path = f"{BENCH}?step=choose%20weight"
    here, there = make_tablet(served).open(path), make_tablet(served).open(path)
    # a page that is not followed by the other's news, as when its link was away for a moment
    here.page.evaluate("document.getElementById('bench').dataset.facts = '0'")
    here.page.route("**/bench/*?step=*", lambda route: route.abort())
    there.page.locator(".offer", has_text="fit port 5").tap()
    there.page.locator(".offer.considered").wait_for()
    there.do("Port 5 is fitted")
    here.complaints.clear()
    assert here.do("Port 6 is fitted").status == 409
    here.complaints.clear()
    shown = here.page.locator(".conflict").inner_text()
    assert "port 5" in shown and "port 6" in shown
    here.do("Use mine")
    here.complaints.clear()
    assert [text for text in standing(web_session) if text.startswith("fitted")] == ["fitted port 6"]


def test_undo_says_what_it_undid(served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock) -> None:
    bring(web_session, web_clock, "read swing_weight D1.3 dry, gripped")
    tablet = make_tablet(served).open()
    with tablet.page.expect_response(lambda answer: answer.request.method == "POST"):
        tablet.page.get_by_role("button", name="Undo: read swing weight D1.3", exact=True).first.tap()
    expect(tablet.page.locator(".trail .last")).to_have_text("Undone: read swing weight D1.3")
    assert "swing_weight D1.3" not in standing(web_session)
    tablet.page.locator("#trail summary").tap()
    tablet.snap("trail", whole=True)
    with tablet.page.expect_response(lambda answer: answer.request.method == "POST"):
        tablet.page.locator("#trail").get_by_role("button", name="Undo: signed: cut", exact=True).tap()
    expect(tablet.page.locator(".trail .last")).to_have_text("Undone: signed: cut")
    assert "cut" not in web_session.job(JOB).gates_signed
