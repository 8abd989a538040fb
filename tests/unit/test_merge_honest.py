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
from clubwright.services import bench
from clubwright.services.desk import Desk
from clubwright.services.merging import take_in
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


def some_action(desk: Desk, chance: random.Random) -> Callable[[], object]:
    """Something that a hand may try; the bench itself refuses what cannot be."""
    job = chance.choice([*JOBS, *desk.shop().jobs])
    ticket = {**document(), "ticket": {**document()["ticket"], "id": job}}
    facts = desk.facts_of(job) if job in desk.shop().jobs else []
    place = chance.choice(facts) if facts else None
    tries: list[Callable[[], object]] = [
        lambda: bench.change_part(desk, job, "head", {"hand": "right"}),
        lambda: bench.change_part(desk, job, "grip", {"mass": f"{chance.randint(44, 52)} g"}),
        lambda: bench.change_part(desk, job, "weight", {"name": f"extra {chance.randint(1, 2)}", "mass": "2 g"}),
        lambda: bench.do_step(desk, job, chance.choice(STEPS)),
        lambda: bench.sign_gate(desk, job, chance.choice(("cut", "glue", "release"))),
        lambda: bench.cut_shaft(desk, job, "34.01 in"),
        lambda: bench.trim_shaft(desk, job, "butt", "1/8 in"),
        lambda: bench.note_reading(desk, job, "swing_weight", f"D{chance.randint(1, 5)}", stage="dry, gripped"),
        lambda: bench.fit_weights(desk, job, chance.choice(([], ["port 6"], ["extra 1"]))),
        lambda: bench.bend_head(desk, job, loft=f"{chance.randint(53, 55)} deg"),
        lambda: bench.mix_adhesive(desk, job, "4.0 g", "2.0 g", "22 C", "lot 7"),
        lambda: bench.glue(desk, job, "22 C"),
        lambda: bench.slide_grip(desk, job),
        lambda: bench.finish(desk, job),
        lambda: bench.undo(desk, job),
    ]
    if place is None:
        tries = [lambda: bench.take_ticket(desk, ticket, "t")]
    else:
        tries += [
            lambda: bench.undo(desk, job, place.sequence, "slip", site=place.site),
            lambda: bench.decide_reading(desk, job, place.sequence, keep=False, reason="no", site=place.site),
        ]
    return chance.choice(tries)


@pytest.mark.parametrize("seed", range(4))
def test_honest_benches_are_never_refused(tmp_path: Path, seed: int) -> None:
    chance = random.Random(seed)
    with record_at(tmp_path / "shop") as first, record_at(tmp_path / "van") as second:
        numbers = iter(range(10_000))
        shared = [START]
        clocks = {"shop": Clock(shared, 0), "van": Clock(shared, chance.choice((-5, 0, 5)))}
        desks = [
            Desk(ledger=ledger, site=site, by=by, now=clocks[site], new_key=lambda: f"key {next(numbers)}")
            for ledger, site, by in ((first, "shop", "Ann"), (second, "van", "Bo"))
        ]
        bench.take_ticket(desks[0], document() | {"ticket": {**document()["ticket"], "id": JOBS[0]}}, "t")
        merges = told = 0
        for _ in range(70):
            desk = chance.choice(desks)
            clocks[desk.site].go_on(chance)
            with suppress(ClubwrightError):
                some_action(desk, chance)()
            if chance.random() < 0.15:
                other = desks[0] if desk is desks[1] else desks[1]
                told += len(take_in(desk, other.ledger.facts()).findings)
                merges += 1
                desk.shop()
        for mine, other in (desks, desks[::-1], desks):
            take_in(mine, other.ledger.facts())
        assert first.facts() == second.facts()
        assert first.count() > 12
        assert merges > 3
