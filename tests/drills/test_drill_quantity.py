"""A quantity that the program does not have is added as CONTRIBUTING.md says, and goes all the way to sheet and tag.

The quantity is invented for the drill: a swing weight on a 13-inch fulcrum, in inch-ounces. It is checked apart from the
code under test: a moment about a point is total weight times its distance from the balance point.
"""

from __future__ import annotations

from typing import Any

import pytest

import clubwright
from altered import Altered
from clubwright.club.quantities import QUANTITIES
from clubwright.notation import render
from repository import ROOT

KEY = "swing_weight_13in"
MODULE = '''"""Swing weight on a scale with its fulcrum at 13 in. Derivation: docs/theory/swing-weight.md."""

from __future__ import annotations

from clubwright.club.build import Build
from clubwright.club.statics import statics
from clubwright.units import INCH_M, OUNCE_INCH_KG_M, Number


def swing_weight_13in_oz(build: Build) -> Number:
    """Return the moment about a fulcrum 13 in from the butt stop, in inch-ounces."""
    sums = statics(build)
    return (sums.first_kg_m - sums.mass_kg * 13 * INCH_M) / OUNCE_INCH_KG_M
'''
IMPORT = "from clubwright.club.swing_weight import "
ENTRY = """    Quantity(
        key="swing_weight_13in",
        name="13-inch swing weight",
        short="swing 13",
        symbol="t13",
        unit="in oz",
        kind="number",
        tolerance="1",
        tolerance_kind="number",
        steered_by="weights",
        read_by="13-inch scale",
        gauge=UsualGauge("0.1", "0.1", "0.1", "13-inch scale"),
        asked=Asked(meaning="13-inch swing weight in inch-ounces", example="240", half_width="1"),
        theory="swing-weight.md",
        function=swing_weight_13in_oz,
    ),
    Quantity(
        key="frequency",
"""
OUNCE, INCH = 0.028349523125, 0.0254
"""The avoirdupois ounce in kg and the inch in m (NIST SP 811, appendix B.8)."""

EXAMPLE = ROOT / "examples" / "wedge-54.toml"

GO = """
from clubwright.bootstrap import open_session
from clubwright.importers.ticket_file import load_ticket
from clubwright.labels.sheet.from_work import sheet_data
from clubwright.labels.sheet.sheet import build_sheet
from clubwright.labels.pictures.strip import strip_svg
from clubwright.labels.tag.from_work import tag_data
from clubwright.services.actions import bench
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.report.reading_back import read_back
from clubwright.services.answer.strips import strips_of
from clubwright.services.jobs.targets import target_lines
from clubwright.ticket.fields.schema import ticket_schema
from pathlib import Path
import msgspec, pypdfium2

key, example, folder, target, read, other = sys.argv[1:]
gauge = {"resolution": "0.05", "repeatability": "0.02", "bias": "0.02"}
with open_session(folder, by="Ann") as session:
    def worked():
        return answer_job(session.job("X-1054"), session.now())

    def said():
        sheet = pypdfium2.PdfDocument(build_sheet(sheet_data(worked(), session.job("X-1054"), "2026-03-02")))
        line = {line.key: line for line in target_lines(worked())}[key]
        strip = {strip.key: strip for strip in strips_of(worked())}[key]
        answer = msgspec.to_builtins(worked().answer())
        return {
            "stages": {stage: found[key]["mean"] for stage, found in answer["stages"].items()},
            "finished": answer["finished"][key],
            "advice": [key in item["finished"] and key in item["why"].replace("13-inch swing weight", key)
                       for item in answer["advice"] if item["do"].startswith(("fit", "leave as"))],
            "verdict": answer["verdicts"].get(key),
            "line": [line.name, line.ordered, line.read, line.verdict, line.settle],
            "strip": [strip.name, strip.target, strip.tolerance, strip.verdict, strip.belief.text, bool(strip.tick)],
            "svg": strip.name in strip_svg(strip),
            "sheet": " ".join("".join(page.get_textpage().get_text_bounded() for page in sheet).split()),
            "tag": [[item.name, item.text, item.standing] for item in tag_data(worked(), session.job("X-1054"), "").finals],
        }

    document = load_ticket(Path(example))
    document["target"][key] = target
    document["tolerance"][key] = "2"
    document["instrument"]["13-inch scale"] = gauge
    bench.take_ticket(session, document, "drill")
    before = said()
    bench.do_step(session, "X-1054", "choose weight", skipped="a drill")
    bench.change_order(session, "X-1054", {f"target.{key}": other}, said_by="the player", reason="a drill")
    opened = "choose weight" not in session.job("X-1054").steps_done
    echo = read_back(worked(), key, read, "finished")
    fact = bench.note_reading(session, "X-1054", key, read)
    after = said()
    schema = ticket_schema()["properties"]
    print(json.dumps({
        "before": before, "after": after, "opened": opened, "echo": [echo.expected, echo.far],
        "gauge": fact.what.instrument,
        "schema": [schema[table]["properties"][key]["description"] for table in ("target", "tolerance")],
    }))
"""


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    program = Altered(tmp_path_factory.mktemp("program"))
    program.write(f"club/{KEY}.py", MODULE)
    program.edit("club/quantities.py", IMPORT, f"from clubwright.club.{KEY} import {KEY}_oz\n{IMPORT}")
    program.edit("club/quantities.py", '    Quantity(\n        key="frequency",\n', ENTRY)
    assert program.touched == [f"club/{KEY}.py", "club/quantities.py"]
    shop = tmp_path_factory.mktemp("shop")
    return program.run(
        GO, KEY, str(EXAMPLE), str(shop), "214", f"{by_hand('finished'):.2f}", f"{by_hand('finished'):.1f}"
    )


def by_hand(stage: str) -> float:
    """Total weight times the distance of the balance point from the fulcrum, in inch-ounces, of the example as it is."""
    club = clubwright.work(EXAMPLE)["stages"][stage]
    return float(club["total_weight"]["mean"] * (club["balance_point"]["mean"] - 13 * INCH) / (OUNCE * INCH))


def test_the_program_as_it_is_does_not_have_it() -> None:
    assert KEY not in QUANTITIES
    refused = clubwright.work(
        EXAMPLE.read_text(encoding="utf-8").replace("[tolerance]", f'{KEY} = "214"\n\n[tolerance]')
    )
    assert any(KEY in finding["where"] for finding in refused["findings"])


def test_it_is_what_weight_and_balance_point_make_it_at_every_stage(told: dict[str, Any]) -> None:
    stages = told["before"]["stages"]
    assert len(stages) == 6
    for stage, ours in stages.items():
        # from the rounded figures of an answer: nine digits
        assert ours == pytest.approx(by_hand(stage), rel=1e-7), stage


def test_a_ticket_asks_for_it_and_the_answer_shows_target_tolerance_and_chance(told: dict[str, Any]) -> None:
    finished = told["before"]["finished"]
    assert (finished["target"], finished["tolerance"], finished["unit"]) == (214.0, 2.0, "in oz")
    assert 0.0 <= finished["chance"] <= 1.0
    assert told["schema"] == ["13-inch swing weight in inch-ounces", "half-width"]
    assert told["before"]["advice"] and all(told["before"]["advice"])
    assert told["before"]["line"][2:] == [[], "", "still to read: 13-inch scale"]


def test_another_order_of_it_begins_anew_the_step_that_aims_at_it(told: dict[str, Any]) -> None:
    assert told["opened"]


def test_a_reading_is_held_against_it_by_the_tickets_own_gauge_and_gets_a_verdict(told: dict[str, Any]) -> None:
    expected, far = told["echo"]
    assert expected and not far
    assert told["gauge"] == "13-inch scale"
    assert told["before"]["verdict"] is None
    assert told["after"]["verdict"]["verdict"] == "within"
    assert told["after"]["line"][2:4] == [[f"{by_hand('finished'):.2f}"], "within"]
    assert told["after"]["finished"]["sd"] < told["before"]["finished"]["sd"]


def test_strip_sheet_and_tag_show_it(told: dict[str, Any]) -> None:
    name, target, tolerance, verdict, text, tick = told["after"]["strip"]
    assert (name, target, tolerance, verdict, tick) == (
        "13-inch swing weight",
        f"{by_hand('finished'):.1f}",
        "2",
        "within",
        True,
    )
    assert text and told["after"]["svg"]
    assert not told["before"]["strip"][-1]
    assert "13-inch swing weight" in told["after"]["sheet"]
    assert f"{by_hand('finished'):.2f}" in told["after"]["sheet"]
    assert told["before"]["tag"][-1][0] == "swing 13"
    assert told["after"]["tag"][-1] == ["swing 13", render("number", round(by_hand("finished"), 2)), "read"]
