"""The guide's pictures: each is there, comes from the script, and is shown; a picture nobody takes or shows is found."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest
from PIL import Image

from repository import ROOT

PICTURES = ROOT / "docs" / "pictures"
ALL_KB = 1500
"""All pictures together, so that a clone stays small."""

PAGES = [ROOT / "README.md", *sorted((ROOT / "docs").rglob("*.md"))]
SHOWN = re.compile(r"!\[([^\]]*)\]\(([^)\s]+\.png)\)")


def shown(page: Path) -> dict[Path, str]:
    """Return the pictures of a page with their words."""
    found = SHOWN.findall(page.read_text(encoding="utf-8"))
    return {(page.parent / where).resolve(): words for words, where in found}


def made() -> list[str]:
    """Return the names that the script says it takes."""
    said = subprocess.run(
        [sys.executable, PICTURES / "make.py", "--names"], capture_output=True, text=True, check=True, timeout=60
    )
    return said.stdout.split()


def test_every_picture_is_there_comes_from_the_script_and_is_shown() -> None:
    there = {path.stem for path in PICTURES.glob("*.png")}
    assert there == set(made())
    guide = [path for page in (ROOT / "docs" / "user").glob("*.md") for path in shown(page)]
    assert {path.stem for path in guide} == there
    for page in PAGES:
        for path, words in shown(page).items():
            assert path.is_file(), f"{page.name} shows {path}, which is not there"
            assert len(words) > 20, f"{page.name}: {path.name} says nothing to whoever cannot see it"


def test_the_front_page_shows_the_bench() -> None:
    assert any(path.stem.startswith("bench-") for path in shown(ROOT / "README.md"))


def test_the_pictures_are_small() -> None:
    assert sum(path.stat().st_size for path in PICTURES.glob("*.png")) < ALL_KB * 1000


def test_the_script_takes_a_picture(tmp_path: Path) -> None:
    """One that has to find its button; a page that no longer has what is tapped ends the script."""
    script = [sys.executable, PICTURES / "make.py", "--into", tmp_path, "bench-reading"]
    done = subprocess.run(script, capture_output=True, text=True, timeout=300)
    assert done.returncode == 0, done.stderr
    with Image.open(tmp_path / "bench-reading.png") as taken:
        assert taken.size == (1280, 800)
        assert taken.mode == "P"
        assert len(taken.getcolors() or []) > 8, "not a blank page"
    assert [path.name for path in tmp_path.iterdir()] == ["bench-reading.png"]


@pytest.mark.parametrize("wrong", ["bench-nothing", "--nothing"])
def test_a_wrong_name_is_told(wrong: str) -> None:
    done = subprocess.run([sys.executable, PICTURES / "make.py", wrong], capture_output=True, text=True, timeout=60)
    assert done.returncode == 2
    assert wrong in done.stderr
