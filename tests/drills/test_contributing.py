"""CONTRIBUTING.md says how a thing is added in five points, and a drill writes no file that they do not name."""

from __future__ import annotations

import ast
import re

import pytest

from repository import ROOT, TESTS, tree

SECTIONS = {
    "Add a quantity": "quantity",
    "Add a step": "step",
    "Add a kind of fact": "step",
    "Add a gauge with its lines": "gauge",
    "Add a page": "page",
}
"""What is added, and the drill that does it."""

NAMED = re.compile(r"`((?:src|docs|tests)/[\w./-]+)`")


def points(section: str) -> list[str]:
    """Return the numbered points of a section, as one text each."""
    page = (ROOT / "CONTRIBUTING.md").read_text(encoding="utf-8")
    text = page.partition(f"## {section}\n")[2].partition("\n## ")[0]
    return re.split(r"^\d\. ", text, flags=re.MULTILINE)[1:]


def named(section: str) -> set[str]:
    return {path for point in points(section) for path in NAMED.findall(point)}


def altered(drill: str) -> set[str]:
    """Return the files that a drill writes or edits; of a name that is put together, the folder."""
    found = set()
    for node in ast.walk(tree(TESTS / "drills" / f"test_drill_{drill}.py")):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr in ("write", "edit"):
            place = node.args[0]
            text = place.value if isinstance(place, ast.Constant) else place.values[0].value  # type: ignore[attr-defined]
            found.add(f"src/clubwright/{text}")
    return found


@pytest.mark.parametrize("section", SECTIONS)
def test_a_thing_is_added_in_five_points_that_name_files_there_are(section: str) -> None:
    assert len(points(section)) == 5
    missing = [path for path in named(section) if "." in path.rpartition("/")[2] and not (ROOT / path).is_file()]
    missing += [path for path in named(section) if path.endswith("/") and not (ROOT / path).is_dir()]
    assert missing == []
    assert f"tests/drills/test_drill_{SECTIONS[section]}.py" in named(section)


@pytest.mark.parametrize("drill", sorted(set(SECTIONS.values())))
def test_a_drill_writes_no_other_file_than_the_points_name(drill: str) -> None:
    said = {path for section, name in SECTIONS.items() if name == drill for path in named(section)}
    folders = tuple(path for path in said if path.endswith("/"))
    wrote = altered(drill)
    assert wrote
    assert all((ROOT / path).exists() or path.startswith(folders) for path in wrote)
    assert sorted(path for path in wrote if path not in said and not path.startswith(folders)) == []
