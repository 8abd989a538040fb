"""What the register says of an action holds by every way in: what its facts touch, the role it takes, and its gate."""

from __future__ import annotations

import shutil
from functools import partial
from pathlib import Path

import msgspec
import pytest
from test_actions_law import differing, prepared, session_in

from actionwork import CASES, WAYS, Bench, Case, left_behind
from benchwork import Clock
from clubwright.errors import ClubwrightError
from clubwright.services.actions.register.actions import ACTIONS
from clubwright.services.actions.register.facets import gate_of, role_of
from clubwright.services.checks.roles import ROLES, Role
from clubwright.services.record.session import Session
from clubwright.web.session import visitor_of

Capsys = pytest.CaptureFixture[str]
pytestmark = pytest.mark.usefixtures("played")

MORE: dict[str, list[Case]] = {
    "measure": [
        Case(
            after="hand",
            given={"section": "grip", "values": {"name": "Sedge 60", "mass": "50.1 g"}, "gauge": "gram scale"},
            page=None,
        ),
        Case(after="hand", given={"section": "ticket", "values": {"player": "R. Ashdown"}}, page=None),
    ],
    "figures": [
        Case(after="hand", given={"values": {"head.name": "Heron 54", "ticket.player": "R. Ashdown"}}, page=None),
    ],
    "order": [
        Case(
            after="hand",
            given={
                "values": {"head.name": "Heron 54", "ticket.player": "R. Ashdown"},
                "said_by": "R. Ashdown",
                "reason": "another model",
            },
            page=None,
        ),
    ],
}
"""What else an action may write, beside its usual case, so that all that it can touch is touched."""

UNSIGNED = {"cut": "done weigh", "glue": "mix", "finish": "read grip_diameter_2in 0.916 in finished"}
"""Actions behind a gate, and the action of the wedge after which nobody has signed it yet."""


@pytest.mark.parametrize("key", ACTIONS)
def test_what_an_action_declares_to_touch_is_what_its_facts_touch(
    key: str, capsys: Capsys, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    touched: set[str] = set()
    for number, case in enumerate([CASES[key], *MORE.get(key, [])]):
        touched |= touched_by(key, case, tmp_path / str(number), capsys, monkeypatch)
        if number:
            assert differing(key, case, tmp_path / str(number), capsys, monkeypatch) == []
    assert touched == set(ACTIONS[key].touches)


def touched_by(key: str, case: Case, folder: Path, capsys: Capsys, monkeypatch: pytest.MonkeyPatch) -> set[str]:
    """Do an action from Python, and return the kinds of what its facts touch beside the person."""
    folder.mkdir()
    clock = Clock()
    case = prepared(folder / "alone", case, clock)
    monkeypatch.setattr("clubwright.bootstrap._now", clock)
    with session_in(folder / "alone", clock) as session:
        before = session.ledger.count()
        refused = WAYS["python"](Bench(folder=folder / "alone", clock=clock, capsys=capsys), session, key, case)
        assert not refused, refused
        return {kind for kind, _ in left_behind(session, before)["touched"]} - {"person"}


def refusals(
    key: str, case: Case, folder: Path, role: Role, capsys: Capsys, monkeypatch: pytest.MonkeyPatch
) -> dict[str, str]:
    """Do an action by each way as a person of a role, none of which may keep anything; returns how each was refused."""
    clock, found = Clock(), {}
    case = prepared(folder / "before", case, clock)
    monkeypatch.setattr("clubwright.bootstrap._now", clock)
    monkeypatch.setattr("clubwright.bootstrap.Session", partial(Session, role=role))
    monkeypatch.setattr(
        "clubwright.web.sessions.visitor_of", lambda request: msgspec.structs.replace(visitor_of(request), role=role)
    )
    for name, way in WAYS.items():
        if name == "page" and case.page is None:
            continue
        at = Bench(folder=folder / name, clock=clock, capsys=capsys)
        shutil.copytree(folder / "before", at.folder)
        with session_in(at.folder, clock) as session:
            before = session.ledger.facts()
            try:
                found[name] = way(at, session, key, case)
            except ClubwrightError as refused:
                found[name] = f"{type(refused).__name__}: {refused}"
            assert session.ledger.facts() == before, f"{key} by {name} was kept, for who may {role}"
    return found


@pytest.mark.parametrize("key", ACTIONS)
def test_who_may_do_less_than_the_register_says_is_refused_by_every_way_in(
    key: str, capsys: Capsys, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    needed = role_of(ACTIONS[key])
    lower = ROLES[ROLES.index(needed) - 1]
    found = refusals(key, CASES[key], tmp_path, lower, capsys, monkeypatch)
    for name, refused in found.items():
        assert f'"{needed}"' in refused.replace("&#34;", '"').replace('\\"', '"'), f"{key} by {name}: {refused[-500:]}"


def test_every_action_behind_a_gate_is_tried() -> None:
    assert {key for key, action in ACTIONS.items() if gate_of(action)} == set(UNSIGNED)


@pytest.mark.parametrize("key", UNSIGNED)
def test_an_action_behind_a_gate_that_nobody_has_signed_is_refused_by_every_way_in(
    key: str, capsys: Capsys, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    given = {name: value for name, value in CASES[key].given.items() if name != "done_at"}
    case = msgspec.structs.replace(CASES[key], after=UNSIGNED[key], given=given)
    found = refusals(key, case, tmp_path, "sign off", capsys, monkeypatch)
    assert set(found) == set(WAYS)
    for name, refused in found.items():
        assert "nobody has signed the gate" in refused, f"{key} by {name}: {refused[-500:]}"
