"""What a card has to say is on the screen: its refusal above long buttons, and the button to hold above the fold."""

from __future__ import annotations

import pytest
from browsing import BENCH, LYING, STANDING, TabletMaker, bring
from playwright.sync_api import Locator, expect

from benchwork import JOB, Clock
from clubwright.services.actions import bench
from clubwright.services.record.session import Session

SIZES = pytest.mark.parametrize("size", [LYING, STANDING], ids=["lying", "standing"])


def box(item: Locator) -> dict[str, float]:
    found = item.bounding_box()
    assert found is not None
    return {**found, "end": found["y"] + found["height"]}


@SIZES
def test_a_misfit_says_why_in_the_card_and_leaves_it_its_room(
    served: str, make_tablet: TabletMaker, web_session: Session, size: tuple[int, int]
) -> None:
    bench.change_part(web_session, JOB, "shaft", {"tip_diameter": ".335 in"})
    bench.change_part(web_session, JOB, "head", {"bore_diameter": ".370 in"})
    tablet = make_tablet(served, size, quiet=False).open(f"{BENCH}?step=dry%20fit")
    page = tablet.page
    assert tablet.do().status == 409
    tablet.snap(f"misfit-{size[0]}")
    body, card = box(page.locator(".card-body")), box(page.locator(".card"))
    assert body["height"] >= card["height"] / 3
    refusal = page.locator(".card-body .finding", has_text="leaves a bond line")
    expect(refusal).to_have_count(1)
    assert body["y"] <= box(refusal)["y"] and box(refusal)["end"] <= min(body["end"], size[1])
    skip = page.locator(".foot .second")
    expect(skip).to_have_text("Skip: it does not fit")
    assert box(skip)["height"] <= 100
    tablet.open(f"{BENCH}?step=dry%20fit")
    expect(page.locator(".card-body .settle", has_text="leaves a bond line")).to_be_in_viewport()
    tablet.do("Skip: it does not fit")
    assert "leaves a bond line" in web_session.job(JOB).trail[-1].text, "the record says all of it"


HELD = {
    "glue, closed": ("done mark and cut", "glue"),
    "glue, signed": ("sign glue", "glue"),
    "tag, targets open": ("sign release", "tag"),
    "release": ("read grip_diameter_2in 0.916 in finished", "tag"),
}
"""Cards whose button is held, each with the last action before it."""


@pytest.mark.parametrize("card", HELD)
@SIZES
def test_a_button_that_is_held_is_whole_above_the_fold(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock, card: str, size: tuple[int, int]
) -> None:
    last, step = HELD[card]
    bring(web_session, web_clock, last)
    if card == "tag, targets open":
        for line in [line for line in web_session.job(JOB).trail if "0.916 in" in line.text]:
            bench.undo(web_session, JOB, line.sequence, reason="of another club")
    tablet = make_tablet(served, size).open(f"{BENCH}?step={step}")
    tablet.snap(f"held-{card.replace(', ', '-').replace(' ', '-')}-{size[0]}")
    page = tablet.page
    body, button = box(page.locator(".card-body")), page.locator("#bench button.hold")
    for item in (button, page.locator("#bench .looked")):
        assert body["y"] <= box(item)["y"] and box(item)["end"] <= min(body["end"], size[1])
    how = page.locator("#bench .hold-how").inner_text()
    waits = button.get_attribute("disabled") is not None
    assert waits == (card in ("glue, closed", "tag, targets open"))
    assert ("Hold the button above" in how) != waits, how
    assert waits == ("Not yet" in how)


def test_the_bend_card_asks_for_its_angles_before_its_cautions(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock
) -> None:
    bring(web_session, web_clock, "grip")
    tablet = make_tablet(served).open(f"{BENCH}?step=loft%20and%20lie")
    page = tablet.page
    tablet.snap("bend")
    fields = box(page.locator("#bench input[name=lie]"))
    assert fields["end"] <= box(page.locator(".card-body"))["end"]
    assert fields["end"] <= box(page.locator("#bench .cautions"))["y"]


@SIZES
def test_the_cut_is_signed_by_both_of_its_marks(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock, size: tuple[int, int]
) -> None:
    bring(web_session, web_clock, "done weigh")
    tablet = make_tablet(served, size).open(f"{BENCH}?step=mark%20and%20cut")
    tablet.snap(f"marks-{size[0]}")
    names = tablet.page.locator("#bench .big-name")
    expect(names).to_have_text(["mark, from the tip", "mark, from the ground"])
    body = box(tablet.page.locator(".card-body"))
    for figure in tablet.page.locator("#bench .big-number").all():
        assert " in" in figure.inner_text()
        assert box(figure)["end"] <= box(tablet.page.locator("#bench .hold-place"))["y"] <= body["end"]


@SIZES
def test_the_release_card_says_what_is_tried_by_hand_before_it_is_signed(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock, size: tuple[int, int]
) -> None:
    bring(web_session, web_clock, "read grip_diameter_2in 0.916 in finished")
    page = make_tablet(served, size).open(f"{BENCH}?step=tag").page
    tried = page.locator("#bench .to-try", has_text="Twist the head by hand")
    expect(tried).to_contain_text("tap the club for a rattle")
    assert box(page.locator(".card-body"))["y"] <= box(tried)["y"]
    assert box(tried)["end"] <= box(page.locator("#bench .hold-place"))["y"]


def test_after_a_wrong_cup_a_link_leads_back_to_the_mix(
    served: str, make_tablet: TabletMaker, web_session: Session, web_clock: Clock
) -> None:
    bring(web_session, web_clock, "mix")
    bench.mix_adhesive(web_session, JOB, "4.0 g", "3.0 g", "22 C", "lot 7")
    tablet = make_tablet(served).open(f"{BENCH}?step=glue")
    tablet.snap("wrong-cup")
    tablet.awake()
    tablet.tap("Mix anew")
    tablet.until("Mix the adhesive")
