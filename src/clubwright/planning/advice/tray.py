"""Which sets of loose weights can be fitted at all, from the tray as it is: one for all that do the same.

Sets of the same grams at the same place do the same. So a place of the club (a seat, at one distance from the ground and
from the axis) is filled by dynamic programming over grams: what the first kinds of weight can bring there, fewest pieces
first, then one kind more (R. Bellman, Dynamic Programming, 1957; bounded knapsack). The places are then put together.
Derivation: docs/theory/advice.md.
"""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from clubwright.state.particulars import in_si, whole_number
from clubwright.state.parts import WeightPart
from clubwright.state.ticket import Ticket

MOST_SETS = 20_000
"""Different sets that are looked at; where the tray has more, those of most pieces are left out, and that is told."""

MOST_PAIRS = 4_000_000
"""Pairs of two places' sets that are tried at once, for the memory they take."""

GRAIN_KG = 1e-9
"""Masses nearer to each other than this are the same."""

ANY = 10**6
"""More pieces than any tray holds."""


class Looked(NamedTuple):
    """What was looked at of a tray.

    Attributes:
        sets: Every set that fits and does something else than the others, as counts of each weight, shape (C, w).
        pieces: Up to how many pieces they are complete.
        is_whole: Whether nothing that could be wanted was left out.
    """

    sets: NDArray[np.float64]
    pieces: int
    is_whole: bool


class _Tray(NamedTuple):
    """The tray as numbers: mass in grains, stock, seat and place of each weight; room of each seat; ports to fill."""

    grains: NDArray[np.int64]
    stock: NDArray[np.int64]
    seats: list[str]
    places: dict[tuple[object, ...], list[int]]
    room: dict[str, int]
    fill: int


class _TooMany(Exception):
    """More different sets than are looked at."""


def looked_at(ticket: Ticket, *, closed: bool = False, heaviest_kg: float = math.inf) -> Looked:
    """Return every set of weights that fits, one for all that do the same, up to the shop's number of pieces if it sets one.

    Fewest pieces first; of sets that do the same the one fitted now, else one of fewest pieces. One tip weight and one
    butt weight at most; port weights up to the ports of the head, where the ticket says how many, and no port empty that
    has to be filled; never more than the tray holds. In a joint that is closed what sits in the tip stays as it is.

    Args:
        ticket: The job.
        closed: Whether the joint is.
        heaviest_kg: Sets of more mass are of no use.
    """
    tray, now = _numbers(ticket), np.round(np.array(ticket.fitted_now, dtype=float)).astype(np.int64)
    stays = np.zeros_like(now)
    if closed:
        at_tip = np.array([seat == "tip" for seat in tray.seats], dtype=bool)
        stays = np.where(at_tip, now, 0)
        tray = tray._replace(stock=np.where(at_tip, 0, tray.stock))
    set_by_shop = ticket.shop.most_pieces is not None
    limit = whole_number(ticket.shop.most_pieces, ANY) - int(stays.sum()) if set_by_shop else ANY
    limit = max(limit, 0)
    tray = tray._replace(fill=min(tray.fill, limit))
    heaviest = int(min(heaviest_kg / GRAIN_KG, 2**62))
    sets, pieces = _as_far_as_it_goes(tray, limit, heaviest)
    if not len(sets):  # what has to be filled weighs more than is of use
        heaviest = 2**62
        sets, pieces = _as_far_as_it_goes(tray, limit, heaviest)
    is_whole = pieces >= min(limit, int(tray.stock.sum())) or _lightest_of(tray, pieces + 1) > heaviest
    sets = _with_what_is_on(sets + stays, now, tray)
    order = np.argsort(sets.sum(axis=1), kind="stable")
    return Looked(sets[order].astype(float), min(pieces, int(tray.stock.sum())) + int(stays.sum()), is_whole)


def same_as(ticket: Ticket, counts: NDArray[np.float64], most: int = 3) -> list[NDArray[np.float64]]:
    """Return other sets that put the same grams at the same places, fewest pieces first, `most` of them."""
    tray, set_now = _numbers(ticket), np.round(counts).astype(np.int64)
    limit = whole_number(ticket.shop.most_pieces, ANY)
    found: list[NDArray[np.int64]] = []
    for key, kinds in tray.places.items():
        wanted = int(set_now[kinds] @ tray.grains[kinds])
        ways = _ways([int(tray.grains[kind]) for kind in kinds], [int(tray.stock[kind]) for kind in kinds], wanted)
        for way in ways:
            other = set_now.copy()
            other[kinds] = way
            at_seat = [one == key[0] for one in tray.seats]
            fits = other.sum() <= limit and other[at_seat].sum() <= tray.room.get(str(key[0]), ANY)
            fits &= str(key[0]) != "port" or other[at_seat].sum() >= tray.fill
            if fits and not np.array_equal(other, set_now):
                found.append(other)
    found.sort(key=lambda other: int(other.sum()))
    return [other.astype(float) for other in found[:most]]


def names_of(ticket: Ticket, counts: NDArray[np.float64]) -> list[str]:
    """Return the names of a set, a name for each piece."""
    names: list[str] = []
    for row, count in zip(ticket.weights, counts, strict=True):
        names += [row.name] * round(float(count))
    return names


def _numbers(ticket: Ticket) -> _Tray:
    rows = ticket.weights
    places: dict[tuple[object, ...], list[int]] = {}
    for number, row in enumerate(rows):
        places.setdefault(_place(row, number), []).append(number)
    stock = np.array([whole_number(row.count, 1) for row in rows], dtype=np.int64)
    room = {"port": whole_number(ticket.club.head.ports, ANY), "tip": 1, "butt": 1}
    of_ports = int(sum(count for count, row in zip(stock, rows, strict=True) if row.seat == "port"))
    return _Tray(
        grains=np.array([round((in_si(row.mass) or 0.0) / GRAIN_KG) for row in rows], dtype=np.int64),
        stock=stock,
        seats=[row.seat for row in rows],
        places=places,
        room=room,
        fill=min(whole_number(ticket.club.head.ports_to_fill, 0), of_ports, room["port"]),
    )


def _place(row: WeightPart, number: int) -> tuple[object, ...]:
    """Return what tells one place from another; what lifts the shaft is a place of its own, since the cut goes by it."""
    lifts = in_si(row.lifts_shaft)
    own = number if lifts else None
    return (row.seat, in_si(row.from_ground), in_si(row.from_cap), in_si(row.off_axis), lifts, own)


def _as_far_as_it_goes(tray: _Tray, limit: int, heaviest: int) -> tuple[NDArray[np.int64], int]:
    """Return all sets within the limit, or within the most pieces for which they are not too many, and that number."""
    try:
        return _sets(tray, limit, heaviest), limit
    except _TooMany:
        found, pieces = np.zeros((0, len(tray.stock)), dtype=np.int64), 0
        for pieces in range(min(limit, int(tray.stock.sum())) + 1):
            try:
                found = _sets(tray._replace(fill=min(tray.fill, pieces)), pieces, heaviest)
            except _TooMany:
                return found, pieces - 1
        return found, pieces


def _sets(tray: _Tray, limit: int, heaviest: int) -> NDArray[np.int64]:
    found = np.zeros((1, len(tray.stock)), dtype=np.int64)
    for key, kinds in tray.places.items():
        fill = tray.fill if key[0] == "port" else 0
        of_place = _at_one_place(tray, kinds, min(limit, tray.room.get(str(key[0]), ANY)), heaviest, fill)
        if len(found) * len(of_place) > MOST_PAIRS:
            raise _TooMany
        found = (found[:, None, :] + of_place[None, :, :]).reshape(-1, len(tray.stock))
        fits = (found.sum(axis=1) <= limit) & (found @ tray.grains <= heaviest)
        for seat, places in tray.room.items():
            fits &= found[:, [one == seat for one in tray.seats]].sum(axis=1) <= places
        found = found[fits]
        if len(found) > MOST_SETS:
            raise _TooMany
    filled: NDArray[np.int64] = found[found[:, [seat == "port" for seat in tray.seats]].sum(axis=1) >= tray.fill]
    return filled


def _at_one_place(tray: _Tray, kinds: list[int], room: int, heaviest: int, fill: int) -> NDArray[np.int64]:
    """Return one set of fewest pieces for each sum of grams that one place can hold, apart by how far it fills the ports."""
    counts = np.zeros((1, len(tray.stock)), dtype=np.int64)
    for kind in kinds:
        most = int(min(tray.stock[kind], room, heaviest // max(int(tray.grains[kind]), 1)))
        if len(counts) * (most + 1) > MOST_PAIRS // max(len(kinds), 1):
            raise _TooMany
        more = np.repeat(counts, most + 1, axis=0)
        more[:, kind] = np.tile(np.arange(most + 1), len(counts))
        sums, pieces = more @ tray.grains, more.sum(axis=1)
        fits = (pieces <= room) & (sums <= heaviest)
        more, sums, pieces = more[fits], sums[fits], pieces[fits]
        filled = np.minimum(pieces, fill)
        order = np.lexsort((pieces, filled, sums))
        more, sums, filled = more[order], sums[order], filled[order]
        first = np.ones(len(more), dtype=bool)
        first[1:] = (np.diff(sums) != 0) | (np.diff(filled) != 0)
        counts = more[first]
        if len(counts) > MOST_SETS:
            raise _TooMany
    return counts


def _lightest_of(tray: _Tray, pieces: int) -> int:
    """Return the least that so many pieces weigh, in grains."""
    each = np.sort(np.repeat(tray.grains, tray.stock))
    return int(each[:pieces].sum()) if pieces <= len(each) else 2**62


def _with_what_is_on(sets: NDArray[np.int64], now: NDArray[np.int64], tray: _Tray) -> NDArray[np.int64]:
    """Put the set fitted now in the stead of the one that does the same, or beside the rest, unless a port stays empty."""
    at_port = [seat == "port" for seat in tray.seats]
    if now[at_port].sum() < tray.fill:
        return sets
    same = np.ones(len(sets), dtype=bool)
    for kinds in tray.places.values():
        same &= sets[:, kinds] @ tray.grains[kinds] == now[kinds] @ tray.grains[kinds]
    return np.concatenate([sets[~same], now[None, :]])


def _ways(grains: list[int], stock: list[int], wanted: int, most: int = 64) -> list[tuple[int, ...]]:
    """Return ways to make a sum of grams of the kinds of one place, `most` of them at most."""
    left = [sum(g * n for g, n in zip(grains[at:], stock[at:], strict=True)) for at in range(len(grains) + 1)]
    found: list[tuple[int, ...]] = []
    tried = 0

    def go(at: int, rest: int, sofar: tuple[int, ...]) -> None:
        nonlocal tried
        tried += 1
        if len(found) >= most or tried > 20_000 or rest < 0 or rest > left[at]:
            return
        if at == len(grains):
            found.append(sofar)
            return
        for count in range(stock[at] + 1):
            go(at + 1, rest - count * grains[at], (*sofar, count))

    go(0, wanted, ())
    return found
