"""Mistakes put into a few clubs of the virtual bench are named first or second; whole tables: benchmarks/README.md."""

from __future__ import annotations

import sys

import numpy as np
import pytest

from repository import ROOT

sys.path.insert(0, str(ROOT / "benchmarks"))

from causes import causes_of, told
from virtual.mistakes import MISTAKES, VISITS, Shop, club_of

SURE = ("wrong stage", "wrong letter", "length to the butt", "weight left in the port", "grip 3 to 8 g off")


@pytest.mark.parametrize("name", SURE)
def test_a_mistake_is_named_first_or_second(name: str) -> None:
    named = aside = 0
    for each in range(8):
        random = np.random.default_rng([733, each])
        club = club_of(Shop(), random)
        club.visits = VISITS[3]
        is_it = MISTAKES[name](club, random)
        causes = causes_of(told(club, Shop(), random))
        aside += bool(causes)
        named += any(map(is_it, causes[:2]))
    assert aside >= 6
    assert named >= aside - 1


def test_honest_clubs_are_left_alone_even_where_they_share_their_errors() -> None:
    accused = 0
    for each in range(60):
        shop, random = Shop.drawn(np.random.default_rng([733, each // 20])), np.random.default_rng([734, each])
        accused += bool(told(club_of(shop, random), shop, random).learned.set_aside)
    assert accused <= 2
