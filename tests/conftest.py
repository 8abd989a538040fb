"""Shared fixtures: the record of outside checks that becomes docs/verification.md."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from bench_fixtures import clock, desk, played
from record_engines import empty_engine, ledger, postgres_url
from verification import Check, differs_from_file, write_page

__all__ = ["clock", "desk", "empty_engine", "ledger", "played", "postgres_url"]
"""Fixtures that several folders share: a record on each engine, and a desk on it."""

PAGE = Path(__file__).parent.parent / "docs" / "verification.md"
CHECKS = pytest.StashKey[list[Check]]()


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--write-verification", action="store_true", help="write docs/verification.md anew")


def pytest_configure(config: pytest.Config) -> None:
    config.stash[CHECKS] = []


@pytest.fixture
def published(request: pytest.FixtureRequest) -> Callable[..., None]:
    """Compare one computed number with an outside value, and keep the row for docs/verification.md."""
    test = f"{Path(request.node.fspath).name}::{request.node.originalname}"

    def check(
        *,
        quantity: str,
        source: str,
        theirs: float,
        ours: float,
        tolerance: float,
        unit: str = "",
        standing: str = "seen",
    ) -> None:
        row = Check(quantity, source, float(theirs), float(ours), float(tolerance), unit, standing, test)
        request.config.stash[CHECKS].append(row)
        assert abs(row.ours - row.theirs) <= row.tolerance, row.sentence()

    return check


def pytest_sessionfinish(session: pytest.Session, exitstatus: int) -> None:
    """Write the page when asked; else fail a whole run whose numbers no longer equal the page."""
    checks = session.config.stash[CHECKS]
    if session.config.getoption("--write-verification"):
        write_page(PAGE, checks)
        return
    published_files = {path.name for path in (Path(__file__).parent / "published").glob("test_*.py")}
    whole_run = bool(published_files) and published_files <= {Path(item.fspath).name for item in session.items}
    if exitstatus == 0 and whole_run and not session.config.option.keyword and differs_from_file(PAGE, checks):
        session.exitstatus = pytest.ExitCode.TESTS_FAILED
        print("\ndocs/verification.md is stale: run `make verification` and read what changed.")
