"""The page of outside checks is stale when a word or a figure of it changed, and not for the last digit's rounding."""

from __future__ import annotations

from pathlib import Path

import pytest

from verification import Check, differs_from_file, write_page

ROW = Check("a length", "a handbook", 367.906351, 367.90641, 0.001, "mm", "seen", "test_a.py::test_b")


def test_rounding_of_the_last_digit_is_the_same_page(tmp_path: Path) -> None:
    page = tmp_path / "page.md"
    write_page(page, [ROW])
    assert not differs_from_file(page, [ROW])
    assert not differs_from_file(page, [ROW._replace(theirs=367.906349)])


@pytest.mark.parametrize(
    "other",
    [
        [ROW._replace(theirs=367.9090)],
        [ROW._replace(ours=367.9084)],
        [ROW._replace(source="another handbook")],
        [ROW._replace(unit="m")],
        [ROW, ROW._replace(quantity="another")],
        [],
    ],
)
def test_a_changed_figure_or_word_is_another_page(tmp_path: Path, other: list[Check]) -> None:
    page = tmp_path / "page.md"
    assert differs_from_file(page, [ROW])
    write_page(page, [ROW])
    assert differs_from_file(page, other)
