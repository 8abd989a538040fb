"""What front page and guide show from Python is what comes, and the guide names all there is."""

from __future__ import annotations

import doctest
import re
from pathlib import Path

import pytest

import clubwright

ROOT = Path(__file__).parents[3]
GUIDE = ROOT / "docs" / "user" / "python.md"
OPTIONS = doctest.ELLIPSIS | doctest.NORMALIZE_WHITESPACE


def differing(text: str, name: str) -> str:
    """Run the sessions of a text, and return where another thing comes than is shown; nothing when all is as shown."""
    said: list[str] = []
    test = doctest.DocTestParser().get_doctest(text, {}, name, name, 0)
    assert len(test.examples) >= 5
    doctest.DocTestRunner(optionflags=OPTIONS, verbose=False).run(test, out=said.append)
    return "".join(said)


@pytest.mark.parametrize("page", [ROOT / "README.md", GUIDE], ids=lambda page: page.name)
def test_a_session_gives_what_is_shown(page: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "examples").symlink_to(ROOT / "examples")
    assert differing(page.read_text(encoding="utf-8"), page.name) == ""
    assert [path.name for path in tmp_path.iterdir()] == ["examples"], "a session left something behind"


def test_another_figure_than_the_one_that_comes_is_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    text = GUIDE.read_text(encoding="utf-8")
    assert "36.998 in" in differing(text.replace("36.998 in", "37.500 in"), "altered")


def test_the_guide_names_everything_there_is() -> None:
    named = set(re.findall(r"`(?:notation\.)?(\w+)[(`.]", GUIDE.read_text(encoding="utf-8")))
    there = {name for name in (*dir(clubwright), *dir(clubwright.Shop)) if not name.startswith("_")}
    text = GUIDE.read_text(encoding="utf-8")
    missing = [
        name
        for name in sorted(there - {"close", "Shop", "notation"})
        if not re.search(rf"`[^`]*\b{name}\b[^`]*`", text)
    ]
    assert not missing
    assert {"take", "weigh", "answer"} <= named
