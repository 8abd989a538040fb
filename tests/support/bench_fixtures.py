"""A session on an empty record, and the wedge that is worked once for all tests that begin somewhere along it."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchwork import Clock, play, session_on
from clubwright.services.record.session import Session
from clubwright.store.engine import open_engine
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def session(ledger: Ledger, clock: Clock) -> Session:
    return session_on(ledger, clock)


@pytest.fixture(scope="session")
def played(tmp_path_factory: pytest.TempPathFactory) -> None:
    """Work the wedge once, for `benchwork.run_to`."""
    folder: Path = tmp_path_factory.mktemp("played")
    engine = open_engine(f"sqlite:///{folder / 'record.sqlite'}")
    migrate(engine)
    play(Ledger(engine))
    engine.dispose()
