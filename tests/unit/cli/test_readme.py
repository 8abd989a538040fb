"""The front page keeps its word: every command it shows runs, and the output it shows is what comes."""

from __future__ import annotations

import shlex
from pathlib import Path

import pytest

from clubwright.cli.main import app
from clubwright.errors import ClubwrightError

ROOT = Path(__file__).parents[3]
PAGE = (ROOT / "README.md").read_text(encoding="utf-8")
LINES = [line[4:] for line in PAGE[: PAGE.index("    >>> ")].splitlines() if line.startswith("    ")]


REFUSED = (["notation", "length", "35,5"],)
"""Commands that the page shows being refused; no other may fail."""


def shown() -> list[tuple[list[str], list[str]]]:
    """Every command of the page with the lines shown under it."""
    found: list[tuple[list[str], list[str]]] = []
    for line in LINES:
        if line.startswith("$ clubwright "):
            found.append((shlex.split(line.partition("#")[0])[2:], []))
        elif found and line:
            found[-1][1].append(line)
    return found


def test_the_page_shows_a_tour():
    assert 10 <= len(shown()) <= 20


def test_every_command_runs_and_says_what_is_shown(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "examples").symlink_to(ROOT / "examples")
    monkeypatch.setenv("CLUBWRIGHT_SHOP", str(tmp_path / "shop"))
    for words, lines in shown():
        if words[0] == "serve":
            continue  # runs until it is stopped; the pages have tests of their own
        refused = False
        try:
            code = app(words, result_action="return_value")
        except ClubwrightError as wrong:
            said, refused = str(wrong), True
        else:
            said = capsys.readouterr().out
            assert not code, f"{words} ends with {code}"
        assert refused == (words in REFUSED), f"{words}: {said}"
        joined = " ".join(said.split())
        for line in lines:
            for part in line.split("..."):
                assert " ".join(part.split()) in joined, f"{words}: {line!r} is no longer what comes"
    assert (tmp_path / "X-1007-sheet.pdf").read_bytes().startswith(b"%PDF")


def test_the_page_says_where_the_command_is_and_from_where_it_is_run():
    before = PAGE[: PAGE.index("$ clubwright ")]
    assert ".venv/bin/clubwright" in before
    assert ".venv/bin/activate" in before
    assert "run from this folder" in before
    assert 'clubwright = "' in (ROOT / "pyproject.toml").read_text(encoding="utf-8")
