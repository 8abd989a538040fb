"""Units shown first: the chosen one leads on screen, page, sheet and tag; what is stored, read back or plain data stays."""

from __future__ import annotations

import math
from fractions import Fraction
from pathlib import Path

import msgspec
import pytest
from scipy import constants

from cli_runs import clubwright
from clubwright.labels.sheet.drawing_from_work import drawing_of
from clubwright.labels.sheet.from_work import sheet_data
from clubwright.notation import length_at_mark, length_in_full, parse, render, shown_in
from clubwright.notation.units_shown import LENGTHS, TEMPERATURES, UnitsShown
from clubwright.services.actions import bench
from clubwright.services.answer.club_answer import answer_document, work_document
from clubwright.services.jobs.closing import closing_points
from clubwright.services.jobs.job_answer import answer_job, with_plan
from clubwright.services.record.session import Session
from clubwright.ticket.shop.settings import NO_SETTINGS, read_shop
from clubwright.words.step import say_steps
from shopwork import SHOP_TEXT, TICKET_TEXT, completed_example, shop, ticket

MM = UnitsShown(length="mm", temperature="F")
DECIMAL = UnitsShown(length="decimal inches")
EXAMPLE = Path(__file__).parents[4] / "examples" / "wedge-54.toml"


def in_si(text: str) -> float:
    """Read a shown figure with the constants of a general-purpose library (scipy.constants)."""
    number, unit = text.split(" ")
    if unit in ("F", "C"):
        return float(constants.convert_temperature(float(number), unit, "K"))
    return float(number) * {"in": constants.inch, "mm": constants.milli}[unit]


@pytest.mark.parametrize("units", [DECIMAL, MM])
@pytest.mark.parametrize("value_m", [0.87058, 0.9017, 0.0015875, 1.2191])
def test_a_length_says_the_same_in_every_unit(units: UnitsShown, value_m: float) -> None:
    with shown_in(units):
        shown, at_mark, full = render("length", value_m), length_at_mark(value_m), length_in_full(value_m)
    assert shown == at_mark
    # half a thousandth of an inch, and of a hundredth of a millimetre
    assert in_si(shown) == pytest.approx(value_m, abs=0.0000128)
    assert full.startswith(f"{shown} (")
    assert full.count(" mm") == 1
    assert parse("length", shown).value == pytest.approx(value_m, abs=0.0000128), "it can be typed as it is shown"


@pytest.mark.parametrize("kelvin", [273.15, 295.15, 310.928])
def test_a_temperature_in_fahrenheit(kelvin: float) -> None:
    with shown_in(MM):
        text = render("temperature", kelvin)
    assert text.endswith(" F")
    assert in_si(text) == pytest.approx(kelvin, abs=0.03)
    with shown_in(MM):
        assert render("temperature", 295.15, 0.5).endswith("± 0.9 F")


def test_the_rest_of_a_fraction_is_said_in_words_at_the_bench_only() -> None:
    assert length_at_mark(0.87058) == "34 9/32 in - 0.006 in"
    with shown_in(UnitsShown()):
        assert length_at_mark(0.87058) == "34 9/32 in less 0.006 in"
        assert length_at_mark(34.02 * 0.0254) == "34 1/64 in plus 0.004 in"
        assert length_in_full(0.87058) == "34 9/32 in less 0.006 in (34.275 in, 870.58 mm)"
        assert length_at_mark(34.015625 * 0.0254) == "34 1/64 in"
    with shown_in(MM):
        assert length_in_full(0.87058) == "870.58 mm (34 9/32 in less 0.006 in, 34.275 in)"
    with shown_in(DECIMAL):
        assert length_in_full(0.87058) == "34.275 in (34 9/32 in less 0.006 in, 870.58 mm)"


def test_the_mark_and_its_rest_are_the_length() -> None:
    with shown_in(UnitsShown()):
        whole, part, _, sign, rest, _ = length_at_mark(0.87058).split(" ")
    mark = Fraction(whole) + Fraction(part)
    assert math.isclose(float(mark) + {"less": -1, "plus": 1}[sign] * float(rest), 0.87058 / 0.0254, abs_tol=0.0005)


def test_what_the_shop_says_and_every_finding_at_once() -> None:
    said = {"length": "mm", "mass": "g", "temperature": "F", "angle": "deg"}
    assert read_shop({**shop(), "units": said}).findings == ()
    assert read_shop({**shop(), "units": said}).units() == MM
    assert NO_SETTINGS.units() == UnitsShown()
    assert {(length, warm) for length in LENGTHS for warm in TEMPERATURES} == {
        (found.length, found.temperature)
        for length in LENGTHS
        for warm in TEMPERATURES
        for found in [read_shop({"units": {"length": length, "temperature": warm}}).units()]
    }
    bad = read_shop({"units": {"length": "cm", "mass": "oz", "temperature": "K", "angle": "rad", "time": "s"}})
    assert len(bad.errors) == 5
    assert bad.units() == UnitsShown()


def test_plain_data_are_the_same_whatever_comes_first(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    plain, chosen = tmp_path / "a" / "shop.toml", tmp_path / "b" / "shop.toml"
    for file, text in ((plain, SHOP_TEXT), (chosen, SHOP_TEXT + '[units]\nlength = "mm"\ntemperature = "F"\n')):
        file.parent.mkdir()
        file.write_text(text, encoding="utf-8")
    for command in ("work", "plan"):
        one, other = (
            clubwright(capsys, command, str(EXAMPLE), "--shop-file", str(file), "--json") for file in (plain, chosen)
        )
        assert one.out == other.out
    out = clubwright(capsys, "work", str(EXAMPLE), "--shop-file", str(chosen)).out
    assert " mm (" in out
    assert "Mark 34" not in out


def test_the_plan_the_sheet_and_the_drawing_lead_with_it() -> None:
    document = completed_example(EXAMPLE)
    with shown_in(MM):
        worked = with_plan(work_document(document))
        sheet, drawing = sheet_data(worked, None, "2026-12-01"), drawing_of(worked, None)
    cut = next(step for step in say_steps(worked.steps, MM) if step.key == "mark and cut")
    assert [text.endswith(" mm") for _, text in cut.act_on] == [True, True]
    marks = [line.text for line in sheet.cut if line.name.startswith("mark")]
    assert marks
    assert all(text.split(" ")[1] == "mm" for text in marks)
    assert drawing.cut is not None
    assert drawing.cut.text.split(" ")[2] == "mm"
    plain = with_plan(work_document(document)).steps
    assert plain == worked.steps, "a step is data, whatever it is said in"
    assert say_steps(plain, None) != say_steps(plain, MM)


def test_a_job_is_worked_anew_for_other_units_and_its_marks_stay(session: Session) -> None:
    bench.take_ticket(session, completed_example(EXAMPLE), "T.toml")
    job = session.job(session.shop().numbers and next(iter(session.shop().jobs)))
    canonical = answer_job(job, session.now())
    with shown_in(MM):
        shown = answer_job(job, session.now())
        marks = [point.mark for point in closing_points(job, shown)]
        assert shown.answer()["cut"]["text"] != canonical.answer()["cut"]["text"]
    assert marks == [point.mark for point in closing_points(job, canonical)]
    assert answer_job(job, session.now()).answer() == canonical.answer()


def test_what_is_typed_is_read_as_ever() -> None:
    document = ticket(target={"length": "901.7"})
    with shown_in(MM):
        found = [item for item in answer_document(document)["findings"] if item["where"] == "ticket [target] length"]
    assert [item["severity"] for item in found] == ["error"]
    assert msgspec.structs.asdict(MM)["length"] == "mm"
    assert TICKET_TEXT
