"""Every set of loose weights that fits is offered, once, and none that does not: against a search of all sets."""

from __future__ import annotations

import itertools

from hypothesis import given
from hypothesis import strategies as st

from clubwright.planning.advice.tray import MOST_SETS, looked_at
from clubwright.ticket.read import read_ticket

weights = st.lists(
    st.tuples(st.sampled_from(["port", "tip", "butt", "head"]), st.integers(1, 3)), min_size=0, max_size=7
)


def document(tray: list[tuple[str, int]], most: int, ports: int | None) -> dict[str, object]:
    head = {"mass": "300 g"} | ({} if ports is None else {"ports": str(ports)})
    return {
        "ticket": {"id": "T-1", "kind": "wedge", "hand": "right"},
        "head": head,
        "shop": {"most_pieces": str(most)},
        "weight": [
            {"name": f"w{place}", "mass": "2 g", "seat": seat, "count": str(count)}
            for place, (seat, count) in enumerate(tray)
        ],
    }


@given(tray=weights, most=st.integers(1, 4), ports=st.none() | st.integers(1, 3))
def test_sets_are_those_of_a_search_of_all_counts(tray: list[tuple[str, int]], most: int, ports: int | None) -> None:
    ticket, findings = read_ticket(document(tray, most, ports))
    assert ticket is not None, findings

    def fits(counts: tuple[int, ...]) -> bool:
        used = {seat: sum(n for n, (where, _) in zip(counts, tray, strict=True) if where == seat) for seat in seats}
        room = used["port"] <= (most if ports is None else ports) and used["tip"] <= 1 and used["butt"] <= 1
        return room and sum(counts) <= most

    seats = ("port", "tip", "butt", "head")
    searched = {c for c in itertools.product(*[range(count + 1) for _, count in tray]) if fits(c)}
    offered = [tuple(int(n) for n in row) for row in looked_at(ticket).sets]

    assert len(offered) == len(set(offered))
    assert set(offered) == searched
    assert offered[0] == (0,) * len(tray)
    assert [sum(row) for row in offered] == sorted(sum(row) for row in offered)


def test_a_tray_of_too_many_sets_is_thinned_to_fewer_pieces_and_says_so() -> None:
    ticket, findings = read_ticket(document([("head", 1)] * 80, 3, None))
    assert ticket is not None, findings

    looked = looked_at(ticket)

    assert len(looked.sets) == 1 + 80 + 80 * 79 // 2 <= MOST_SETS
    assert looked.pieces == 2 and not looked.is_whole
