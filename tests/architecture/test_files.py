"""What every file of the package keeps to: its size, its docstring, and what it never mentions."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

from repository import PACKAGE, ROOT, TESTS, pages, place, source_files, tree

MOST_LINES = 250
LONGER_LISTS = {"ticket/fields/fields.py", "club/quantities.py", "journal/facts.py", "state/steps.py"}
"""Lists of data: one entry after another, no branch to lose oneself in."""

MACHINE_PATHS = re.compile("(?<![A-Za-z0-9.])/(work|root|home|tmp)/[a-z]|" + r"\.\./" + "shared")
UNFINISHED = re.compile(r"\b(" + "|".join(("TO" + "DO", "FIX" + "ME", "X" * 3)) + r")\b|[Ii]ssue #[0-9]")
READABLE = {".py", ".md", ".toml", ".typ", ".cfg", ".txt", ".json", ""}


def texts() -> list[Path]:
    folders = [PACKAGE, TESTS, ROOT / "examples", ROOT / "benchmarks", ROOT / ".ci"]
    found = [path for folder in folders for path in folder.rglob("*") if path.is_file() and path.suffix in READABLE]
    kept = [path for path in found if not {"__pycache__", "fonts"} & set(path.parts)]
    return sorted([*kept, *pages(), ROOT / "Makefile", ROOT / "pyproject.toml"])


@pytest.mark.parametrize("path", source_files(), ids=place)
def test_a_file_stays_small(path: Path) -> None:
    lines = len(path.read_text(encoding="utf-8").splitlines())
    if path.relative_to(PACKAGE).as_posix() in LONGER_LISTS:
        assert lines > MOST_LINES, "this list is short again: take it out of LONGER_LISTS"
    else:
        assert lines <= MOST_LINES, f"{lines} lines: part it by idea"


def test_the_longer_files_are_lists() -> None:
    """A file may be longer only while it is data: no loop, and no branch but a guard in a short function."""
    for name in LONGER_LISTS:
        functions = [node for node in ast.walk(tree(PACKAGE / name)) if isinstance(node, ast.FunctionDef)]
        long = [item.name for item in functions if (item.end_lineno or 0) - item.lineno > 30]
        assert not long, f"{name}: {long} is code, not data"


@pytest.mark.parametrize("path", source_files(), ids=place)
def test_a_module_says_what_it_is(path: Path) -> None:
    docstring = ast.get_docstring(tree(path))
    assert docstring, "no module docstring"
    assert len(docstring) > 10
    assert docstring.split("\n\n")[0].rstrip(")")[-1] in ".?:", "its first paragraph ends without a full stop"


@pytest.mark.parametrize("path", texts(), ids=place)
def test_no_text_names_a_machine_or_work_left_undone(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert not MACHINE_PATHS.search(text), f"a path of one machine: {MACHINE_PATHS.search(text)}"
    assert not UNFINISHED.search(text), f"work left undone: {UNFINISHED.search(text)}"


def test_names_of_test_files_are_unique() -> None:
    names = [path.name for path in TESTS.rglob("test_*.py")]
    assert sorted(names) == sorted(set(names))


def test_outside_checks_are_where_they_are_looked_for() -> None:
    """A test that uses the record of outside checks lies in tests/published, where `make verification` runs it."""
    uses = re.compile(r"^def test_\w+\([^)]*\bpublished\b", re.MULTILINE)
    astray = [
        place(path)
        for path in TESTS.rglob("test_*.py")
        if path.parent.name != "published" and uses.search(path.read_text(encoding="utf-8"))
    ]
    assert not astray
