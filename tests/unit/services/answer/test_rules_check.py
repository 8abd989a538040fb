"""The Equipment Rules beside an order and a belief: quiet for an ordinary club, plain words near a limit.

Limits are typed here from the Equipment Rules (The R&A and USGA), Part 2: length 18 to 48 in (s.1c), shaft at least 10 deg
from vertical (s.1d), putter loft at most 10 deg (s.1a), grip at least 7 in long and at most 1.75 in thick (s.3).
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from clubwright.errors import Finding
from clubwright.services.answer.club_answer import work_document
from shopwork import completed_example

FOLDER = Path(__file__).parents[4] / "examples"
EXAMPLES = [path for path in sorted(FOLDER.glob("*.toml")) if path.name != "shop.toml"]


def club(kind: str = "driver", **sections: dict[str, str]) -> dict[str, Any]:
    found: dict[str, Any] = {"ticket": {"id": "T-1", "kind": kind, "hand": "right"}}
    for name, values in sections.items():
        found[name] = dict(values)
    return found


def rules(document: dict[str, Any]) -> list[Finding]:
    return [item for item in work_document(document).findings if "never a ruling" in item.what]


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_ordinary_clubs_are_not_talked_about(path: Path) -> None:
    assert rules(completed_example(path)) == []


@pytest.mark.parametrize(
    ("document", "limit", "severity"),
    [
        (club(target={"length": "48.2 in", "length_method": "60 degree plane"}), "at most 48 in", "warning"),
        (club(target={"length": "47.99 in", "length_method": "60 degree plane"}), "at most 48 in", "note"),
        (
            club("wedge", target={"length": "17 1/2 in", "length_method": "60 degree plane"}),
            "at least 18 in",
            "warning",
        ),
        (club("putter", target={"lie": "80 1/2 deg"}), "at least 10 deg", "warning"),
        (club("putter", target={"lie": "79.9 deg"}, tolerance={"lie": "1/4 deg"}), "at least 10 deg", "note"),
        (club("putter", target={"loft": "11 deg"}), "at most 10 deg", "warning"),
        (club("putter", head={"loft": "10.6 deg"}), "at most 10 deg", "warning"),
        (club("putter", head={"loft": "9.8 deg"}), "at most 10 deg", "note"),
        (club("putter", head={"lie": "81 deg"}), "at least 10 deg", "warning"),
        (club("wedge", grip={"length": "6.8 in"}), "at least 7 in", "warning"),
        (club("putter", target={"grip_diameter_2in": "1.80 in"}), "at most 1.75 in", "warning"),
    ],
    ids=str,
)
def test_what_comes_near_a_limit_is_told(document: dict[str, Any], limit: str, severity: str) -> None:
    (found,) = [item for item in rules(document) if limit in item.what]
    assert found.severity == severity
    assert "only the governing bodies rule" in found.mend


@pytest.mark.parametrize(
    "document",
    [
        club("putter", target={"length": "50 in"}),
        club(target={"length": "47 7/8 in", "length_method": "60 degree plane"}),
        club("wedge", head={"loft": "56 deg"}, target={"loft": "56 deg"}),
        club("putter", target={"lie": "79 1/2 deg"}, tolerance={"lie": "1/4 deg"}),
        club("putter", head={"loft": "9 deg"}),
        club("wedge", grip={"length": "7.5 in"}),
    ],
    ids=str,
)
def test_what_clears_its_limit_is_not(document: dict[str, Any]) -> None:
    assert rules(document) == []


@pytest.mark.parametrize(
    ("length", "lie", "method", "over"),
    [
        # By hand, (R (1 - cos t) - c sin t) / sin 60 with R 250 mm, c 55 mm: 3.7 mm longer at 57 deg, 3.7 mm shorter at 64.
        ("47.9 in", "57 deg", "axis to ground", True),
        ("47.9 in", "57 deg", "60 degree plane", False),
        ("48.1 in", "64 deg", "axis to ground", False),
        ("48.1 in", "64 deg", "60 degree plane", True),
    ],
)
def test_the_length_is_the_one_the_rule_measures(length: str, lie: str, method: str, over: bool) -> None:
    sole = {"sole_camber": "250 mm", "sole_contact": "55 mm"}
    found = rules(club(target={"length": length, "lie": lie, "length_method": method}, head=sole))
    assert bool(found) is over
    assert all("length by the 60 degree plane" in item.what for item in found)


@pytest.mark.parametrize(("length", "lie", "over"), [("17.9 in", "64 deg", False), ("18.1 in", "57 deg", True)])
def test_a_putter_is_measured_along_its_axis(length: str, lie: str, over: bool) -> None:
    """The figures above the other way round: 3.7 mm come off the plane's length at 57 deg, and go on at 64."""
    order = {"length": length, "lie": lie, "length_method": "60 degree plane"}
    found = rules(club("putter", target=order, head={"sole_camber": "250 mm", "sole_contact": "55 mm"}))
    assert [("at least 18 in" in item.what, item.severity) for item in found] == [(True, "warning")] * over


def test_a_cut_club_is_judged_by_what_is_believed_of_it() -> None:
    parts = {
        "head": {"lie": "60 deg", "bore_to_ground": "1.45 in", "bore_depth": "1.5 in"},
        "grip": {"cap": "1/8 in"},
        "shaft": {"raw_length": "50 in", "cut_length": "47 in"},
    }
    (found,) = rules(club(**parts))
    assert found.where.endswith("the club as it stands, length")
    # 47 + 1.45 + 1/8 in, and at 60 deg of lie both methods read the same
    assert "length by the 60 degree plane 48.575 in" in found.what
    assert "outside the limit by this measurement, never a ruling" in found.what
    # soled flatter it reads 3.7 mm longer, by the formula above
    (longer,) = rules(club(**{**parts, "head": {**parts["head"], "lie": "57 deg"}}))
    assert "length by the 60 degree plane 48.721 in" in longer.what
    del parts["shaft"]["cut_length"]
    assert rules(club(**parts)) == []


def test_a_shop_under_a_local_rule_sets_its_limit() -> None:
    order = {"length": "46 1/2 in", "length_method": "60 degree plane"}
    assert rules(club(target=order)) == []
    (found,) = rules(club(target=order, shop={"local_length_limit": "46 in"}))
    assert "at most 46 in (Model Local Rule G-10)" in found.what
    (own,) = rules(club(target=order, shop={"local_length_limit": "45 3/4 in"}))
    assert "at most 45.75 in (45 3/4 in by [shop] local_length_limit)" in own.what
    assert rules(club("putter", target=order, shop={"local_length_limit": "46 in"})) == []
