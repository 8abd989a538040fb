"""Shared fixtures: the record of outside checks that becomes docs/verification.md, and the seeds of drawn examples.

Tests run in several processes (`make test`): each hands its checks to the one that started it, which looks at the page.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

# before numpy is imported: several processes whose linear algebra takes all cores at once wait for each other, twice as long
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import pytest
from hypothesis import settings

sys.path.insert(0, str(Path(__file__).parent / "support"))

from bench_fixtures import clock, played, session
from record_engines import empty_engine, ledger, postgres_url
from verification import Check, differs_from_file, write_page

__all__ = ["clock", "empty_engine", "ledger", "played", "postgres_url", "session"]
"""Fixtures that several folders share: a record on each engine, and a session on it."""

settings.register_profile("fixed", derandomize=True, database=None)
settings.register_profile("fresh", derandomize=False, print_blob=True)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "fixed"))

PAGE = Path(__file__).parent.parent / "docs" / "verification.md"
CHECKS = pytest.StashKey[list[Check]]()
FILES = pytest.StashKey[set[str]]()
"""Names of the files whose tests were chosen, by whichever process."""


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--write-verification", action="store_true", help="write docs/verification.md anew")


def pytest_configure(config: pytest.Config) -> None:
    config.stash[CHECKS], config.stash[FILES] = [], set()


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    config.stash[FILES].update(Path(item.fspath).name for item in items)


class Workers:
    """Gathers in the process that started the others what each of them leaves behind."""

    def pytest_testnodedown(self, node: Any, error: object) -> None:
        left = getattr(node, "workeroutput", {})
        node.config.stash[CHECKS].extend(Check(*row) for row in left.get("checks", ()))
        node.config.stash[FILES].update(left.get("files", ()))


def pytest_sessionstart(session: pytest.Session) -> None:
    if session.config.pluginmanager.hasplugin("dsession"):
        session.config.pluginmanager.register(Workers())


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
        standing: str,
    ) -> None:
        row = Check(quantity, source, float(theirs), float(ours), float(tolerance), unit, standing, test)
        request.config.stash[CHECKS].append(row)
        assert row.agrees(), row.sentence()

    return check


@pytest.fixture
def published_band(request: pytest.FixtureRequest) -> Callable[..., None]:
    """Hold one computed number against bounds, where the source gives no number, and keep the row."""
    test = f"{Path(request.node.fspath).name}::{request.node.originalname}"

    def check(
        *,
        quantity: str,
        source: str,
        low: float,
        high: float,
        ours: float,
        digits: float,
        unit: str = "",
        standing: str,
    ) -> None:
        row = Check(quantity, source, float(low), float(ours), digits, unit, standing, test, (float(low), float(high)))
        request.config.stash[CHECKS].append(row)
        assert row.agrees(), row.sentence()

    return check


@pytest.hookimpl(tryfirst=True)
def pytest_sessionfinish(session: pytest.Session, exitstatus: int) -> None:
    """Write the page when asked; else fail a whole run whose numbers no longer equal the page."""
    checks, files = session.config.stash[CHECKS], session.config.stash[FILES]
    if hasattr(session.config, "workeroutput"):
        session.config.workeroutput.update(checks=[tuple(check) for check in checks], files=sorted(files))
        return
    if session.config.getoption("--write-verification"):
        write_page(PAGE, checks)
        return
    published_files = {path.name for path in (Path(__file__).parent / "published").glob("test_*.py")}
    whole_run = bool(published_files) and published_files <= files
    if exitstatus == 0 and whole_run and not session.config.option.keyword and differs_from_file(PAGE, checks):
        session.exitstatus = pytest.ExitCode.TESTS_FAILED
        print("\ndocs/verification.md is stale: run `make verification` and read what changed.")
