"""The sheet says what was done beside what was planned: grams, lot, temperatures, times, who, and what was signed."""

from __future__ import annotations

import pypdfium2 as pdfium
import pytest

from benchwork import JOB, Clock, run_to, worked
from clubwright.labels.sheet.data import SheetData, SheetStep
from clubwright.labels.sheet.from_work import sheet_data
from clubwright.labels.sheet.sheet import build_sheet
from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from clubwright.services.report.done_work import done_work

pytestmark = [pytest.mark.usefixtures("played"), pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)]


def sheet(session: Session) -> SheetData:
    return sheet_data(worked(session), session.job(JOB), "2026-03-02")


def steps(session: Session) -> dict[str, SheetStep]:
    keys = [step.key for step in worked(session).steps]
    return dict(zip(keys, sheet(session).steps, strict=True))


def pages(session: Session) -> list[str]:
    document = pdfium.PdfDocument(build_sheet(sheet(session)))
    return [" ".join(page.get_textpage().get_text_bounded().split()) for page in document]


def test_deeds_stand_beside_the_plan_with_grams_lot_temperature_time_and_who(session: Session, clock: Clock):
    run_to(session, clock, "glue")
    printed = steps(session)
    assert printed["mix"].deeds == ("mixed 4.0 g + 2.0 g (2.00:1 by weight) at 22 C, lot 7: Ann, 2026-03-02 09:12 UTC",)
    assert "ratio" in printed["mix"].numbers, "the plan stays beside it"
    assert printed["glue"].deeds == ("glued 2026-03-02 09:24 UTC at 22 C: Ann",)
    assert printed["choose weight"].deeds == ("port 6 6.05 g: Ann, 2026-03-02 09:00 UTC",)
    assert printed["mark and cut"].deeds == ("cut to 34.01 in: Ann, 2026-03-02 08:36 UTC",)
    assert printed["weigh"].done == "done: Ann, 2026-03-02 08:24 UTC"
    assert (printed["cure"].done, printed["cure"].deeds) == ("", ())
    page = " ".join(pages(session))
    assert "mixed 4.0 g + 2.0 g (2.00:1 by weight) at 22 C, lot 7: Ann, 2026-03-02 09:12 UTC" in page
    assert "asked for: 54, mid bounce, 35 1/4 to the cap, D4, half flat" in page


def test_each_deed_is_of_whoever_did_it(session: Session, clock: Clock):
    import msgspec

    run_to(session, clock, "read swing_weight D3.8 dry, gripped")
    ben = msgspec.structs.replace(session, by="Ben")
    bench.mix_adhesive(ben, JOB, "4.0 g", "2.0 g", "22 C", "lot 7")
    bench.do_step(ben, JOB, "tape", skipped="none is left")
    found = {item.step: item.by for item in done_work(session.job(JOB), worked(session))}
    assert (found["mark and cut"], found["mix"]) == ("Ann", "Ben")
    assert steps(session)["tape"].done == "passed over: none is left; Ben, 2026-03-02 09:06 UTC"


def test_a_reading_says_who_took_it_and_when(session: Session, clock: Clock):
    run_to(session, clock, "done tag")
    lines = sheet(session).readings
    assert lines[-1] == "swing weight D1.3, dry, grip on (before a change); Ann, 2026-03-02 08:48 UTC"
    assert "total weight 477.2 g, finished (left out); Ann, 2026-03-03 01:12 UTC" in lines


def test_a_closed_job_shows_its_gates_and_its_marks_as_they_were_signed(session: Session, clock: Clock):
    run_to(session, clock, "sign cut")
    at_signing = {line.name: line.text for line in sheet(session).cut}
    run_to_end(session, clock)
    printed = sheet(session)
    assert [(gate.step, gate.signed) for gate in printed.gates] == [
        ("cut", "Ann, 2026-03-02 08:30 UTC"),
        ("glue", "Ann, 2026-03-02 09:18 UTC"),
        ("release", "Ann, 2026-03-03 01:36 UTC"),
    ]
    marks = {line.name: line.text for line in printed.cut}
    assert marks["signed mark from tip"] == at_signing["mark from tip"], (
        "the bend after it moves no mark that was signed"
    )
    assert printed.drawing.cut is not None and "34.010 in" in printed.drawing.cut.text, "drawn where it was cut"
    (page,) = pages(session)
    assert "next:" not in page, "nothing is to come on a closed job"
    assert "cut: signed Ann, 2026-03-02 08:30 UTC, checked: bottom of bore to ground" in page


def run_to_end(session: Session, clock: Clock) -> None:
    from benchwork import PLAYED

    there = session.ledger.count()
    session.ledger.receive([fact for _, _, fact in PLAYED[there:]])
    clock.time = PLAYED[-1][1]


def test_an_open_gate_is_not_called_signed_before_it_has_served(session: Session, clock: Clock):
    run_to(session, clock, "sign glue")
    assert {gate.step: bool(gate.signed) for gate in sheet(session).gates} == {
        "cut": True,
        "glue": False,
        "release": False,
    }


@pytest.mark.parametrize("aside", [8, 12, 30])
def test_many_readings_set_aside_go_on_to_a_second_page_whole(session: Session, clock: Clock, aside: int):
    run_to(session, clock, "read swing_weight D3.8 dry, gripped")
    for number in range(aside):
        value = f"E{number % 7}.{number}"
        bench.note_reading(
            session, JOB, "swing_weight", value, stage="dry, gripped", instrument="swing scale", key=f"aside-{number}"
        )
    printed = pages(session)
    assert len(printed) >= 2
    for number, page in enumerate(printed, start=1):
        assert f"{JOB}, page {number} of {len(printed)}" in page
    assert "glue: stop" in printed[0]
    said = " ".join(printed)
    for number in range(aside):
        assert f"swing weight E{number % 7}.{number}, dry, grip on (kept aside)" in said
    assert said.count("is kept aside") == aside
    assert "more in the record" not in said
