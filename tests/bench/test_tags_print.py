"""Tag and build sheet print for every example, every ticket of the demo and one wedge in every state it goes through.

Read back by other programs: PDFium says how many pages there are and where each letter stands, Pillow where there is ink,
ZXing what the code says at the printer's own dots.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from importlib.resources import files
from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy as np
import pypdfium2 as pdfium
import pytest
import zxingcpp
from PIL import Image

from benchwork import JOB, PLAYED, Clock, run_to
from clubwright.club.quantities import TARGETS
from clubwright.club.stages import FINISHED
from clubwright.labels.printable import printable_text
from clubwright.labels.sheet.from_work import sheet_data
from clubwright.labels.sheet.sheet import build_sheet
from clubwright.labels.tag.data import TagData
from clubwright.labels.tag.from_work import tag_data
from clubwright.labels.tag.tag import tag_label
from clubwright.notation import render
from clubwright.services.actions import bench
from clubwright.services.answer.club_answer import work_document
from clubwright.services.jobs.job_answer import JobAnswer, answer_job, with_plan
from clubwright.services.record.session import Session
from shopwork import completed_example

MM_POINT = 25.4 / 72
PAGE_MM = (62.0, 29.0)
EDGE_MM = 1.0
"""Nothing is printed so near to the edge: a printer's own margin."""

DAY = "2031-05-12"
EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
DEMO = sorted((Path(str(files("clubwright.demo")))).glob("*.toml"))
TICKETS = {f"{path.parent.name}/{path.stem}": path for path in (*EXAMPLES, *DEMO) if path.name != "shop.toml"}
MOMENTS = ("take", "cut", "fit", "glue", "done cure", "grip", "leave out", "sign release", "done tag")

LONG = "Maximiliana Featherstonehaugh-Oyelaran of the Invented Larchfield Estate at Kestrelmoor"
UNBROKEN = "Featherstonehaughoyelarankestrelmoorlarchfieldredstartwhinchatdunlin" * 2
NAMES = {
    "long": LONG,
    "unbroken": UNBROKEN,
    "wide": "W" * 64,
    "Cyrillic": "Ольга Вымышленная",
    "Greek": "Ελένη Φανταστική",
    "accents": "Zoë Žižková-Łącka o\u0301",
    "Japanese": "架空 太郎",
    "Arabic": "ليلى الخيالية",
    "emoji": "Robin 🏌🏽\u200d♀️ Ashdown",
    "control": "Robin\x07\tAshdown",
}


def document(name: str) -> dict[str, Any]:
    return completed_example(TICKETS[name])


def worked_file(content: dict[str, Any]) -> JobAnswer:
    return with_plan(work_document(content, "ticket.toml"))


def boxes(page: Any) -> Iterator[tuple[str, float, float, float, float]]:
    """Yield each letter with its box in mm from the lower left corner."""
    words = page.get_textpage()
    for index in range(words.count_chars()):
        letter = words.get_text_range(index, 1)
        if letter.strip():
            yield (letter, *(side * MM_POINT for side in words.get_charbox(index)))


def check_tag(data: TagData) -> str:
    """Print the tag as PDF and as pictures; return its text, every kind of space plain."""
    document = pdfium.PdfDocument(tag_label(data))
    assert len(document) == 1
    page = document[0]
    assert [side * MM_POINT for side in page.get_size()] == pytest.approx(PAGE_MM, abs=0.1)
    for letter, left, bottom, right, top in boxes(page):
        inside = left >= EDGE_MM and bottom >= EDGE_MM and right <= PAGE_MM[0] - EDGE_MM and top <= PAGE_MM[1] - EDGE_MM
        assert inside, (letter, left, bottom, right, top)
    for dpi in (180, 203, 300):
        image = Image.open(io.BytesIO(tag_label(data, format="png", dpi=dpi))).convert("L")
        assert [image.width / dpi * 25.4, image.height / dpi * 25.4] == pytest.approx(PAGE_MM, abs=0.1)
        edge = round(EDGE_MM / 25.4 * dpi)
        frame = image.copy()
        frame.paste(255, (edge, edge, image.width - edge, image.height - edge))
        assert frame.getextrema() == (255, 255)
        expected = data.ticket_id.upper() if data.ticket_id.isascii() and "_" not in data.ticket_id else data.ticket_id
        assert [code.text for code in zxingcpp.read_barcodes(image)] == [expected], dpi
    text = " ".join(page.get_textpage().get_text_bounded().replace("\xa0", " ").replace("\u200b", "").split())
    check_figures(data, text)
    return text


def check_figures(data: TagData, text: str) -> None:
    """The first figures are there, each whole and behind its sign, in their order; the others are counted."""
    signs = {"read": "", "believed": "≈ ", "ordered": "→ "}
    shown = [f"{final.name} {signs[final.standing]}{final.text}" for final in data.finals]
    count = next((n for n, words in enumerate(shown) if words not in text), len(shown))
    assert all(words not in text for words in shown[count:])
    places = [text.index(words) for words in shown[:count]]
    assert all(one < other for one, other in pairwise(places))
    rest = len(shown) - count
    left = f"and {rest} more on the sheet" if count else f"{rest} figures on the sheet"
    assert (left in text) == (rest > 0), (text, shown)
    kinds = {final.standing for final in data.finals[:count]}
    assert ("believed, not read" in text) == ("believed" in kinds)
    assert ("ordered, not known" in text) == ("ordered" in kinds)


def check_sheet(worked: JobAnswer, job: Any = None) -> None:
    document = pdfium.PdfDocument(build_sheet(sheet_data(worked, job, DAY, "9f2c")))
    assert len(document) <= 2, "what was done stands beside the plan, and goes on to a second page"
    for page in document:
        width, height = (side * MM_POINT for side in page.get_size())
        for letter, left, bottom, right, top in boxes(page):
            assert left >= 0 and bottom >= 0 and right <= width and top <= height, letter


@pytest.mark.parametrize("name", TICKETS)
def test_every_example_and_every_ticket_of_the_demo_prints_fresh(name: str) -> None:
    worked = worked_file(document(name))
    text = check_tag(tag_data(worked, None, DAY))
    assert f"printed {DAY}" in text
    assert worked.club_state.ticket.row("ticket").words.get("player", "") in text
    check_sheet(worked)


@pytest.mark.parametrize("name", TICKETS)
def test_every_one_prints_once_the_finished_club_is_read(name: str) -> None:
    """Every ordered quantity read as it is believed, at the stage "finished"; then the tag says it as read."""
    content = document(name)
    before = worked_file(content)
    tray = zip(before.club_state.ticket.weights, before.club_state.ticket.fitted_now, strict=True)
    weights = [row.words["name"] for row, count in tray for _ in range(round(count))]
    rows = [
        {"quantity": goal.key, "value": final.text, "stage": FINISHED.name, "weights": weights}
        for goal, final in zip(
            sorted(before.club_state.goals, key=lambda goal: TARGETS[goal.key].rank),
            tag_data(before, None, DAY).finals,
            strict=True,
        )
    ]
    content["reading"] = [*content.get("reading", []), *rows]
    worked = worked_file(content)
    data = tag_data(worked, None, DAY)
    assert {final.standing for final in data.finals} == {"read"}
    assert "≈" not in check_tag(data)
    check_sheet(worked)


@pytest.mark.parametrize("moment", MOMENTS)
def test_the_wedge_prints_at_every_moment_of_its_job(session: Session, clock: Clock, played: None, moment: str) -> None:
    run_to(session, clock, moment)
    job = session.job(JOB)
    worked = answer_job(job, session.now())
    text = check_tag(tag_data(worked, job, DAY))
    check_sheet(worked, job)
    assert ("NOT RELEASED" in text) == (moment not in ("sign release", "done tag"))
    assert ("built 2026-03-" in text) == (moment == "done tag")


def test_the_finished_wedge_shows_what_was_read_with_units_logo_and_wraps(
    session: Session, clock: Clock, played: None
) -> None:
    run_to(session, clock, PLAYED[-1][0])
    job = session.job(JOB)
    text = check_tag(tag_data(answer_job(job, session.now()), job, DAY))
    for words in (
        "length 35 1/4 in", "swing D4", "loft 54 deg", "lie 63.5 deg", "total 472.2 g", "grip 2 in 0.916 in",
        "logo down", "tape", "built 2026-03-03", JOB, "right hand",
    ):  # fmt: skip
        assert words in text, (words, text)
    assert "≈" not in text and "to lay" not in text and "D4.1" not in text and "477.2" not in text


def test_a_reading_that_was_set_aside_is_not_shown_as_read(session: Session, clock: Clock, played: None) -> None:
    run_to(session, clock, "leave out")
    job = session.job(JOB)
    text = check_tag(tag_data(answer_job(job, session.now()), job, DAY))
    assert "477.2" not in text and "total ≈ 47" in text


@pytest.mark.parametrize("which", NAMES)
@pytest.mark.parametrize("name", ["demo/iron-7", "examples/regrip"])
def test_long_names_and_names_in_any_letters_print(name: str, which: str) -> None:
    content = document(name)
    content["ticket"] |= {"player": NAMES[which], "label": NAMES[which]}
    for section in ("head", "shaft", "grip"):
        if section in content:
            content[section]["name"] = NAMES[which]
    for rows in (content.get("tape", []), content.get("weight", [])):
        for number, row in enumerate(rows):
            row["name"] = f"{NAMES[which]} {number}"
    if which in ("control", "emoji"):  # a weight's name with a sign that cannot be seen is refused with the ticket
        content["weight"] = document(name).get("weight", [])
    worked = worked_file(content)
    text = check_tag(tag_data(worked, None, DAY))
    assert f", {worked.club_state.ticket.hand} hand" in text
    assert printable_text(NAMES[which])[:5].strip() in text
    check_sheet(worked)


@pytest.mark.parametrize("ticket_id", ["T-1", "W" * 24, "t-0042.b", "TICKET_1", "ÄB 12", "X" * 38])
def test_every_id_that_a_ticket_may_have_is_coded_and_written_out(ticket_id: str) -> None:
    content = document("demo/iron-7")
    content["ticket"]["id"] = ticket_id
    worked = worked_file(content)
    text = check_tag(tag_data(worked, None, DAY))
    assert ticket_id.replace(" ", "") in text.replace(" ", "")
    check_sheet(worked)


def test_eleven_targets_that_nothing_is_known_of_leave_the_most_important() -> None:
    content = document("examples/iron")
    content["target"] |= {"bounce": "5 deg", "balance_point": "30 in", "moi": "2700 kg cm2", "total_weight": "440 g"}
    content["ticket"] |= {"player": LONG, "label": LONG}
    data = tag_data(worked_file(content), None, DAY)
    assert len(data.finals) == 11
    text = check_tag(data)
    assert "length ≈ " in text and "swing ≈ " in text and "more on the sheet" in text


def test_what_goes_first_has_a_place_of_its_own_for_every_target() -> None:
    assert sorted(asked.rank for asked in TARGETS.values()) == list(range(1, len(TARGETS) + 1))


def test_a_figure_that_nothing_is_known_of_is_marked_as_ordered() -> None:
    content = document("examples/hybrid")
    content["target"]["frequency"] = "280 cpm"
    assert "stiffness" not in content["shaft"]
    text = check_tag(tag_data(worked_file(content), None, DAY))
    assert "frequency → 280.0 cpm" in text
    assert "→ ordered, not known" in text


def test_a_reading_with_other_weights_on_is_not_of_this_club() -> None:
    content = document("examples/driver")
    name = content["weight"][0]["name"]
    before = worked_file(content).club_state
    with_it = before.predict(["swing_weight"], fitted=np.array([before.ticket.fitted_counts((name,))]))
    value = render("swing_weight", float(with_it.mean[0, 0]))
    for quantity, text in (("length", "44 3/4 in"), ("swing_weight", value)):
        content["reading"].append({"quantity": quantity, "value": text, "stage": FINISHED.name, "weights": [name]})
    content["reading"].append({"quantity": "grip.mass", "value": content["grip"]["mass"], "weights": []})
    worked = worked_file(content)
    assert worked.club_state.ticket.fitted_now[0] == 0
    assert all(item.taken for item in worked.club_state.learned.judged[-3:])
    text = check_tag(tag_data(worked, None, DAY))
    assert "length 44 3/4 in" in text and value not in text and "swing ≈ " in text


def test_a_reading_with_an_uncertainty_behind_it_is_shown_by_its_value() -> None:
    content = document("examples/hybrid")
    content["reading"] = [{"quantity": "length", "value": "1022.35 mm ± 0.30 mm", "stage": FINISHED.name}]
    assert "length 40 1/4 in" in check_tag(tag_data(worked_file(content), None, DAY))


def test_a_closed_club_prints_and_so_does_it_when_it_is_opened_again(
    session: Session, clock: Clock, played: None
) -> None:
    run_to(session, clock, "done tag")
    bench.undo(session, JOB)
    bench.undo(session, JOB)
    job = session.job(JOB)
    assert job.finished is None
    assert f"printed {DAY}" in check_tag(tag_data(answer_job(job, session.now()), job, DAY))
