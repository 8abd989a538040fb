"""Simulated: invented clubs that are cut, bent or gripped anew, read before and after. What is believed of them is true.

Truth, changes and readings are numpy alone (tests/support/invented_clubs.py). Of 80 % windows, 80 % hold; and what was read
before the change makes the belief sharper than without it.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from clubwright.journal.facts import HeadBent, PartChanged, ReadingTaken, ShaftCut, TicketTaken, What
from clubwright.journal.reducers.fold import fold
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.ticket.read import read_ticket
from invented_clubs import DEG, GAUGES, NORMAL_80, InventedClub
from journal_facts import chained

J = "S-1"
CLUBS = 240
WITHIN = (0.72, 0.88)
"""Three standard deviations of a share of 0.8 in 240 (binomial) about it."""

ASKED = ("total_weight", "swing_weight", "length", "lie")


def reading(club: InventedClub, quantity: str) -> ReadingTaken:
    value = club.read(quantity)
    return ReadingTaken(
        job=J, quantity=quantity, value=value, stage="finished", weights=[], instrument=GAUGES[quantity][0]
    )


def begun(club: InventedClub) -> list[What]:
    return [
        TicketTaken(job=J, document=club.document(), source="invented"),
        ShaftCut(job=J, cut_length=club.cut(0.910)),
        reading(club, "total_weight"),
        reading(club, "swing_weight"),
    ]


def recut(club: InventedClub) -> list[What]:
    return [*begun(club), ShaftCut(job=J, cut_length=club.cut(0.908)), reading(club, "swing_weight")]


def bent(club: InventedClub) -> list[What]:
    before = [*begun(club), reading(club, "lie"), reading(club, "length")]
    return [*before, HeadBent(job=J, lie=club.bend(2 * DEG)), reading(club, "lie")]


def gripped_anew(club: InventedClub) -> list[What]:
    return [*begun(club), PartChanged(job=J, section="grip", values=club.another_grip(56.0), another=True)]


def club_state(document: dict[str, Any]) -> ClubState:
    ticket, findings = read_ticket(document, "invented")
    assert ticket is not None, findings
    return club_state_of(ticket)


@pytest.mark.parametrize(
    ("change", "sharper"),
    [
        (recut, {"total_weight": 0.1, "swing_weight": 0.95}),
        (bent, {"total_weight": 0.1, "swing_weight": 0.2, "length": 0.7}),
        (gripped_anew, {"total_weight": 0.65, "swing_weight": 0.4}),
    ],
)
def test_what_is_believed_after_a_change_is_true_and_sharper(
    change: Callable[[InventedClub], list[What]], sharper: dict[str, float]
) -> None:
    off: dict[str, list[float]] = {}
    sds: dict[str, list[float]] = {key: [] for key in sharper}
    for seed in range(CLUBS):
        club = InventedClub(seed)
        document = fold(chained(change(club))).job(J).document
        found, true = club_state(document), club.truly()
        believed = found.predict(ASKED)
        for key, mean, sd in zip(ASKED, believed.mean[0], believed.sd()[0], strict=True):
            off.setdefault(key, []).append((true[key] - mean) / sd)
        head = (true["head.mass"] - found.belief.mean_of("head.mass_kg")) / found.belief.sd_of("head.mass_kg")
        off.setdefault("head.mass", []).append(head)
        now = [row for row in document["reading"] if "before" not in row]
        dropped = club_state({**document, "reading": now}).predict(ASKED).sd()[0]
        for key, values in sds.items():
            place = ASKED.index(key)
            values.append(float(believed.sd()[0, place] / dropped[place]))
    for key, values in off.items():
        held = float(np.mean(np.abs(values) < NORMAL_80))
        assert WITHIN[0] < held < WITHIN[1], f"{key}: {held:.0%} of 80 % windows hold"
    for key, most in sharper.items():
        assert float(np.mean(sds[key])) < most, f"{key}: {np.mean(sds[key]):.2f} of what it is without"
