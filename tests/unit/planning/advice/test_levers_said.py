"""What no set of weights reaches comes first in answer, command and page; the levers are said with their numbers."""

from __future__ import annotations

from typing import Any

import pytest

from clubwright.cli.words import answer_lines
from clubwright.notation import UnitsShown
from clubwright.planning.advice.advice import advice_of
from clubwright.planning.said.actions import Lever
from clubwright.services.answer.club_answer import answer_document, work_document
from clubwright.words.advice import say_advice


def document(swing_weight: str, **changes: Any) -> dict[str, Any]:
    return {
        "ticket": {"id": "T-8", "kind": "wedge", "hand": "right", "invented": "yes"},
        "target": {"swing_weight": swing_weight, "length": "35 1/4 in"},
        "tolerance": {"swing_weight": "1 pt", "total_weight": "2 g", "length": "1/8 in"},
        "head": {"mass": "300 g", "hand": "right", "cg_from_ground": "-6 mm ± 2 mm", "bore_to_ground": "28 mm"},
        "shaft": {
            "raw_length": "37 in",
            "mass": "125.2 g",
            "balance_from_tip": "19 1/4 in",
            "butt_density": "3.6 g/in",
        },
        "grip": {"mass": "50 g", "cap": "1/8 in", "cg_from_cap": "4.1 in"},
        "tape": [{"name": "double-sided", "mass": "3 g", "cg_from_cap": "5.1 in"}],
        "ferrule": {"mass": "0.7 g"},
        "adhesive": {"in_joint": "0.8 g"},
        "weight": [{"name": f"port {g}", "mass": f"{g} g", "seat": "port", "from_ground": "10 mm"} for g in (2, 6)],
        "shop": {"lead_tape": "1.3 g/in"},
    } | changes


def levers(raw: dict[str, Any]) -> dict[str, Any]:
    found = advice_of(work_document(raw).club_state)
    return {item.kind: item for item in found if isinstance(item.data, Lever)}


def test_the_answer_has_it_before_all_else() -> None:
    answer = answer_document(document("D9"))
    told = answer.unreached
    assert told is not None and told.targets == ("swing_weight",) and told.chance < 0.5
    fields = list(type(answer).__struct_fields__)
    assert fields.index("unreached") == fields.index("schema") + 1
    lines = answer_lines(answer)
    assert lines[0] == "OUT OF REACH"
    assert "no set of weights brings the swing weight within tolerance" in " ".join(lines[1].split())
    assert {"grip", "lead tape", "powder"} <= {item.kind for item in answer.advice}


def test_nothing_is_out_of_reach_where_a_set_reaches() -> None:
    answer = answer_document(document("D5"))
    assert answer.advice[0].chance > 0.5 and answer.unreached is None
    assert answer_lines(answer)[0] != "OUT OF REACH"
    assert not levers(document("D5"))


def test_where_too_little_is_known_nothing_is_said_to_be_out_of_reach() -> None:
    """A twentieth of a point: a club in the very middle would not have an even chance of it, so a reading is wanted."""
    raw = document("D5")
    raw["tolerance"]["swing_weight"] = "0.05 pt"
    answer = answer_document(raw)
    assert answer.advice[0].chance < 0.5 and answer.unreached is None


@pytest.mark.parametrize(
    ("language", "said"),
    [
        ("en", {"grip": "take another grip", "lead tape": "of lead tape (", "powder": "of powder in the tip"}),
        (
            "de",
            {"grip": "einen anderen Griff nehmen", "lead tape": "Bleiband (", "powder": "Pulver in die Schaftspitze"},
        ),
    ],
)
def test_levers_are_said_with_their_grams_in_both_languages(language: Any, said: dict[str, str]) -> None:
    found = levers(document("D9"))
    for kind, words in said.items():
        do = say_advice(found[kind], UnitsShown(language=language)).do
        assert words in do and f"{found[kind].data.amount * 1e3:.3g}"[:3] in do


def test_without_the_tapes_weight_by_length_only_grams_are_said() -> None:
    raw = document("D9", shop={})
    tape = levers(raw)["lead tape"]
    assert tape.data.length_m is None and "of lead tape on the head" in say_advice(tape, None).do


def test_a_closed_joint_gets_no_powder_and_a_club_that_keeps_its_grip_no_other_grip() -> None:
    raw = document("D9")
    raw["ticket"]["job"] = "weight"
    raw["shaft"] = {"cut_length": "860 mm", "cut_mass": "118 g", "cut_balance_from_tip": "440 mm"}
    assert set(levers(raw)) == {"lead tape"}


def test_the_other_port_is_offered_where_the_tray_has_weights_of_two() -> None:
    """A port near the sole and one far up: 9 g reach the order only where the 2 g piece has its place."""
    raw = document("D7.3")
    raw["tolerance"]["swing_weight"] = "0.8 pt"
    raw["weight"] = [
        {"name": "low", "mass": "2 g", "seat": "port", "from_ground": "10 mm"},
        {"name": "high", "mass": "9 g", "seat": "port", "from_ground": "400 mm"},
    ]
    raw["head"]["ports"] = "1"
    port = levers(raw)["port"]
    assert port.data.moved == "high" and port.data.amount == pytest.approx(0.010)
    assert "put high in the other port" in say_advice(port, None).do
