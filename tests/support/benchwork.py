"""A bench for the tests: a session with its own clock and keys, and the demo's invented wedge worked action by action."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from importlib.resources import files
from typing import Any

from clubwright.importers.ticket_file import parse_ticket
from clubwright.journal.facts import Fact
from clubwright.services.actions import bench
from clubwright.services.jobs.job_answer import JobAnswer, answer_job
from clubwright.services.record.ledger import LedgerPort
from clubwright.services.record.session import Session
from clubwright.services.told.answer import Answer

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


def session_on(ledger: LedgerPort, clock: Clock, *, site: str = "van", by: str = "Ann") -> Session:
    return Session(ledger=ledger, site=site, by=by, now=clock, new_key=lambda: f"key-{next(NUMBERS)}")


def worked(session: Session) -> JobAnswer:
    return answer_job(session.job(JOB), session.now())


def answer_bytes(answer: Answer) -> bytes:
    return answer.json().encode()


def state_bytes(session: Session) -> bytes:
    return answer_bytes(worked(session).answer())


def gates(session: Session) -> dict[str, bool]:
    return {gate.step: gate.open for gate in worked(session).gates}


Action = tuple[str, Callable[[Session], object], float]
"""A name, what is done, and the hours that pass before it."""


def actions() -> list[Action]:
    """The wedge from its ticket to its tag."""

    def done(step: str, hours: float = 0.1) -> Action:
        return f"done {step}", lambda session: bench.do_step(session, JOB, step), hours

    def read(quantity: str, value: str, stage: str, gauge: str) -> Action:
        def take(session: Session) -> object:
            return bench.note_reading(session, JOB, quantity, value, stage=stage, instrument=gauge)

        return f"read {quantity} {value} {stage}", take, 0.1

    return [
        ("take", lambda session: bench.take_ticket(session, document(), "wedge-54.toml"), 0.1),
        ("hand", lambda session: bench.change_part(session, JOB, "head", {"hand": "right"}), 0.1),
        done("pull"),
        done("weigh"),
        ("sign cut", lambda session: bench.sign_gate(session, JOB, "cut"), 0.1),
        ("cut", lambda session: bench.cut_shaft(session, JOB, "34.01 in"), 0.1),
        done("mark and cut"),
        read("swing_weight", "D1.3", "dry, gripped", "swing scale"),
        read("total_weight", "465.4 g", "dry, gripped", "gram scale"),
        ("fit", lambda session: bench.fit_weights(session, JOB, ["port 6"]), 0.1),
        read("swing_weight", "D3.8", "dry, gripped", "swing scale"),
        ("mix", lambda session: bench.mix_adhesive(session, JOB, "4.0 g", "2.0 g", "22 C", "lot 7"), 0.1),
        ("sign glue", lambda session: bench.sign_gate(session, JOB, "glue"), 0.1),
        ("glue", lambda session: bench.glue(session, JOB, "22 C"), 0.1),
        done("cure", 15),
        ("grip", lambda session: bench.slide_grip(session, JOB), 0.1),
        ("bend", lambda session: bench.bend_head(session, JOB, loft="54 deg", lie="63.5 deg", bounce="9.75 deg"), 0.1),
        read("length", "35 1/4 in", "finished", "rule"),
        read("loft", "54 deg", "finished", "angle gauge"),
        read("lie", "63.5 deg", "finished", "angle gauge"),
        read("swing_weight", "D4.1", "finished", "swing scale"),
        read("swing_weight", "D4", "finished", "swing scale"),
        read("total_weight", "477.2 g", "finished", "gram scale"),
        ("leave out", _leave_out_last, 0.1),
        read("total_weight", "472.2 g", "finished", "gram scale"),
        read("grip_diameter_2in", "0.916 in", "finished", "caliper"),
        ("sign release", lambda session: bench.sign_gate(session, JOB, "release"), 0.1),
        ("finish", lambda session: bench.finish(session, JOB), 0.1),
        done("tag"),
    ]


def _leave_out_last(session: Session) -> object:
    last = session.job(JOB).last_standing_line().sequence
    return bench.decide_reading(session, JOB, last, keep=False, reason="misread, a 2 for a 7")


def run(session: Session, clock: Clock) -> Iterator[str]:
    """Do every action; yields its name when it is done."""
    for name, do, hours in actions():
        clock.wait(hours=hours)
        do(session)
        yield name


PLAYED: list[tuple[str, datetime, Fact]] = []
"""The whole wedge as it was done once: each action's name, the time it was done, and its fact."""


def play(ledger: LedgerPort) -> None:
    """Do the whole wedge once and keep its facts for `run_to`; each action is one fact."""
    clock = Clock()
    session = session_on(ledger, clock)
    times = [(name, clock.time) for name in run(session, clock)]
    facts = ledger.facts()
    PLAYED[:] = [(name, time, fact) for (name, time), fact in zip(times, facts, strict=True)]


def run_to(session: Session, clock: Clock, last: str) -> None:
    """Bring an empty record to where it is after an action, by the facts of the wedge as it was done."""
    names = [name for name, _, _ in PLAYED]
    until = names.index(last) + 1
    session.ledger.receive([fact for _, _, fact in PLAYED[:until]])
    clock.time = PLAYED[until - 1][1]
