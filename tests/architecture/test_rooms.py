"""A room shows its job at a glance: it holds few files, and a file of the tests stands where its subject does."""

from __future__ import annotations

from pathlib import Path

import pytest

from repository import PACKAGE, TESTS

MOST = 12
"""Files of one room, its face (`__init__.py`) not counted."""

ROOMS = sorted(
    folder
    for package in ("services", "planning", "belief/stiffness", "journal/reducers", "labels", "store/index", "ticket")
    for folder in ((PACKAGE / package), *(PACKAGE / package).rglob("*"))
    if folder.is_dir() and (folder / "__init__.py").is_file()
)

LARGE: dict[str, int] = {}
"""Rooms that hold more, and how many. It only gets shorter."""


def files_of(folder: Path) -> int:
    return sum(path.name != "__init__.py" for path in folder.glob("*.py"))


@pytest.mark.parametrize("room", [str(folder.relative_to(PACKAGE)) for folder in ROOMS])
def test_a_room_holds_few_files(room: str) -> None:
    count = files_of(PACKAGE / room)
    assert count <= LARGE.get(room, MOST), "make two rooms of it"


def test_unit_tests_stand_in_folders_of_the_source() -> None:
    unit = TESTS / "unit"
    assert not list(unit.glob("test_*.py")), "a unit test stands in the folder of what it tests"
    for folder in (path for path in unit.rglob("*") if path.is_dir() and path.name != "__pycache__"):
        assert (PACKAGE / folder.relative_to(unit)).is_dir(), f"{folder.relative_to(unit)} is no folder of the source"


def test_the_law_counts_what_is_there(tmp_path: Path) -> None:
    for number in range(MOST + 1):
        (tmp_path / f"m{number}.py").touch()
    (tmp_path / "__init__.py").touch()
    assert files_of(tmp_path) == MOST + 1
