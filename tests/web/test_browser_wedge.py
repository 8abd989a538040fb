"""A whole wedge from its ticket to its tag by touch, on nothing but the bench page; a picture of every step is kept."""

from __future__ import annotations

import pytest
from browsing import LYING, STANDING, Tablet, TabletMaker

from benchwork import JOB, Clock
from clubwright.planning.advice.tray import names_of
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session


def build(tablet: Tablet, clock: Clock, name: str) -> None:
    """Build the invented wedge, as the demo does."""
    step = iter(range(1, 99))

    def snap(what: str) -> None:
        tablet.snap(f"{name}-{next(step):02d}-{what}")

    page = tablet.page
    snap("pull")
    page.locator("label", has_text="right").locator("input").tap()
    tablet.do("Parts are right")
    snap("weigh")
    tablet.do("Keep the weights")
    snap("head-check")
    tablet.do("Keep the angles")
    snap("bore")
    tablet.do("Keep the lengths")
    for _ in range(2):
        snap("tick")
        tablet.do("Done")
    snap("dry-fit")
    assert "0.0020 in" in page.locator("#bench .big-number").inner_text()
    tablet.do("Keep the fit")
    tablet.until("cut")
    snap("cut-sign")
    tablet.hold("Sign: the marks agree")
    tablet.key_in("cut_length", "34.01 in")
    snap("cut-keypad")
    tablet.hold("Cut: keep this length")
    snap("tape")
    tablet.do("Tape is laid")
    snap("dry")
    tablet.read("swing_weight", "D1.3")
    page.locator("#bench .chip:has(input[value='total_weight'])").tap()
    tablet.key_in("value", "465.4 g")
    page.locator("#echo .understood").wait_for()
    snap("dry-keypad")
    tablet.do("Keep the reading")
    snap("dry-read")
    tablet.do("Step done")
    snap("weights")
    before = {key: tablet.believed(key) for key in ("swing_weight", "total_weight", "length")}
    page.locator("#bench .offer", has_text="fit port 6").tap()
    page.locator("#bench .offer.considered", has_text="fit port 6").wait_for()
    snap("weights-considered")
    assert tablet.believed("swing_weight") != before["swing_weight"]
    assert tablet.believed("total_weight") != before["total_weight"]
    assert page.locator("#bench .strip.moved .considered").count() >= 2
    assert page.locator("#bench .strip.moved .belief.ghost").count() >= 2
    assert page.locator("#bench .foot button.primary").inner_text() == "Port 6 is fitted"
    tablet.do()
    snap("weights-fitted")
    page.get_by_role("link", name="Trail and steps").tap()
    page.locator("#steps summary").tap()
    snap("steps-open")
    page.locator("#steps a", has_text="Read the dry club").tap()
    tablet.until("Read the dry club")
    tablet.read("swing_weight", "D3.8")
    tablet.until("weight")
    tablet.do("Step done")
    tablet.until("Mix")
    tablet.key_in("part_a", "4.0 g")
    tablet.key_in("part_b", "2.0 g")
    tablet.key_in("temperature", "22 C")
    snap("mix")
    tablet.do("Mixed")
    clock.wait(minutes=5)
    tablet.open()
    page.locator(".clock", has_text="of the pot life").get_by_text("00:2").wait_for()
    snap("glue-sign")
    tablet.hold("Sign")
    tablet.key_in("temperature", "22 C")
    snap("glue")
    tablet.hold("Head is glued")
    page.locator(".clock", has_text="until it may be hit").get_by_text("left", exact=False).wait_for()
    snap("cure")
    assert page.locator("#bench .foot button.primary").is_disabled()
    clock.wait(hours=15)
    tablet.open()
    tablet.do("Cured")
    snap("ferrule-finish")
    tablet.do("Done")
    snap("grip")
    tablet.do("Grip is on")
    tablet.until("Bend")
    snap("bend")
    tablet.key_in("loft", "54 deg")
    tablet.key_in("lie", "63.5 deg")
    tablet.key_in("bounce", "9.75 deg")
    tablet.do("Keep the angles")
    snap("inspect")
    tablet.read("length", "35 1/4 in")
    tablet.read("loft", "54 deg")
    tablet.read("lie", "63.5 deg")
    tablet.read("swing_weight", "D4.1")
    snap("inspect-half")
    tablet.read("swing_weight", "D4")
    tablet.read("total_weight", "477.2 g")
    page.locator(".decide").wait_for()
    snap("misfit")
    page.locator(".causes label").first.tap()
    tablet.do("Leave it out")
    tablet.read("total_weight", "472.2 g")
    tablet.read("grip_diameter_2in", "0.916 in")
    snap("inspected")
    tablet.do("Step done")
    snap("tag-sign")
    tablet.hold("Sign: cured, may be hit")
    snap("tag")
    with page.expect_popup() as waiting:
        page.get_by_role("link", name="Tag label (PDF)").tap()
    waiting.value.close()
    tablet.hold("Close the job")
    tablet.until("The job is closed")
    snap("closed")


@pytest.mark.parametrize(("size", "theme"), [(LYING, "light"), (STANDING, "dark")], ids=["lying", "standing"])
def test_a_wedge_from_ticket_to_tag_by_touch(
    served: str,
    make_tablet: TabletMaker,
    web_clock: Clock,
    web_session: Session,
    size: tuple[int, int],
    theme: str,
) -> None:
    tablet = make_tablet(served, size, theme=theme).open("/tickets")
    tablet.page.get_by_role("link", name=JOB).first.tap()
    build(tablet, web_clock, f"wedge-{size[0]}")
    job = web_session.job(JOB)
    answer = answer_job(job, web_session.now()).answer()
    assert job.finished is not None
    assert {key: item["verdict"] for key, item in answer["verdicts"].items()} == dict.fromkeys(
        ("length", "loft", "lie", "swing_weight", "total_weight", "grip_diameter_2in"), "within"
    )
    club_state = answer_job(job, web_session.now()).club_state
    assert names_of(club_state.ticket, club_state.fitted_now[0]) == ["port 6"]
    assert web_session.ledger.verify() == ()
    assert not [line for line in job.trail if line.undone], "nothing had to be taken back"
    page = tablet.page
    left = page.locator("#bench form input[name=action]").evaluate_all("items => items.map((item) => item.value)")
    assert sorted(left) == ["bad mix", "reopen"], "a closed job is only read, opened again, or its mix is called bad"
    page.locator("#bench .reopen summary").tap()
    page.locator("#bench .reopen input[name=reason]").fill("came back, rattles")
    tablet.snap(f"wedge-{size[0]}-99-open-again")
    page.get_by_role("button", name="Open it again").tap()
    page.locator("#bench .trail .last", has_text="Undone").wait_for()
    assert web_session.job(JOB).finished is None
    assert page.get_by_role("button", name="Close the job").count() == 1
