"""The page of accepted notation is true: every example in its tables is read, or refused, as it says."""

from __future__ import annotations

import re
from math import radians
from pathlib import Path

import pytest

from clubwright.errors import InputError
from clubwright.notation import KINDS, parse

PAGE = (Path(__file__).parents[3] / "docs" / "user" / "notation.md").read_text(encoding="utf-8")
KIND_OF_ROW = {
    "length": ["length"],
    "length, from a base of 35 1/2 in": ["length"],
    "one length less another": ["length"],
    "a place on the club": ["length"],
    "diameter": ["diameter"],
    "lie": ["lie"],
    "loft": ["loft"],
    "bounce, other angles": ["bounce", "angle"],
    "loft with bounce": ["loft_bounce"],
    "weight": ["mass"],
    "swing weight": ["swing_weight"],
    "points of swing weight": ["points"],
    "frequency": ["frequency"],
    "bending stiffness": ["stiffness"],
    "bending stiffness along a shaft": ["stiffness_slope"],
    "Young's modulus": ["modulus"],
    "moment of inertia": ["moi"],
    "moment of a weight": ["mass_moment"],
    "weight of a length": ["linear_density"],
    "weight of an area": ["area_density"],
    "density": ["density"],
    "temperature": ["temperature"],
    "time": ["duration"],
    "mixing ratio": ["ratio"],
    "grip core": ["grip_core"],
    "speed": ["speed"],
}
BASES = {"length, from a base of 35 1/2 in": 0.9017, "lie": radians(62), "loft": radians(48)}
ROWS = [
    (cells[0].strip(), re.findall(r"`([^`]+)`", cells[1]), re.findall(r"`([^`]+)`", cells[2])[0])
    for line in PAGE.split("## Kind by kind")[1].split("\n\n")[1].splitlines()[2:]
    if len(cells := line.strip("|").split("|")) == 3
]


def test_the_table_has_every_kind_that_carries_a_unit() -> None:
    assert [row for row, _, _ in ROWS] == list(KIND_OF_ROW)
    assert {kind for kinds in KIND_OF_ROW.values() for kind in kinds} == set(KINDS) - {"count", "number"}


@pytest.mark.parametrize(("row", "examples", "echo"), ROWS)
def test_every_example_is_read_and_the_echo_shown_is_one_of_theirs(row: str, examples: list[str], echo: str) -> None:
    for kind in KIND_OF_ROW[row]:
        echoes = [parse(kind, example, base=BASES.get(row)).echo for example in examples]
        assert echo in echoes


@pytest.mark.parametrize(
    ("kind", "typed"),
    [
        ("swing_weight", "D35"),
        ("swing_weight", "D10"),
        ("loft", "54.10"),
        ("loft", "SS"),
        ("loft", "HS1"),
        ("loft", "1 up"),
        ("lie", "1 strong"),
        ("length", "+1"),
        ("duration", "1:30 h"),
        ("length", "37"),
        ("length", "41/2"),
    ],
)
def test_every_dangerous_pair_is_on_the_page_and_refused(kind: str, typed: str) -> None:
    assert f"`{typed}`" in PAGE.split("## Pairs that have cost clubs")[1]
    with pytest.raises(InputError):
        parse(kind, typed, base=0.9)
