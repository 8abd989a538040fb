"""Figures that a ticket and a shop may give of tape, adhesive and frequency meter, and what is announced of them."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from clubwright.club.frequency import frequency_with_test_mass_hz
from clubwright.club.stages import BARE_SHAFT
from clubwright.services.answer.club_answer import answer_document, work_document
from clubwright.units import INCH_M
from shopwork import ticket

EXAMPLES = Path(__file__).parents[3] / "examples"


def noted(document: dict[str, Any]) -> dict[str, str]:
    return {item["where"]: item["what"] for item in answer_document(document)["findings"] if item["severity"] == "note"}


def test_a_ticket_that_says_nothing_of_tape_is_told_that_none_is_counted() -> None:
    assert noted(ticket())["ticket [[tape]]"] == "not given: taken as none"
    assert "ticket [[tape]]" not in noted(ticket(tape=[]))
    assert "ticket [[tape]]" not in noted(
        ticket(ticket={"id": "T-1", "kind": "iron", "hand": "left", "job": "loft-lie"})
    )


def test_tape_whose_layer_was_weighed_is_no_default() -> None:
    layers = {"layers": "2", "layer_mass": "1.6 g ± 0.1 g", "cg_from_cap": "5.1 in"}
    assert "ticket [[tape]] 1 mass" not in noted(ticket(tape=[layers]))
    worked = work_document(ticket(tape=[layers])).club_state
    assert worked.belief.mean_of("tapes.0.mass_kg") == pytest.approx(3.2e-3, rel=1e-12)
    assert worked.belief.sd_of("tapes.0.mass_kg") == pytest.approx(0.2e-3, rel=1e-12)
    area = {"width": "2 in", "length": "10 in", "area_density": "120 g/m2"}
    assert "ticket [[tape]] 1 mass" not in noted(ticket(tape=[area]))
    assert "ticket [[tape]] 1 mass" in noted(ticket(tape=[{"layers": "2"}]))


def test_a_butt_density_that_is_worked_out_is_announced() -> None:
    shaft = {"raw_length": "37 in", "mass": "125 g", "balance_from_tip": "19 1/4 in"}
    assert "from the shaft's mass and balance" in noted(ticket(shaft=shaft))["ticket [shaft] butt_density"]
    assert "ticket [shaft] butt_density" not in noted(ticket(shaft={**shaft, "butt_density": "3.6 g/in"}))


@pytest.mark.parametrize(
    ("said", "mass_kg", "into_m"),
    [({}, 0.205, INCH_M), ({"frequency_test_weight": "255 g", "frequency_test_insertion": "20 mm"}, 0.255, 0.02)],
)
def test_a_bare_shaft_swings_with_the_weight_that_the_shop_hangs_on_it(
    said: dict[str, str], mass_kg: float, into_m: float
) -> None:
    """The weight reaches the beam, which tests/published/test_published_frequency.py checks from outside."""
    document = tomllib.loads((EXAMPLES / "iron.toml").read_text(encoding="utf-8"))
    document["shop"] = {**document.get("shop", {}), **said}
    worked = work_document(document)
    meter = worked.club_state.prior.conventions.meter
    ours = float(worked.club_state.predict(["frequency"], BARE_SHAFT).mean[0, 0])
    direct = frequency_with_test_mass_hz(worked.club_state.club.shaft, meter.clamp_length_m, mass_kg, into_m)
    assert ours == pytest.approx(float(direct), rel=1e-6)
