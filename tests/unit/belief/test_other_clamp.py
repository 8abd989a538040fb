"""A frequency is read by some clamp and some test weight: said of shop, meter or reading, and converted where another."""

from __future__ import annotations

import tomllib
from copy import deepcopy
from typing import Any

import pytest

from clubwright.belief.causes.bookings import Bench
from clubwright.club.frequency import frequency_with_test_mass_hz
from clubwright.club.stages import FINISHED, STAGES
from clubwright.journal.reducers.club_document import taken_over
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.services.answer.club_answer import work_document
from clubwright.services.answer.inspection import inspect
from clubwright.ticket.fields.defaults import default_for
from clubwright.ticket.fields.fields import METER_FIELDS
from clubwright.ticket.fields.figures import meter_of
from clubwright.ticket.read import read_ticket
from repository import ROOT

FACTOR = "shaft.stiffness_factor"
SHORT = {"clamp": "2 1/2 in"}
USUAL_METER = {field.key: getattr(default_for(f"shop.{field.key}", "iron"), "text", "") for field in METER_FIELDS}


def iron(value: str = "", stage: str = "bare shaft", meter: str | None = "meter", **reading: str) -> dict[str, Any]:
    """The invented iron of the examples, its own readings left out; with one frequency when a value is given."""
    document = tomllib.loads((ROOT / "examples" / "iron.toml").read_text(encoding="utf-8"))
    del document["shop"]
    document["shaft"]["cut_length"] = "35.755 in"
    document["instrument"]["meter"] = {"resolution": "0.1 cpm", "repeatability": "0.2 cpm"}
    row = {"quantity": "frequency", "value": value, "stage": stage, "weights": [], **reading}
    document["reading"] = [row | ({"instrument": meter} if meter else {})] if value else []
    return document


def state(document: dict[str, Any]) -> ClubState:
    ticket, findings = read_ticket(document)
    assert ticket is not None, [finding.sentence() for finding in findings]
    return club_state_of(ticket)


def cpm(document: dict[str, Any], stage: str = "bare shaft") -> float:
    return 60 * float(state(document).predict(["frequency"], STAGES[stage]).mean[0, 0])


def factor(document: dict[str, Any]) -> tuple[float, float]:
    belief = state(document).belief
    return belief.mean_of(FACTOR), belief.sd_of(FACTOR)


@pytest.mark.parametrize("stage", ["bare shaft", "dry, no grip", "finished"])
def test_another_clamp_teaches_what_the_shops_own_would(stage: str):
    """Two meters read one shaft 3 % stiffer than its table: each in its own clamp, and the belief is the same."""
    stiffer = iron()
    stiffer["shaft"]["stiffness_factor"] = "1.03"
    long, short = cpm(stiffer, stage), cpm({**stiffer, "shop": SHORT}, stage)
    assert long - short > 10
    by_shop = factor(iron(f"{long:.6f} cpm", stage))
    by_other = factor(iron(f"{short:.6f} cpm", stage, **SHORT))
    # with a head on, the figures of the head take a little of it, in either clamp another little
    assert by_other[0] == pytest.approx(by_shop[0], abs=2e-4 if stage == "bare shaft" else 1e-3)
    assert by_shop[0] == pytest.approx(1.03, abs=0.004 if stage == "bare shaft" else 0.01)
    taken_as_the_shops = factor(iron(f"{short:.6f} cpm", stage, keep="yes"))
    assert taken_as_the_shops[0] < by_shop[0] - 0.03, "unsaid, it is a softer shaft"


def test_the_reading_counts_before_the_meter_and_the_meter_before_the_shop():
    document = iron("300 cpm", clamp="4 in")
    document["instrument"]["meter"] |= {"clamp": "3 in", "frequency_test_weight": "200 g"}
    document["shop"] = {"clamp": "2 in", "clamp_give": "0.1 deg", "frequency_test_insertion": "1/2 in"}
    (judged,) = state(document).learned.judged
    meter = judged.reading.meter
    assert meter is not None
    assert meter.clamp_length_m == pytest.approx(4 * 0.0254)
    assert meter.test_mass_kg == pytest.approx(0.2)
    assert meter.test_insertion_m == pytest.approx(0.0127)
    # 1 kg hung 1 m out turns it by 0.1 deg: statics, moment = mass x standard gravity x arm
    assert meter.clamp_compliance_rad_n_m == pytest.approx(0.1 * 3.141592653589793 / 180 / 9.80665)


def test_a_lighter_test_weight_reads_higher_and_is_told_from_a_stiffer_shaft():
    """200 g for 205 g; the weight reaches the beam that tests/published/test_published_frequency.py checks."""
    shaft = state(iron()).club.shaft
    hz = [float(frequency_with_test_mass_hz(shaft, 0.127, kg, 0.0254)) for kg in (0.200, 0.205)]
    assert 2 < 60 * (hz[0] - hz[1]) < 5
    said = factor(iron(f"{60 * hz[0]:.6f} cpm", frequency_test_weight="200 g"))
    unsaid = factor(iron(f"{60 * hz[0]:.6f} cpm"))
    assert said[0] == pytest.approx(1.0, abs=2e-4)
    assert unsaid[0] > 1.01


def test_a_frequency_ordered_in_the_shops_clamp_is_judged_in_it():
    stage = FINISHED.name
    ordered = iron()
    ordered["target"]["frequency"], ordered["tolerance"]["frequency"] = f"{cpm(ordered, stage):.3f} cpm", "2.5 cpm"
    short = cpm({**ordered, "shop": SHORT}, stage)
    row = iron(f"{short:.6f} cpm", stage, **SHORT)["reading"]
    found = inspect(state({**ordered, "reading": row}))["frequency"]
    assert found.measured is not None
    assert found.measured * 60 == pytest.approx(cpm(ordered, stage), abs=0.01)
    assert found.verdict == "within"
    unsaid = inspect(state({**ordered, "reading": [{**row[0], "clamp": "5 in", "keep": "yes"}]}))["frequency"]
    assert unsaid.verdict == "outside"


def test_what_was_read_in_the_clamp_of_a_job_before_is_converted_and_not_left_out():
    document = iron("300 cpm")
    document["shop"] = {"clamp": "5 in"}
    later = taken_over(document, {"ticket": {"id": "T-2", "job": "loft-lie"}, "shop": SHORT})
    (row,) = later["reading"]
    assert (row["clamp"], row.get("keep")) == ("5 in", None)
    (unsaid,) = taken_over(iron("300 cpm"), {"ticket": {"id": "T-2", "job": "loft-lie"}, "shop": SHORT})["reading"]
    assert unsaid["clamp"] == "5 in"
    (same,) = taken_over(document, {"ticket": {"id": "T-2", "job": "loft-lie"}, "shop": {"clamp": "5 in"}})["reading"]
    assert "clamp" not in same


def test_the_usual_meter_is_one():
    ticket, _ = read_ticket({**iron(), "shop": dict(USUAL_METER)})
    silent, _ = read_ticket(iron())
    assert ticket is not None and silent is not None
    assert meter_of(ticket.shop) == meter_of(silent.shop)


@pytest.mark.parametrize(
    ("change", "where", "what"),
    [
        (
            {"quantity": "swing_weight", "value": "D2", "instrument": "scale", "clamp": "5 in"},
            "clamp",
            "only a frequency",
        ),
        ({"clamp": "30 in"}, "clamp", "cannot be"),
        ({"clamp_give": "-1 deg"}, "clamp_give", "cannot be"),
        ({"frequency_test_weight": "20 kg"}, "frequency_test_weight", ""),
    ],
)
def test_what_no_meter_has_is_refused_where_it_stands(change: dict[str, str], where: str, what: str):
    document = iron("300 cpm")
    document["reading"][0] |= change
    _, findings = read_ticket(document)
    errors = [item for item in findings if item.severity == "error"]
    assert any(str(item.where).endswith(where) and what in item.what for item in errors), findings


def test_a_meter_without_its_step_is_refused_and_one_that_is_no_meter_says_so():
    document = deepcopy(iron("300 cpm"))
    document["instrument"]["meter"] = {"clamp": "3 in"}
    ticket, findings = read_ticket(document)
    assert ticket is None
    assert any("neither resolution nor repeatability" in item.what for item in findings)


def test_what_is_taken_for_the_meter_is_said_where_a_frequency_is_read():
    worked = work_document(iron("300 cpm"))
    said = {str(item.where).rpartition("] ")[2] for item in worked.findings if "[shop]" in str(item.where)}
    assert said == {"clamp", "clamp_give", "frequency_test_weight", "frequency_test_insertion"}
    document = iron("300 cpm", **USUAL_METER)
    del document["target"]["frequency"]
    assert not [item for item in work_document(document).findings if "[shop]" in str(item.where)]


def test_a_slip_of_stage_is_tried_in_the_clamp_that_the_frequency_was_read_in() -> None:
    """What is foretold of it at its own stage is what is foretold of it in the first place."""
    found = state(iron("300 cpm", "finished", clamp="2 1/2 in"))
    readings = [item.reading for item in found.learned.judged]
    bench = Bench(found.prior.belief, found.prior.club, found.prior.conventions, readings)
    told = bench.at_stage([0], FINISHED)
    assert told is not None
    assert told[0] == pytest.approx(bench.off, rel=1e-9)
    assert readings[0].meter is not None
