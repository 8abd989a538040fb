"""Invented clubs that are re-gripped: what was read as it came is true of the head and shaft, and sharpens what follows.

The true clubs are summed by hand (tests/support/hand_statics.py). Each true figure is drawn from what the ticket says of it,
each reading from its gauge: repeatability, one bias for each gauge and club, then the step of the scale.
"""

from __future__ import annotations

import math
from functools import cache
from typing import Any, NamedTuple

import numpy as np
import pytest

from clubwright.notation import render
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.ticket.gauges import usual_gauge
from clubwright.ticket.read import read_ticket
from hand_statics import as_cut, by_hand, came_with

CLUBS = 120
SEED = 20260302
KEYS = ("total_weight", "swing_weight", "balance_point", "moi")
READ = ("total_weight", "swing_weight", "length")
NORMAL_80 = 1.2815515655446004
"""Two-sided normal point for 80 %."""

GIVEN = {
    "head": {"bore_to_ground": "1.10 in", "bore_depth": "1.25 in"},
    "shaft": {"mass": "115 g ± 8 g", "weighed": "cut"},
    "grip": {"mass": "56.3 g", "cap": "1/8 in", "cg_from_cap": "4.0 in"},
    "tape": [{"name": "double-sided", "mass": "1.6 g", "cg_from_cap": "5.1 in"}],
    "target": {"length": "37 in", "swing_weight": "D2", "total_weight": "440 g", "moi": "2700 kg cm2"},
}
"""Head and shaft are hardly known: nobody pulls a finished club apart to weigh them."""


def club_state(job: str, readings: list[dict[str, str]], **old: dict[str, str]) -> ClubState:
    document: dict[str, Any] = {"ticket": {"id": "T-1", "kind": "iron", "hand": "right", "job": job}}
    ticket, findings = read_ticket({**document, **GIVEN, **old, "reading": readings})
    assert ticket is not None, [finding.sentence() for finding in findings]
    return club_state_of(ticket)


class Club(NamedTuple):
    """One invented club: true numbers as it came and finished, and what its belief says without and with readings."""

    finished: dict[str, float]
    without: ClubState
    with_came: ClubState
    after: ClubState


def drawn(job: str, chance: np.random.Generator, *, weighed: bool) -> Club:
    plain = club_state(job, [])
    belief = plain.prior.belief
    drawn_now = chance.multivariate_normal(belief.mean, belief.covariance, method="cholesky")
    part = as_cut(number_of(plain) | dict(zip(belief.names, map(float, drawn_now), strict=True)))
    old = {}
    if weighed:
        for name, mass in (
            ("came.grip.mass_kg", 0.3e-3),
            ("came.grip.cap_m", 0.2e-3),
            ("came.grip.cg_from_cap_m", 3e-3),
        ):
            old[name] = part[name] + float(chance.normal(0, mass))
    table = (
        {
            "mass": f"{old['came.grip.mass_kg'] * 1e3:.4f} g",
            "cap": f"{old['came.grip.cap_m'] * 1e3:.5f} mm",
            "cg_from_cap": f"{old['came.grip.cg_from_cap_m'] * 1e3:.4f} mm",
        }
        if weighed
        else {}
    )
    tables = {"old_grip": table} if weighed else {}
    came, finished = by_hand(came_with(part)), by_hand({k: v for k, v in part.items() if not k.startswith("came.")})
    bias = {key: float(chance.normal(0, usual_gauge(key).bias)) for key in READ}
    first = [row(key, came[key] + bias[key], "as it came", chance) for key in READ]
    second = [row(key, finished[key] + bias[key], "finished", chance) for key in READ]
    return Club(
        finished,
        club_state(job, [], **tables),
        club_state(job, first, **tables),
        club_state(job, [*first, *second], **tables),
    )


def number_of(found: ClubState) -> dict[str, float]:
    """Every number of the parts that the hand sums need, certain ones too."""
    club = found.prior.club
    parts: dict[str, Any] = {
        "head": club.head, "shaft": club.shaft, "grip": club.grip, "ferrule": club.ferrule,
        "adhesive": club.adhesive, "tapes.0": club.tapes[0],
    }  # fmt: skip
    return {
        f"{part}.{name}": float(value)
        for part, item in parts.items()
        for name in item.__struct_fields__
        if isinstance(value := getattr(item, name), float | int)
    }


def row(key: str, true: float, stage: str, chance: np.random.Generator) -> dict[str, str]:
    gauge = usual_gauge(key)
    value = true + float(chance.normal(0, gauge.repeatability))
    value = round(value / gauge.resolution) * gauge.resolution
    texts = {"total_weight": f"{value * 1e3:.1f} g", "length": f"{value * 1e3:.4f} mm"}
    return {"quantity": key, "value": texts.get(key) or render(key, value), "stage": stage}


@cache
def clubs(job: str, weighed: bool) -> tuple[Club, ...]:
    chance = np.random.default_rng(SEED)
    return tuple(drawn(job, chance, weighed=weighed) for _ in range(CLUBS))


CASES = [("regrip", False), ("regrip", True), ("reshaft", False)]


@pytest.mark.parametrize(("job", "weighed"), CASES)
def test_right_readings_fit_almost_always(job: str, weighed: bool) -> None:
    """A right reading is set aside once in a thousand: of 120 clubs with six readings each, four is very unlucky."""
    off = [item.off_by_sd for club in clubs(job, weighed) for item in club.after.learned.judged]
    assert len(off) == 6 * CLUBS
    assert sum(abs(each) > 3.2905 for each in off) <= 4
    assert float(np.mean(np.square(off))) == pytest.approx(1.0, abs=0.15)


@pytest.mark.parametrize(("job", "weighed"), CASES)
@pytest.mark.parametrize("key", KEYS)
def test_windows_of_eighty_per_cent_hold_eight_clubs_of_ten(job: str, weighed: bool, key: str) -> None:
    """The binomial standard deviation of 120 clubs is 3.7 %: three of them either way."""
    inside = 0
    for club in clubs(job, weighed):
        found = club.with_came.predict([key])
        inside += abs(club.finished[key] - float(found.mean[0, 0])) < NORMAL_80 * float(found.sd()[0, 0])
    assert inside / CLUBS == pytest.approx(0.8, abs=3 * math.sqrt(0.8 * 0.2 / CLUBS))


@pytest.mark.parametrize(("job", "weighed"), CASES)
@pytest.mark.parametrize("key", KEYS)
def test_a_reading_as_it_came_sharpens_the_finished_club(job: str, weighed: bool, key: str) -> None:
    without, sharper = (
        np.array([float(getattr(club, name).predict([key]).sd()[0, 0]) for club in clubs(job, weighed)])
        for name in ("without", "with_came")
    )
    assert (sharper < without).all()
    most = {("regrip", False): 0.5, ("regrip", True): 0.25}.get((job, weighed), 0.95)
    assert float(np.median(sharper / without)) < most


def test_a_weighed_old_grip_tells_more_than_one_that_was_not() -> None:
    for key in KEYS:
        known, unknown = (
            float(clubs("regrip", weighed)[0].with_came.predict([key]).sd()[0, 0]) for weighed in (True, False)
        )
        assert known < unknown
