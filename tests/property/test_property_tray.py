"""Of the sets of loose weights that fit, one of each that does something else is offered: against a search of all sets."""

from __future__ import annotations

import itertools
import random

from hypothesis import given
from hypothesis import strategies as st

from clubwright.planning.advice.tray import MOST_SETS, looked_at
from clubwright.ticket.read import read_ticket

Kind = tuple[str, int, int]
"""Seat, grams of one piece, how many."""

SEATS = ("port", "tip", "butt", "head")
weights = st.lists(st.tuples(st.sampled_from(SEATS), st.integers(1, 4), st.integers(1, 3)), min_size=0, max_size=6)


def document(tray: list[Kind], most: int | None, ports: int | None, fill: int = 0) -> dict[str, object]:
    head = {"mass": "300 g"} | ({} if ports is None else {"ports": str(ports)})
    return {
        "ticket": {"id": "T-1", "kind": "wedge", "hand": "right"},
        "head": head | ({"ports_to_fill": str(fill)} if fill else {}),
        **({} if most is None else {"shop": {"most_pieces": str(most)}}),
        "weight": [
            {"name": f"w{place}", "mass": f"{grams} g", "seat": seat, "count": str(count)}
            for place, (seat, grams, count) in enumerate(tray)
        ],
    }


@given(tray=weights, most=st.none() | st.integers(1, 4), ports=st.none() | st.integers(1, 3), fill=st.integers(0, 1))
def test_sets_are_those_of_a_search_of_all_counts(
    tray: list[Kind], most: int | None, ports: int | None, fill: int
) -> None:
    ticket, findings = read_ticket(document(tray, most, ports, fill))
    assert ticket is not None, findings
    fill = min(fill, sum(count for seat, _, count in tray if seat == "port"))

    def used(counts: tuple[int, ...], seat: str) -> int:
        return sum(n for n, (where, _, _) in zip(counts, tray, strict=True) if where == seat)

    def fits(counts: tuple[int, ...]) -> bool:
        room = fill <= used(counts, "port") <= (99 if ports is None else ports)
        return room and used(counts, "tip") <= 1 and used(counts, "butt") <= 1 and sum(counts) <= (most or 99)

    def does(counts: tuple[int, ...]) -> tuple[int, ...]:
        """Grams at each seat: all pieces of a seat sit at one place here."""
        return tuple(
            sum(n * grams for n, (where, grams, _) in zip(counts, tray, strict=True) if where == seat) for seat in SEATS
        )

    fewest: dict[tuple[int, ...], int] = {}
    for counts in itertools.product(*[range(count + 1) for _, _, count in tray]):
        if fits(counts):
            fewest[does(counts)] = min(fewest.get(does(counts), 99), sum(counts))
    looked = looked_at(ticket)
    offered = [tuple(int(n) for n in row) for row in looked.sets]

    assert looked.is_whole
    assert all(fits(counts) for counts in offered)
    assert {does(counts): sum(counts) for counts in offered} == fewest
    assert len(offered) == len(fewest)
    assert [sum(row) for row in offered] == sorted(sum(row) for row in offered)


def test_a_tray_of_too_many_sets_is_thinned_to_fewer_pieces_and_says_so() -> None:
    """40 odd masses: up to three pieces they make some 10 700 sums, of four there are 91 390 sets more."""
    micrograms = [random.Random(place).randrange(500_000, 60_000_000) for place in range(40)]
    raw = document([("head", 1, 1)] * 40, None, None)
    raw["weight"] = [
        {"name": f"w{place}", "mass": f"{mass / 1e6:.6f} g", "seat": "head"} for place, mass in enumerate(micrograms)
    ]
    ticket, findings = read_ticket(raw)
    assert ticket is not None, findings

    looked = looked_at(ticket)

    sums = {sum(each) for size in range(4) for each in itertools.combinations(micrograms, size)}
    assert len(looked.sets) == len(sums) <= MOST_SETS
    assert looked.pieces == 3 and not looked.is_whole
