"""Every action of the register, by every way in: the same facts are kept of it, and the same state is left."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import msgspec
import pytest

from actionwork import CASES, WAYS, Bench, Case, left_behind
from benchwork import Clock, run_to, session_on
from clubwright.services.actions.register.actions import ACTIONS
from clubwright.services.record.session import Session
from clubwright.store.engine import open_engine
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate

Capsys = pytest.CaptureFixture[str]
pytestmark = pytest.mark.usefixtures("played")


@contextmanager
def session_in(folder: Path, clock: Clock) -> Iterator[Session]:
    engine = open_engine(f"sqlite:///{folder / 'record.sqlite'}")
    migrate(engine)
    try:
        yield session_on(Ledger(engine), clock, site="bench", by="bench")
    finally:
        engine.dispose()


def prepared(folder: Path, case: Case, clock: Clock) -> Case:
    """Make a workshop on which the action can be done; returns the case with all its fields."""
    folder.mkdir()
    with session_in(folder, clock) as session:
        run_to(session, clock, case.after)
        case.before(session)
    clock.wait(minutes=5)
    return msgspec.structs.replace(case, given={**case.given, **case.prepare(folder)})


def differing(key: str, case: Case, folder: Path, capsys: Capsys, monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Do an action by each way, and return the ways that left something else than the first one."""
    clock = Clock()
    case = prepared(folder / "before", case, clock)
    monkeypatch.setattr("clubwright.bootstrap._now", clock)
    found = {}
    for name, way in WAYS.items():
        if name == "page" and case.page is None:
            continue
        at = Bench(folder=folder / name, clock=clock, capsys=capsys)
        shutil.copytree(folder / "before", at.folder)
        with session_in(at.folder, clock) as session:
            before = session.ledger.count()
            refused = way(at, session, key, case)
            assert not refused, f"{key} by {name}: {refused[-3000:]}"
            found[name] = left_behind(session, before)
    first = found["python"]
    _require_as_said(key, first["facts"])
    return [f"{name}: {_apart(theirs, first)}" for name, theirs in found.items() if theirs != first]


def _require_as_said(key: str, facts: list[tuple[str, dict[str, Any]]]) -> None:
    """Hold what an action wrote against what the register says that it writes, on which jobs."""
    entry = ACTIONS[key]
    assert facts, f"{key} kept nothing"
    kinds = {what["kind"] for _, what in facts}
    ticked = {"step done"} if entry.completes or entry.names_step else set()
    assert entry.writes[0] in kinds, f"{key} does not write what the register says first"
    assert kinds - ticked <= set(entry.writes), f"{key} writes {kinds}"
    jobs = {what.get("job", "") for _, what in facts}
    assert len(jobs) == 1 or entry.decides in ("a new job", "jobs of one club", "jobs of one action"), jobs


def _apart(theirs: Any, ours: Any) -> Any:
    """Say where two differ, and no more."""
    if isinstance(theirs, dict) and isinstance(ours, dict):
        return {
            key: _apart(theirs.get(key), ours.get(key)) for key in theirs | ours if theirs.get(key) != ours.get(key)
        }
    return f"{theirs} != {ours}"


def test_every_action_of_the_register_is_tried() -> None:
    assert set(CASES) == set(ACTIONS)
    assert [key for key, case in CASES.items() if case.page is None] == ["trace"], "recordings are read by a program"


@pytest.mark.parametrize("key", CASES)
def test_an_action_leaves_the_same_by_every_way_in(
    key: str, capsys: Capsys, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert differing(key, CASES[key], tmp_path, capsys, monkeypatch) == []


def test_a_way_that_forgets_a_field_breaks_the_law(
    capsys: Capsys, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    api = WAYS["api"]

    def forgetful(at: Bench, session: Session, key: str, case: Case) -> str:
        return api(at, session, key, msgspec.structs.replace(case, given={**case.given, "step": None}))

    monkeypatch.setitem(WAYS, "api", forgetful)
    (broken,) = differing("figures", CASES["figures"], tmp_path, capsys, monkeypatch)
    assert broken.startswith("api: ")
