"""Pencil cards: every step on paper, its figures and cautions, with lines for all that the step is said done by."""

from __future__ import annotations

import pypdfium2 as pdfium
import pytest

from benchwork import JOB, Clock, document, run_to
from clubwright.errors import InputError, NotPossible
from clubwright.labels.cards.blanks import blanks_of
from clubwright.labels.cards.cards import pencil_cards
from clubwright.labels.cards.from_work import cards_data
from clubwright.notation import UnitsShown, shown_in
from clubwright.planning.steps.plan import MAKERS
from clubwright.printing import paper_of
from clubwright.services.answer.club_answer import work_document
from clubwright.services.jobs.job_answer import JobAnswer, with_plan
from clubwright.services.record.session import Session
from clubwright.words.how_typed import how_typed
from repository import ROOT
from shopwork import completed_example

EXAMPLES = sorted(path.name for path in (ROOT / "examples").glob("*.toml") if path.name != "shop.toml")
at_the_bench = pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)


def wedge() -> JobAnswer:
    return with_plan(work_document(document()))


def pages(pdf: bytes) -> list[str]:
    return [" ".join(page.get_textpage().get_text_bounded().split()) for page in pdfium.PdfDocument(pdf)]


def test_a_card_has_figure_cautions_and_places_for_all_that_is_read() -> None:
    worked = wedge()
    (cut,) = cards_data(worked, "2026-03-02", step="mark and cut").cards
    (page,) = pages(pencil_cards(cards_data(worked, "2026-03-02", step="mark and cut")))
    assert len(cut.cautions) >= 4 and cut.act_on
    for words in (cut.title, *cut.cautions, *(line.text for line in cut.act_on), *cut.what, cut.done_when):
        assert words in page, words
    for place in ("length after the cut", "cut mass", "gate cut signed before, by", "done on, at", "left out, or"):
        assert place in page, place
    assert JOB in page and "right hand" in page and "invented demo data" in page


def test_the_places_to_write_are_those_of_the_register() -> None:
    worked = wedge()
    found = {step.key: [blank.label for blank in blanks_of(step, worked)] for step in worked.steps}
    assert found["mix"] == ["part A", "part B", "bench temperature", "lot on the packs"]
    assert found["glue"] == ["temperature"]
    assert found["loft and lie"] == ["loft", "lie", "bounce"]
    assert sorted(found["dry reading"]) == ["swing weight, dry, grip on", "total weight, dry, grip on"]
    assert sorted(found["inspect"]) == sorted(
        ["length", "loft", "lie", "swing weight", "total weight", "grip diameter at 2 in"]
    )
    assert "head: bottom of bore to ground (BBG)" in found["bore to ground"]
    known = {blank.label: blank.known for step in worked.steps for blank in blanks_of(step, worked)}
    assert known["head: weight"] == "296.4 g"


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_step_of_every_example_has_its_card_whole_on_one_page(name: str) -> None:
    worked = with_plan(work_document(completed_example(ROOT / "examples" / name)))
    data = cards_data(worked, "2026-03-02", "9f2c")
    assert [card.title for card in data.cards]
    printed = pages(pencil_cards(data))
    for card in data.cards:
        page = [page for page in printed if f"step {card.number} " in page]
        assert len(page) == 1, card.number
        for words in (*card.cautions, *(blank.label for blank in card.blanks)):
            assert words in page[0], (card.number, words)
    for step in worked.steps:
        assert all(not blank.kind or how_typed(blank.kind) for blank in blanks_of(step, worked)), step.key
        assert step.key in MAKERS


@at_the_bench
@pytest.mark.usefixtures("played")
def test_only_what_is_still_to_do_is_printed_and_one_step_when_it_is_named(session: Session, clock: Clock) -> None:
    run_to(session, clock, "cut")
    every = " ".join(pages(paper_of(session, JOB, "cards")))
    assert "Mix the adhesive" in every and "Mark, check, and cut the butt" not in every
    assert "Mark, check, and cut the butt" in " ".join(pages(paper_of(session, JOB, "cards", step="mark and cut")))
    with pytest.raises(InputError, match=r'step: no step of this job is called "mixx"\. Its steps: pull, '):
        paper_of(session, JOB, "cards", step="mixx")
    with pytest.raises(InputError, match="step: the sheet is of the whole job"):
        paper_of(session, JOB, "sheet", step="mix")


def test_a_closed_gate_says_on_its_card_why() -> None:
    data = cards_data(wedge(), "2026-03-02", step="glue")
    assert data.cards[0].waits and data.cards[0].gate == "glue"
    (page,) = pages(pencil_cards(data))
    assert f"■ {data.cards[0].waits[0]}" in page


def test_nothing_left_to_do_is_told() -> None:
    import msgspec

    worked = wedge()
    done = msgspec.structs.replace(
        worked, steps=tuple(msgspec.structs.replace(step, done=True) for step in worked.steps)
    )
    with pytest.raises(NotPossible, match="every step of T-0054 is done"):
        cards_data(done, "2026-03-02")


def test_a_german_bench_has_german_cards() -> None:
    german = UnitsShown(language="de")
    with shown_in(german):
        worked = wedge()
        (page,) = pages(pencil_cards(cards_data(worked, "2026-03-02", step="mark and cut")))
        every = " ".join(pages(pencil_cards(cards_data(worked, "2026-03-02"))))
    for words in ("Schritt 8 von 19", "Länge nach dem Schnitt", "getan am, um", "Bleistiftkarten", "rechte Hand"):
        assert words in page, words
    for words in ("done on", "left out", "measured with", "right hand", "signed before"):
        assert words not in every, words
