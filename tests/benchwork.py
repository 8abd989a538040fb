"""A bench for the tests: a desk with its own clock and keys, and the invented wedge of the demo worked action by action."""

from __future__ import annotations

import itertools
import json
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from importlib.resources import files
from typing import Any

from clubwright.importers.ticket_file import parse_ticket
from clubwright.journal.facts import Fact
from clubwright.services import bench
from clubwright.services.desk import Desk
from clubwright.services.job_work import WorkedJob, work_job
from clubwright.services.ledger import LedgerPort

JOB = "T-0054"
TEXT = (files("clubwright.demo") / "wedge-54.toml").read_text(encoding="utf-8")
NUMBERS = itertools.count(1)
"""Of fresh keys: never used twice in a run of the tests."""
START = datetime(2026, 3, 2, 8, 0, tzinfo=UTC)


class Clock:
    """Moves only when told."""

    def __init__(self) -> None:
        self.time = START

    def __call__(self) -> datetime:
        return self.time

    def wait(self, **span: float) -> None:
        self.time += timedelta(**span)


def document() -> dict[str, Any]:
    return parse_ticket(TEXT, "wedge-54.toml")


def desk_on(ledger: LedgerPort, clock: Clock, *, site: str = "van", by: str = "Ann") -> Desk:
    return Desk(ledger=ledger, site=site, by=by, now=clock, new_key=lambda: f"key-{next(NUMBERS)}")


def worked(desk: Desk) -> WorkedJob:
    return work_job(desk.job(JOB), desk.now())


def answer_bytes(answer: dict[str, Any]) -> bytes:
    return json.dumps(answer, sort_keys=True, allow_nan=False).encode()


def state_bytes(desk: Desk) -> bytes:
    return answer_bytes(worked(desk).answer())


def gates(desk: Desk) -> dict[str, bool]:
    return {gate.step: gate.open for gate in worked(desk).gates}


Action = tuple[str, Callable[[Desk], object], float]
"""A name, what is done, and the hours that pass before it."""


def actions() -> list[Action]:
    """The wedge from its ticket to its tag."""

    def done(step: str, hours: float = 0.1) -> Action:
        return f"done {step}", lambda desk: bench.do_step(desk, JOB, step), hours

    def read(quantity: str, value: str, stage: str, gauge: str) -> Action:
        def take(desk: Desk) -> object:
            return bench.note_reading(desk, JOB, quantity, value, stage=stage, instrument=gauge)

        return f"read {quantity} {value} {stage}", take, 0.1

    return [
        ("take", lambda desk: bench.take_ticket(desk, document(), "wedge-54.toml"), 0.1),
        ("hand", lambda desk: bench.change_part(desk, JOB, "head", {"hand": "right"}), 0.1),
        done("pull"),
        done("weigh"),
        ("sign cut", lambda desk: bench.sign_gate(desk, JOB, "cut"), 0.1),
        ("cut", lambda desk: bench.cut_shaft(desk, JOB, "34.01 in"), 0.1),
        done("mark and cut"),
        read("swing_weight", "D1.3", "dry, gripped", "swing scale"),
        read("total_weight", "465.4 g", "dry, gripped", "gram scale"),
        ("fit", lambda desk: bench.fit_weights(desk, JOB, ["port 6"]), 0.1),
        read("swing_weight", "D3.8", "dry, gripped", "swing scale"),
        ("mix", lambda desk: bench.mix_adhesive(desk, JOB, "4.0 g", "2.0 g", "22 C", "lot 7"), 0.1),
        ("sign glue", lambda desk: bench.sign_gate(desk, JOB, "glue"), 0.1),
        ("glue", lambda desk: bench.glue(desk, JOB, "22 C"), 0.1),
        done("cure", 15),
        ("grip", lambda desk: bench.slide_grip(desk, JOB), 0.1),
        ("bend", lambda desk: bench.bend_head(desk, JOB, loft="54 deg", lie="63.5 deg", bounce="9.75 deg"), 0.1),
        read("length", "35 1/4 in", "finished", "rule"),
        read("loft", "54 deg", "finished", "angle gauge"),
        read("lie", "63.5 deg", "finished", "angle gauge"),
        read("swing_weight", "D4.1", "finished", "swing scale"),
        read("swing_weight", "D4", "finished", "swing scale"),
        read("total_weight", "477.2 g", "finished", "gram scale"),
        ("leave out", _leave_out_last, 0.1),
        read("total_weight", "472.2 g", "finished", "gram scale"),
        read("grip_diameter_2in", "0.916 in", "finished", "caliper"),
        ("sign release", lambda desk: bench.sign_gate(desk, JOB, "release"), 0.1),
        ("finish", lambda desk: bench.finish(desk, JOB), 0.1),
        done("tag"),
    ]


def _leave_out_last(desk: Desk) -> object:
    last = desk.job(JOB).last_standing_line().sequence
    return bench.decide_reading(desk, JOB, last, keep=False, reason="misread, a 2 for a 7")


def run(desk: Desk, clock: Clock) -> Iterator[str]:
    """Do every action; yields its name when it is done."""
    for name, do, hours in actions():
        clock.wait(hours=hours)
        do(desk)
        yield name


PLAYED: list[tuple[str, datetime, Fact]] = []
"""The whole wedge as it was done once: each action's name, the time it was done, and its fact."""


def play(ledger: LedgerPort) -> None:
    """Do the whole wedge once and keep its facts for `run_to`; each action is one fact."""
    clock = Clock()
    desk = desk_on(ledger, clock)
    times = [(name, clock.time) for name in run(desk, clock)]
    facts = ledger.facts()
    PLAYED[:] = [(name, time, fact) for (name, time), fact in zip(times, facts, strict=True)]


def run_to(desk: Desk, clock: Clock, last: str) -> None:
    """Bring an empty record to where it is after an action, by the facts of the wedge as it was done."""
    names = [name for name, _, _ in PLAYED]
    until = names.index(last) + 1
    desk.ledger.receive([fact for _, _, fact in PLAYED[:until]])
    clock.time = PLAYED[until - 1][1]
