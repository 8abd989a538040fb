"""The program with a few of its files altered, as a later version would have them: run in a process of its own.

A drill writes the files that CONTRIBUTING.md says a person writes, and no others; all else is the program as it stands.
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

from repository import PACKAGE, SOURCE, TESTS

FINDER = """
import importlib.abc, importlib.util, json, pathlib, sys

class Text(importlib.abc.SourceLoader):
    def __init__(self, text, place):
        self.text, self.place = text, place

    def get_filename(self, name):
        return str(self.place)

    def get_data(self, path):
        return self.text.read_bytes()

class Altered(importlib.abc.MetaPathFinder):
    # an altered module believes that it lies where the program's own does, with what lies beside it
    def find_spec(self, name, path=None, target=None):
        place = pathlib.Path(name.replace(".", "/")).with_suffix(".py")
        text = pathlib.Path({folder!r}) / place
        own = pathlib.Path({source!r}) / place
        return importlib.util.spec_from_file_location(name, own, loader=Text(text, own)) if text.exists() else None

sys.meta_path.insert(0, Altered())
sys.path[:0] = {paths!r}
"""


class Altered:
    """A copy of some files of the package.

    Attributes:
        folder: Where they are.
        touched: Their places in the package, as written or edited.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.touched: list[str] = []

    def write(self, place: str, text: str) -> None:
        """Add a file that the package does not have."""
        assert not (PACKAGE / place).exists(), f"{place} is there already"
        self._keep(place, text)

    def edit(self, place: str, before: str, after: str) -> None:
        """Put a text in the place of another, which stands in the file once."""
        file = self._file(place)
        text = (file if file.exists() else PACKAGE / place).read_text(encoding="utf-8")
        assert text.count(before) == 1, f"{place} has {before!r} {text.count(before)} times"
        self._keep(place, text.replace(before, after))

    def run(self, script: str, *arguments: str) -> Any:
        """Run a script in the altered program, and return what it prints as JSON."""
        paths = [str(SOURCE), str(TESTS / "support")]
        finder = FINDER.format(folder=str(self.folder), source=str(SOURCE), paths=paths)
        done = subprocess.run(
            [sys.executable, "-c", finder + script, *arguments], capture_output=True, text=True, check=False
        )
        assert done.returncode == 0, done.stderr
        return json.loads(done.stdout)

    def _file(self, place: str) -> Path:
        return self.folder / "clubwright" / place

    def _keep(self, place: str, text: str) -> None:
        file = self._file(place)
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, encoding="utf-8")
        if place not in self.touched:
            self.touched.append(place)
