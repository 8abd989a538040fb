"""`clubwright --help` answers at once, and a ticket is worked without what it does not need.

The heavy libraries load inside the functions that need them: loaded for nothing they took most of the time of a command.
"""

from __future__ import annotations

import subprocess
import sys
from functools import cache
from pathlib import Path

import pytest

EXAMPLES = Path(__file__).parents[2] / "examples"

ELSEWHERE = {
    "alembic",
    "argon2",
    "asyncio",
    "fastapi",
    "http",
    "jinja2",
    "markdown_it",
    "multiprocessing",
    "pydantic",
    "segno",
    "serial",
    "sqlalchemy",
    "sqlite3",
    "starlette",
    "statistics",
    "tomlkit",
    "typst",
    "uvicorn",
}
"""What neither help nor the working of a ticket needs."""

WORK = {"numpy", "scipy", "unittest", "tomllib", "hashlib"}
"""What the working of a ticket needs or, where a beam is solved, brings with it; help does not."""


def imports_of(*arguments: str) -> set[str]:
    """Return the names of all modules that one run of the console script imports, and of the packages they are in."""
    return imported(str(Path(sys.executable).parent / "clubwright"), *arguments)


@cache
def imported(*program: str) -> set[str]:
    """Return the same of any Python program."""
    run = subprocess.run([sys.executable, "-X", "importtime", *program], capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stderr[-2000:]
    lines = [line for line in run.stderr.splitlines() if line.startswith("import time:")]
    modules = {line.rsplit("|", 1)[1].strip() for line in lines}
    return modules | {module.split(".")[0] for module in modules}


@pytest.mark.parametrize("arguments", [("--help",), ("--version",), ("read", "--help")], ids=" ".join)
def test_help_loads_nothing_heavy(arguments: tuple[str, ...]) -> None:
    names = imports_of(*arguments)
    assert "clubwright" in names
    assert names & (ELSEWHERE | WORK) == set()


@pytest.mark.parametrize("ticket", ["wedge-54", "regrip"])
def test_a_ticket_is_worked_without_what_it_does_not_need(ticket: str) -> None:
    names = imports_of("work", str(EXAMPLES / f"{ticket}.toml"))
    assert "numpy" in names
    assert names & (ELSEWHERE | {"scipy", "unittest"}) == set()


def test_a_frequency_loads_no_more_than_the_linear_algebra() -> None:
    names = imports_of("work", str(EXAMPLES / "iron.toml"))
    assert names & (ELSEWHERE | {"scipy.stats", "scipy.optimize", "scipy.special", "scipy.signal"}) == set()


def test_the_watch_sees_a_heavy_import() -> None:
    assert {"typst", "tomlkit"} & imports_of("check", "--help") or "numpy" in imports_of("schema", "ticket")
    assert "clubwright.club.quantities" in imports_of("work", str(EXAMPLES / "wedge-54.toml"))


def test_the_package_itself_loads_nothing_and_can_be_looked_through() -> None:
    names = imported("-c", "import clubwright; dir(clubwright); clubwright.__version__")
    assert {name for name in names if name.startswith("clubwright")} == {"clubwright"}
    assert names & (ELSEWHERE | WORK) == set()


def test_a_value_is_read_without_the_rest() -> None:
    names = imported("-c", "import clubwright; clubwright.notation.parse('length', '35 1/2 in')")
    assert "clubwright.notation.reader" in names
    assert {"clubwright.services", "clubwright.club", "scipy"} & names == set()
