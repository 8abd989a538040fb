"""kill -9 in the middle of writing: what was acknowledged is there, no action is half there, and writing goes on.

The same harness must catch two saboteurs, or it would prove nothing. It proves safety against the death of the process,
not against a power cut: that is tried in `tests/simulate`.
"""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import time
from collections import Counter
from pathlib import Path

import pytest

from clubwright.journal.facts import Gripped, StepDone, TicketTaken
from clubwright.journal.reducers.fold import fold
from clubwright.store.engine import open_engine
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate

WRITER = Path(__file__).with_name("crash_writer.py")
SEED = os.environ.get("CLUBWRIGHT_CRASH_SEED", "54")
KILLS = int(os.environ.get("CLUBWRIGHT_CRASH_KILLS", "12"))
MOST_KILLS_TO_CATCH = 60
"""A saboteur is caught within a few kills; on a loaded machine a kill may miss its window many times over."""

pytestmark = pytest.mark.crash


def strike(record: Path, hand: str, round_number: int) -> list[str]:
    """Let a hand write, kill it at a random moment, and return what it acknowledged."""
    chance = random.Random(f"{SEED} {hand} {round_number}")
    command = [sys.executable, str(WRITER), str(record), hand, str(round_number), SEED]
    with subprocess.Popen(command, stdout=subprocess.PIPE) as child:
        assert child.stdout is not None
        # counted in actions first, so that a slow machine is struck in the midst of writing like a fast one
        first = b"".join(child.stdout.readline() for _ in range(chance.randint(1, 12)))
        time.sleep(chance.uniform(0.0, 0.03))
        os.kill(child.pid, signal.SIGKILL)
        rest = child.stdout.read()
    assert child.returncode == -signal.SIGKILL
    said = (first + rest).decode()
    assert said, "the hand died before it wrote anything"
    return said[: said.rindex("\n")].split("\n")


def faults(record: Path, acknowledged: list[str]) -> list[str]:
    """Open the record after the kill, and return everything that is wrong with it."""
    engine = open_engine(f"sqlite:///{record}")
    try:
        migrate(engine)
        ledger = Ledger(engine)
        facts = ledger.facts()
        found = [f"broken: {finding.sentence()}" for finding in ledger.verify()]
        by_key = {fact.key: fact for fact in facts}
        for line in acknowledged:
            key, count, last_hash = line.split()
            last = by_key.get(key if count == "1" else f"{key}#{count}")
            if last is None or last.hash != last_hash:
                found.append(f"lost: {key}")
        groups = Counter(fact.key.partition("#")[0] for fact in facts)
        for key, count in groups.items():
            what = by_key[key].what
            if isinstance(what, TicketTaken | StepDone):
                wanted = what.source.partition("/")[2] if isinstance(what, TicketTaken) else what.note
                if count != int(wanted):
                    found.append(f"torn: {key} has {count} of {wanted}")
        fold(facts)
        try:
            after = ledger.append(
                "van", [Gripped(job=facts[0].what.job)], by="Ann", at=facts[-1].at, typed="", key=f"after {len(facts)}"
            )
            assert after[0].sequence == len(facts) + 1
        except Exception as failure:
            found.append(f"writing does not go on: {failure}")
    finally:
        engine.dispose()
    return found


@pytest.fixture
def record(tmp_path: Path) -> Path:
    path = tmp_path / "record.sqlite"
    engine = open_engine(f"sqlite:///{path}")
    migrate(engine)
    engine.dispose()
    return path


def test_nothing_acknowledged_is_lost_and_nothing_is_torn(record: Path):
    acknowledged: list[str] = []
    for round_number in range(KILLS):
        acknowledged += strike(record, "honest", round_number)
        assert faults(record, acknowledged) == [], f"seed {SEED}, round {round_number}"
    assert len(acknowledged) >= KILLS


@pytest.mark.parametrize(("hand", "fault"), [("torn", "torn"), ("early", "lost")])
def test_the_harness_catches_a_saboteur(record: Path, hand: str, fault: str):
    acknowledged: list[str] = []
    for round_number in range(MOST_KILLS_TO_CATCH):
        acknowledged += strike(record, hand, round_number)
        found = faults(record, acknowledged)
        assert [line for line in found if not line.startswith(fault)] == []
        if found:
            return
    pytest.fail(f"seed {SEED}: {MOST_KILLS_TO_CATCH} kills did not show that this hand is a saboteur")
