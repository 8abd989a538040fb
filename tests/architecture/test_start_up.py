"""`clubwright --help` answers at once: the heavy libraries load inside the commands that need them."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

HEAVY = {
    "numpy",
    "scipy",
    "sqlalchemy",
    "alembic",
    "typst",
    "segno",
    "tomlkit",
    "sqlite3",
    "asyncio",
    "markdown_it",
    "fastapi",
}


def imports_of(*arguments: str) -> set[str]:
    """Return the top names of all modules that one run of the console script imports."""
    script = Path(sys.executable).parent / "clubwright"
    run = subprocess.run(
        [sys.executable, "-X", "importtime", str(script), *arguments], capture_output=True, text=True, check=False
    )
    assert run.returncode == 0, run.stderr[-2000:]
    lines = [line for line in run.stderr.splitlines() if line.startswith("import time:")]
    return {line.rsplit("|", 1)[1].strip().split(".")[0] for line in lines}


@pytest.mark.parametrize("arguments", [("--help",), ("--version",), ("read", "--help")], ids=" ".join)
def test_help_loads_nothing_heavy(arguments: tuple[str, ...]) -> None:
    names = imports_of(*arguments)
    assert "clubwright" in names
    assert not names & HEAVY


def test_the_watch_sees_a_heavy_import() -> None:
    assert "tomlkit" in imports_of("check", "--help") or "numpy" in imports_of("schema", "ticket")
