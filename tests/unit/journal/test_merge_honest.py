"""Benches that only ever did what the program let them do are never refused: random work on shared jobs, merged at random.

Their clocks differ by hours, one of them steps back, each sees the other's work only as far as it was merged, and both
come to the same record in the end.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from contextlib import suppress
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from benchwork import START, document
from clubwright.errors import ClubwrightError
from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from clubwright.services.recording.merging import take_in
from forging import record_at

JOBS = ("T-1", "T-2")
STEPS = ("pull", "weigh", "head check", "bore to ground", "dry fit", "mark and cut")


class Clock:
    """One bench's clock: the true time that both share, and how far this one is off; now and then it is set anew."""

    def __init__(self, shared: list[datetime], off_h: int) -> None:
        self.shared = shared
        self.off_h = off_h

    def __call__(self) -> datetime:
        return self.shared[0] + timedelta(hours=self.off_h)

    def go_on(self, chance: random.Random) -> None:
        self.shared[0] += timedelta(minutes=chance.choice((1, 5, 40, 900)))
        if chance.random() < 0.1:
            self.off_h = chance.choice((-9, -1, 0, 1, 9))


def some_action(session: Session, chance: random.Random) -> Callable[[], object]:
    """Something that a hand may try; the bench itself refuses what cannot be."""
    job = chance.choice([*JOBS, *session.shop().jobs])
    ticket = {**document(), "ticket": {**document()["ticket"], "id": job}}
    facts = session.facts_of(job) if job in session.shop().jobs else []
    place = chance.choice(facts) if facts else None
    tries: list[Callable[[], object]] = [
        lambda: bench.change_part(session, job, "head", {"hand": "right"}),
        lambda: bench.change_part(session, job, "grip", {"mass": f"{chance.randint(44, 52)} g"}),
        lambda: bench.change_part(session, job, "weight", {"name": f"extra {chance.randint(1, 2)}", "mass": "2 g"}),
        lambda: bench.do_step(session, job, chance.choice(STEPS)),
        lambda: bench.sign_gate(session, job, chance.choice(("cut", "glue", "release"))),
        lambda: bench.cut_shaft(session, job, "34.01 in"),
        lambda: bench.trim_shaft(session, job, "butt", "1/8 in"),
        lambda: bench.note_reading(session, job, "swing_weight", f"D{chance.randint(1, 5)}", stage="dry, gripped"),
        lambda: bench.fit_weights(session, job, chance.choice(([], ["port 6"], ["extra 1"]))),
        lambda: bench.bend_head(session, job, loft=f"{chance.randint(53, 55)} deg"),
        lambda: bench.mix_adhesive(session, job, "4.0 g", "2.0 g", "22 C", "lot 7"),
        lambda: bench.glue(session, job, "22 C"),
        lambda: bench.slide_grip(session, job),
        lambda: bench.finish(session, job),
        lambda: bench.undo(session, job),
    ]
    if place is None:
        tries = [lambda: bench.take_ticket(session, ticket, "t")]
    else:
        tries += [
            lambda: bench.undo(session, job, place.sequence, "slip", site=place.site),
            lambda: bench.decide_reading(session, job, place.sequence, keep=False, reason="no", site=place.site),
        ]
    return chance.choice(tries)


@pytest.mark.parametrize("seed", range(4))
def test_honest_benches_are_never_refused(tmp_path: Path, seed: int) -> None:
    chance = random.Random(seed)
    with record_at(tmp_path / "shop") as first, record_at(tmp_path / "van") as second:
        numbers = iter(range(10_000))
        shared = [START]
        clocks = {"shop": Clock(shared, 0), "van": Clock(shared, chance.choice((-5, 0, 5)))}
        sessions = [
            Session(ledger=ledger, site=site, by=by, now=clocks[site], new_key=lambda: f"key {next(numbers)}")
            for ledger, site, by in ((first, "shop", "Ann"), (second, "van", "Bo"))
        ]
        bench.take_ticket(sessions[0], document() | {"ticket": {**document()["ticket"], "id": JOBS[0]}}, "t")
        merges = told = 0
        for _ in range(70):
            session = chance.choice(sessions)
            clocks[session.site].go_on(chance)
            with suppress(ClubwrightError):
                some_action(session, chance)()
            if chance.random() < 0.15:
                other = sessions[0] if session is sessions[1] else sessions[1]
                told += len(take_in(session, other.ledger.facts()).findings)
                merges += 1
                session.shop()
        for mine, other in (sessions, sessions[::-1], sessions):
            take_in(mine, other.ledger.facts())
        assert first.facts() == second.facts()
        assert first.count() > 12
        assert merges > 3
