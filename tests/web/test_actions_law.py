"""Every action of the register, by every way in: the same facts are kept of it, and the same state is left.

An action that ticks a step keeps both or neither, wherever the program is stopped on its way, and one undo takes both back.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import msgspec
import pytest
from sqlalchemy import Engine, event

from actionwork import CASES, WAYS, Bench, Case, left_behind
from benchwork import Clock, run_to, session_on
from clubwright.journal.facts import Fact, StepDone
from clubwright.services.actions import bench
from clubwright.services.actions.register.actions import ACTIONS
from clubwright.services.record.session import Session
from clubwright.store.engine import open_engine
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate

RECORD = "record.sqlite"
TICKING = {
    "pull": CASES["pull"],
    "measure": msgspec.structs.replace(
        CASES["figures"],
        given={"section": "grip", "values": {"mass": "50.1 g"}, "gauge": "gram scale", "step": "weigh"},
        page=None,
    ),
    "figures": CASES["figures"],
    "tape": CASES["tape"],
}
"""Actions that tick a step with what they write; the page's form of several figures is the one that names a step."""

Capsys = pytest.CaptureFixture[str]
pytestmark = pytest.mark.usefixtures("played")


@contextmanager
def session_in(folder: Path, clock: Clock) -> Iterator[Session]:
    engine = open_engine(f"sqlite:///{folder / RECORD}")
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
    _require_as_said(key, first)
    return [f"{name}: {_apart(theirs, first)}" for name, theirs in found.items() if theirs != first]


def _require_as_said(key: str, left: dict[str, Any]) -> None:
    """Hold what an action wrote against what the register says that it writes, on which jobs, and what it touches."""
    entry, facts = ACTIONS[key], left["facts"]
    assert facts, f"{key} kept nothing"
    kinds = {what["kind"] for _, what in facts}
    ticked = {"step done"} if entry.completes or entry.names_step else set()
    assert entry.writes[0] in kinds, f"{key} does not write what the register says first"
    assert kinds - ticked <= set(entry.writes), f"{key} writes {kinds}"
    jobs = {what.get("job", "") for _, what in facts}
    assert len(jobs) == 1 or entry.decides in ("a new job", "jobs of one club", "jobs of one action"), jobs
    touched = {kind for kind, _ in left["touched"]} - {"person"}
    assert touched <= set(entry.touches), f"{key} touches {touched}, and the register says {entry.touches}"


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


@contextmanager
def stops(folder: Path, kept: list[dict[str, bytes]]) -> Iterator[None]:
    """Keep the files of a record as they lie on the disk at each statement: what is left if the program is stopped then."""

    def look(*_: Any) -> None:
        files = {path.name: path.read_bytes() for path in folder.glob(f"{RECORD}*")}
        if not kept or files != kept[-1]:
            kept.append(files)

    for moment in ("before_cursor_execute", "after_cursor_execute"):
        event.listen(Engine, moment, look)
    try:
        yield
    finally:
        for moment in ("before_cursor_execute", "after_cursor_execute"):
            event.remove(Engine, moment, look)
    look()


def facts_in(folder: Path, files: dict[str, bytes], clock: Clock) -> list[Fact]:
    folder.mkdir()
    for name, content in files.items():
        (folder / name).write_bytes(content)
    with session_in(folder, clock) as session:
        assert session.ledger.verify() == ()
        return session.ledger.facts()


def test_every_action_that_ticks_a_step_is_stopped() -> None:
    assert set(TICKING) == {key for key, action in ACTIONS.items() if action.completes or action.names_step}


@pytest.mark.parametrize("key", TICKING)
def test_an_action_and_its_tick_are_kept_and_undone_together_by_every_way_in(
    key: str, capsys: Capsys, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    clock = Clock()
    case = prepared(tmp_path / "before", TICKING[key], clock)
    monkeypatch.setattr("clubwright.bootstrap._now", clock)
    for name, way in WAYS.items():
        if name == "page" and case.page is None:
            continue
        at = Bench(folder=tmp_path / name, clock=clock, capsys=capsys)
        shutil.copytree(tmp_path / "before", at.folder)
        left: list[dict[str, bytes]] = []
        with session_in(at.folder, clock) as session:
            before = session.ledger.count()
            with stops(at.folder, left):
                refused = way(at, session, key, case)
            assert not refused, f"{key} by {name}: {refused[-3000:]}"
            facts = session.ledger.facts()[before:]
            assert isinstance(facts[-1].what, StepDone), name
            step, places = facts[-1].what.step, {fact.place for fact in facts}
            assert step in session.job(case.job).steps_done
            bench.undo(session, case.job, facts[0].sequence)
            after = session.job(case.job)
            assert step not in after.steps_done, f"{name}: the tick outlived what it was ticked with"
            assert all(line.undone for line in after.trail if (line.site, line.sequence) in places)
        counts = {
            len(facts_in(tmp_path / f"{name}-{number}", files, clock)) - before for number, files in enumerate(left)
        }
        assert counts == {0, len(facts)}, f"{key} by {name} is half there when it is stopped: {counts}"
