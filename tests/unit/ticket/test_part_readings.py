"""Readings of one figure of a part: which, by its path, and what a ticket must have before one can be used."""

from __future__ import annotations

import copy
import tomllib
from importlib.resources import files
from typing import Any

import pytest

from clubwright.planning.club_state import club_state_of
from clubwright.services.answer.club_answer import work_ticket
from clubwright.ticket.part_readings import part_kind
from clubwright.ticket.read import read_ticket

TEXT = (files("clubwright.demo") / "wedge-54.toml").read_text(encoding="utf-8")
GRAM = 1e-3


def document(**more: Any) -> dict[str, Any]:
    return {**copy.deepcopy(tomllib.loads(TEXT)), **more}


def reading(quantity: str, value: str) -> dict[str, str]:
    return {"quantity": quantity, "value": value, "stage": "bare shaft", "instrument": "gram scale"}


@pytest.mark.parametrize(
    ("quantity", "kind"),
    [
        ("head.mass", "mass"),
        ("weight.port 6.mass", "mass"),
        ("weight.no. 6.mass", "mass"),
        ("tape.build-up.mass", "mass"),
        ("adapter.mass", "mass"),
        ("shaft.cut_balance_from_tip", "length"),
        ("head.bore_diameter", "diameter"),
        ("weight.mass", None),
        ("tape.build-up.layers", None),
        ("head.metal", None),
        ("instrument.rule.bias", None),
        ("swing_weight", None),
        ("old_tape.x.mass", None),
    ],
)
def test_what_can_be_read_of_a_part(quantity: str, kind: str | None) -> None:
    assert part_kind(quantity) == kind


def test_a_weight_that_is_not_in_the_tray_is_asked_for() -> None:
    ticket, _ = read_ticket(document(reading=[reading("weight.no such piece.mass", "6 g")]), "demo")
    assert ticket is not None
    (said,) = [item for item in work_ticket(ticket).findings if "is not used" in item.what]
    assert 'needs [[weight]] with the name "no such piece"' in said.what


def test_a_sleeve_is_read_like_any_part() -> None:
    sleeve = {"mass": "6.0 g", "gauges": {"mass": "gram scale"}}
    ticket, findings = read_ticket(document(adapter=sleeve, reading=[reading("adapter.mass", "6.2 g")]), "demo")
    assert ticket is not None, findings
    assert club_state_of(ticket).belief.mean_of("adapter.mass_kg") == pytest.approx(6.1 * GRAM, abs=1e-9)


def test_a_sleeve_that_the_ticket_has_not_is_asked_for() -> None:
    ticket, _ = read_ticket(document(reading=[reading("adapter.mass", "6.2 g")]), "demo")
    assert ticket is not None
    assert [item.what for item in work_ticket(ticket).findings if "is not used" in item.what] == [
        "the reading of adapter.mass is not used: it needs demo [adapter]"
    ]
