"""A player's name without the word `player`: taken behind ``for`` by itself, else asked about; all people are invented."""

from __future__ import annotations

import pytest

from clubwright.ticket.shorthand.reader import Left, read_shorthand

WEDGE = {"target.loft": "54 deg", "ticket.kind": "wedge", "ticket.label": "54 wedge"}


def left_of(words: str) -> list[Left]:
    return list(read_shorthand(words).left)


@pytest.mark.parametrize(
    "name", ["Mara Oldfield", "M. Oldfield", "Mara van Oldfield", "Mara O'Field", "Мара Вымышленная"]
)
def test_for_a_name_by_itself_is_the_player(name: str) -> None:
    found = read_shorthand(f"54 wedge, for {name}, D4")
    assert found.fields == {**WEDGE, "ticket.player": name, "target.swing_weight": "D4"}
    assert found.left == ()


@pytest.mark.parametrize(
    "words",
    ["Mara Oldfield, 54 wedge", "54 wedge Mara Oldfield", "Mara Oldfield 54 wedge", "54 wedge for Mara Oldfield"],
)
def test_a_name_alone_is_asked_about_and_takes_nothing_down_with_it(words: str) -> None:
    found = read_shorthand(words)
    assert found.fields == WEDGE
    assert [item.mend for item in found.left] == ["Write player Mara Oldfield, or leave it out knowingly."]


def test_the_offered_words_are_understood() -> None:
    assert read_shorthand("54 wedge player Mara Oldfield").fields == {**WEDGE, "ticket.player": "Mara Oldfield"}


@pytest.mark.parametrize(
    "words", ["for Left Hand", "for Logo Down", "for Next Week", "for Mara", "for mara oldfield", "for Sand Wedge"]
)
def test_for_what_is_no_name_makes_no_player(words: str) -> None:
    assert "ticket.player" not in read_shorthand(words).fields


@pytest.mark.parametrize(
    "words", ["Balance Point 30 in", "Swing Speed 54", "Kick Tempo 54", "Mara Oldfield 54", "not D2"]
)
def test_a_bare_figure_behind_capitals_is_not_taken(words: str) -> None:
    assert read_shorthand(words).fields == {}
    assert left_of(words)


@pytest.mark.parametrize(
    "words", ["Sand Wedge", "Logo Down", "Mid Bounce", "Half Flat", "Two Wraps", "Blue Grip", "Tour Flex"]
)
def test_words_of_the_bench_are_no_name(words: str) -> None:
    assert all("player" not in item.mend for item in left_of(words))
