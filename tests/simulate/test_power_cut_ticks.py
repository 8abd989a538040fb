"""The power goes after each disk operation of an action that ticks its step: figures and tick are there, or neither."""

from __future__ import annotations

import random
from collections import Counter

import msgspec
import pytest
from disk import Disk
from sqlite_on_disk import engine_on
from wreck import Wreck

from benchwork import JOB, Clock, document, session_on
from clubwright.journal.facts import Fact
from clubwright.services.actions import bench
from clubwright.services.actions.door import act
from clubwright.services.actions.register.payloads import Figures, Measured, Pulled, Tape
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate

FIGURES = {"head.mass": "296.2 g", "grip.mass": "50.1 g"}
ACTIONS: dict[str, tuple[msgspec.Struct, str]] = {
    "pull": (Pulled(job=JOB, hand="right"), "pull"),
    "measure": (Measured(job=JOB, section="grip", values={"mass": "50.1 g"}, step="weigh"), "weigh"),
    "figures": (Figures(job=JOB, values=FIGURES, step="weigh"), "weigh"),
    "tape": (Tape(job=JOB, name="build-up", layers="2", mass="2.9 g"), "tape"),
}


def wedge(key: str) -> dict[str, object]:
    """The wedge as it lacks no more than what the action brings."""
    found = document()
    if key == "tape":
        found["tape"] = [row for row in found["tape"] if row["name"] == "build-up"]
    return found


def facts_on(content: dict[str, bytes]) -> tuple[Fact, ...]:
    with engine_on(Disk(content)) as engine:
        migrate(engine)
        ledger = Ledger(engine)
        assert ledger.verify() == ()
        return tuple(ledger.facts())


@pytest.mark.parametrize("key", ACTIONS)
def test_what_an_action_writes_and_the_step_that_it_ticks_are_there_together(key: str) -> None:
    payload, step = ACTIONS[key]
    disk = Disk()
    with engine_on(disk) as engine:
        migrate(engine)
        session = session_on(Ledger(engine), Clock())
        bench.take_ticket(session, wedge(key), "w.toml")
        disk.at_rest()
        start, before = len(disk.log), session.ledger.count()
        kept = act(session, key, payload, "k-1")
        assert (kept.step, kept.lacks) == (step, ())
        whole = session.ledger.count() - before
        assert whole == len(kept.facts) > 1
    chance, found, known = random.Random(29), Counter[int](), {}
    for after in range(start, len(disk.log) + 1):
        for content in Wreck(disk, after).left(chance, 1):
            mark = tuple(sorted(content.items()))
            if mark not in known:
                known[mark] = len(facts_on(content)) - before
            found[known[mark]] += 1
    assert set(found) == {0, whole}, f"half of it was left: {found}"
