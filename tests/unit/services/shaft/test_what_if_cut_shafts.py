"""What if, with shafts that were weighed as cut, or of which nobody knows how: no offcut comes in with them."""

from __future__ import annotations

from typing import Any

import pytest

from clubwright.services.shaft.what_if import Wish, what_if
from clubwright.ticket.read import read_ticket
from shaftwork import shaft_of

# Invented demo data: a re-grip of a finished iron, and a build.
FINISHED: dict[str, Any] = {
    "ticket": {"id": "T-1", "kind": "iron", "hand": "right", "job": "regrip"},
    "head": {"mass": "261 g", "bore_to_ground": "1.1 in", "bore_depth": "1.3 in", "lie": "62 deg"},
    "shaft": {"material": "steel", "cut_length": "36 in", "cut_mass": "118 g"},
    "grip": {"mass": "50 g", "cap": "1/8 in"},
    "ferrule": {"mass": "0.7 g"},
    "adhesive": {"in_joint": "0.8 g"},
}
BUILD: dict[str, Any] = {
    **FINISHED,
    "ticket": {"id": "T-2", "kind": "iron", "hand": "right"},
    "target": {"length": f"{34 + 1.1 + 0.125} in"},
    "shaft": {"material": "steel", "raw_length": "37 in", "mass": "120 g"},
}


def total_g(document: dict[str, Any], wish: Wish) -> tuple[float, float, tuple[str, ...]]:
    """Total weight before and after, in g, and the notes."""
    found = what_if(read_ticket(document, "test.toml"), wish)
    (move,) = [move for move in found.moves if move.name == "total weight"]
    before, after = (float(text.split(" g")[0]) for text in (move.before, move.after))
    return before, after, found.notes


def test_a_cut_off_a_shaft_that_was_weighed_as_cut_takes_its_mass_along() -> None:
    """118 g over 36 in with the balance at 52 % is 3.67 g/in at the butt by a straight line: half an inch is 1.8 g."""
    before, after, _ = total_g(FINISHED, Wish(butt="1/2 in"))
    assert before == pytest.approx(261 + 118 + 50 + 1.5, abs=0.05)
    assert before - after == pytest.approx(0.5 * 118 / 36 * 1.12, abs=0.1)


SHAFTS = {
    "cut mass": {"cut_length": "36 in", "cut_mass": "118 g"},
    "said to be cut": {"cut_length": "36 in", "mass": "118 g", "weighed": "cut"},
    "raw": {"cut_length": "36 in", "raw_length": "38 in", "mass": "125.34 g", "butt_density": "3.67 g/in"},
}


@pytest.mark.parametrize("name", SHAFTS)
def test_another_clubs_cut_shaft_is_shortened_for_this_one_from_what_it_weighs_now(name: str) -> None:
    """It weighs 118 g at 36 in; 34 in of it are wanted, and the 2 in at its butt weigh 3.67 g/in."""
    _, after, notes = total_g(BUILD, Wish(shaft=shaft_of({"material": "steel", **SHAFTS[name]}, "of T-1")))
    assert after == pytest.approx(261 + 118 - 2 * 3.67 + 50 + 1.5, abs=0.3)
    assert not notes


def test_of_another_shaft_that_may_have_been_weighed_raw_or_cut_that_is_said() -> None:
    shaft = {"material": "steel", "cut_length": "36 in", "mass": "118 g"}
    _, after, notes = total_g(BUILD, Wish(shaft=shaft_of(shaft, "of T-1")))
    assert any("118 g is the raw shaft or the shaft as cut" in text for text in notes)
    cut, raw = 261 + 118 - 2 * 3.67 + 51.5, 261 + 118 - 4.25 * 3.5 + 51.5
    assert raw < after < cut


def test_another_shaft_too_short_as_cut_is_refused_as_before() -> None:
    short = shaft_of({"cut_length": "33 in", "cut_mass": "110 g"}, "of T-1")
    with pytest.raises(Exception, match="needs 34 in of shaft"):
        what_if(read_ticket(BUILD, "test.toml"), Wish(shaft=short))
