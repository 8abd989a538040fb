"""Simulated: invented clubs that come back, three jobs each. The next job's belief begins where the last ended, and is true.

Truth, parts and readings are numpy alone (tests/support/invented_clubs.py). After a re-grip head and shaft are known as well
as before; after a re-shaft the head is; of 80 % windows, 80 % hold.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from scipy import stats

from clubwright.journal.facts import Gripped, HeadBent, ReadingTaken, ShaftCut, TicketTaken, What
from clubwright.journal.job import Job
from clubwright.journal.reducers.fold import fold
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.services.actions.orders.clubs import as_left
from clubwright.ticket.read import read_ticket
from invented_clubs import DEG, GAUGES, NORMAL_80, InventedClub
from journal_facts import chained

WITHIN = (0.63, 0.97)
"""Three standard deviations of a share of 0.8 in 50 (binomial) about it."""

SQUARES = tuple(float(stats.chi2.ppf(chance, 50)) for chance in (0.0005, 0.9995))
"""Of 50 errors in their own standard deviations, squared and added: chi-squared with 50 degrees of freedom (SciPy)."""

SLOPES = 1e-4
"""Slopes are taken at the estimate, and that moves a little."""

ASKED = ("total_weight", "swing_weight", "length", "lie")
WORDS = {"kind": "iron", "hand": "right"}


def reading(club: InventedClub, job: str, quantity: str, stage: str = "finished") -> ReadingTaken:
    value, gauge = club.read(quantity), GAUGES[quantity][0]
    return ReadingTaken(job=job, quantity=quantity, value=value, stage=stage, weights=[], instrument=gauge)


def done(*facts: What) -> Job:
    return fold(chained(facts)).job(facts[0].job)


def left(job: Job) -> dict[str, Any]:
    return as_left(job, club_state(job))


def built(club: InventedClub) -> Job:
    cut = ShaftCut(job="S-1", cut_length=club.cut(0.910))
    read = [reading(club, "S-1", quantity) for quantity in ASKED]
    return done(TicketTaken(job="S-1", document=club.document(), source="invented"), cut, *read)


def regripped(club: InventedClub, before: Job) -> Job:
    came = reading(club, "S-2", "total_weight", "as it came")
    ticket = {"ticket": {**WORDS, "id": "S-2", "job": "regrip", "club": before.id}, "target": {"swing_weight": "D1"}}
    ticket |= {"grip": club.another_grip(56.0), "tape": club.another_tape()}
    return done(
        TicketTaken(job="S-2", document=ticket, source="invented", as_left=left(before)), came, Gripped(job="S-2")
    )


def bent(club: InventedClub, before: Job) -> Job:
    ticket = {"ticket": {**WORDS, "id": "S-3", "job": "loft-lie", "club": before.id}, "target": {"lie": "60 deg"}}
    taken = TicketTaken(job="S-3", document=ticket, source="invented", as_left=left(before))
    return done(taken, HeadBent(job="S-3", lie=club.bend(-2 * DEG)), reading(club, "S-3", "lie"))


def reshafted(club: InventedClub, before: Job) -> Job:
    came = reading(club, "S-3", "swing_weight", "as it came")
    parts = {"shaft": club.another_shaft(), "grip": club.another_grip(52.0), "tape": club.another_tape()}
    parts |= {"ferrule": {"mass": "0.7 g ± 0.05 g"}, "adhesive": {"in_joint": "0.8 g ± 0.2 g"}}
    ticket = {
        "ticket": {**WORDS, "id": "S-3", "job": "reshaft", "club": before.id},
        "target": {"length": "940 mm"},
        **parts,
    }
    taken = TicketTaken(job="S-3", document=ticket, source="invented", as_left=left(before))
    return done(taken, came, ShaftCut(job="S-3", cut_length=club.cut(0.908)))


def club_state(job: Job) -> ClubState:
    ticket, findings = read_ticket(job.document, "invented")
    assert ticket is not None, findings
    return club_state_of(ticket)


JOBS = {"bent": (bent, ("head", "shaft")), "reshafted": (reshafted, ("head",))}
"""The third job, and the parts that stay on in it."""

PARTS, PART = 3, 50
"""Clubs in one test, and tests: some seconds' work each."""


def worked(third: str, part: int) -> dict[str, list[float]]:
    """Work the jobs of some clubs, and return how far off the last job's belief is, in its own standard deviations."""
    last, stays = JOBS[third]
    off: dict[str, list[float]] = {}
    for seed in range(part * PART, (part + 1) * PART):
        club = InventedClub(seed)
        first = built(club)
        second = regripped(club, first)
        jobs = [club_state(job) for job in (first, second, last(club, second))]
        for name in ("head", "shaft"):
            sds = [found.belief.sd_of(f"{name}.mass_kg") for found in jobs]
            assert sds[1] <= sds[0] * (1 + SLOPES), "after a re-grip it is known as well as before"
            if name in stays:
                assert sds[2] <= sds[0] * (1 + SLOPES)
        true, believed = club.truly(), jobs[2].predict(ASKED)
        for key, mean, sd in zip(ASKED, believed.mean[0], believed.sd()[0], strict=True):
            off.setdefault(key, []).append((true[key] - mean) / sd)
        head = (true["head.mass"] - jobs[2].belief.mean_of("head.mass_kg")) / jobs[2].belief.sd_of("head.mass_kg")
        off.setdefault("head.mass", []).append(head)
    return off


@pytest.mark.parametrize("part", range(PARTS))
@pytest.mark.parametrize("third", JOBS)
def test_a_club_that_comes_back_is_known_as_it_left_and_truly(third: str, part: int) -> None:
    for key, values in worked(third, part).items():
        held = float(np.mean(np.abs(values) < NORMAL_80))
        assert WITHIN[0] < held < WITHIN[1], f"{key}: {held:.0%} of 80 % windows hold"
        square = float(np.sum(np.square(values)))
        assert SQUARES[0] < square < SQUARES[1], f"{key}: the errors are {(square / PART) ** 0.5:.2f} of their sd"
