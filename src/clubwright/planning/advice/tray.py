"""Which sets of loose weights can be fitted at all, from the tray as it is."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from clubwright.state.particulars import whole_number
from clubwright.state.ticket import Ticket

MOST_PIECES = 3
"""Most loose weights fitted at once when the shop sets nothing (common practice, no source)."""

MANY_PIECES = 6
"""Most loose weights looked at where the shop sets nothing and fewer do not reach the targets (estimate of ours)."""

MOST_SETS = 60_000
"""Sets of so many are looked at one by one: all threes of 69 kinds, all fours of 33. Beyond it larger sets are left out."""


class Looked(NamedTuple):
    """What was looked at of a tray.

    Attributes:
        sets: Every set that fits, as counts of each weight, shape (C, w).
        pieces: Up to how many pieces they are complete.
        is_whole: Whether no larger set fits, or the shop wants none.
    """

    sets: NDArray[np.float64]
    pieces: int
    is_whole: bool


def looked_at(ticket: Ticket, *, closed: bool = False, most: int = MOST_PIECES) -> Looked:
    """Return every set of weights that fits, up to the shop's number of pieces, or to `most` where it sets none.

    Fewest pieces first, so row 0 is "none"; the set fitted now is always among them. One tip weight and one butt weight
    at most; port weights up to the ports of the head, where the ticket says how many; never more than the tray holds.
    In a joint that is closed what sits in the tip stays as it is.
    """
    weights = ticket.weights
    limit = whole_number(ticket.shop.most_pieces, most)
    seats = [row.seat for row in weights]
    stock = np.array([whole_number(row.count, 1) for row in weights], dtype=float)
    room = {"port": whole_number(ticket.club.head.ports, limit), "tip": 1, "butt": 1}
    now = np.round(np.array(ticket.fitted_now, dtype=float)).reshape(1, len(weights))
    stays = np.zeros_like(now)
    if closed:
        at_tip = np.array([seat == "tip" for seat in seats], dtype=bool)
        stays, stock = np.where(at_tip, now, 0.0), np.where(at_tip, 0.0, stock)
        limit -= round(float(stays.sum()))
    found = [np.zeros((1, len(weights)))]
    # A set that fits still fits with a piece taken off, so each size is made of the one before, one piece added.
    larger = found[0]
    while len(found) <= limit:
        larger = _one_more(found[-1])
        larger = larger[_fits(larger, seats, stock, room)]
        if not len(larger) or sum(map(len, found)) + len(larger) > MOST_SETS:
            break
        found.append(larger)
    pieces = len(found) - 1 + round(float(stays.sum()))
    within = len(found) <= limit
    if not within and ticket.shop.most_pieces is None:
        larger = _one_more(found[-1])
        larger = larger[_fits(larger, seats, stock, {**room, "port": whole_number(ticket.club.head.ports, limit + 1)})]
    is_whole = not len(larger) or (not within and ticket.shop.most_pieces is not None)
    found = [sets + stays for sets in found]
    if not any((sets == now).all(axis=1).any() for sets in found):
        found.append(now)
    return Looked(np.concatenate(found), pieces, is_whole)


def _one_more(sets: NDArray[np.float64]) -> NDArray[np.float64]:
    """Add one piece to each set in every way, at its last weight or after it, so that no set comes twice."""
    places = np.arange(sets.shape[1])
    last = (places * (sets > 0)).max(axis=1, initial=0)
    rows, added = np.nonzero(places >= last[:, None])
    larger = sets[rows]
    larger[np.arange(len(rows)), added] += 1
    return larger


def _fits(
    sets: NDArray[np.float64], seats: list[str], stock: NDArray[np.float64], room: dict[str, int]
) -> NDArray[np.bool_]:
    """Say of each set whether the tray holds it and its seats have room for it."""
    checks = [(sets <= stock).all(axis=1)]
    for seat, places in room.items():
        taken = sets[:, [one == seat for one in seats]].sum(axis=1)
        checks.append(taken <= places)
    fits: NDArray[np.bool_] = np.all(checks, axis=0)
    return fits


def names_of(ticket: Ticket, counts: NDArray[np.float64]) -> list[str]:
    """Return the names of a set, a name for each piece."""
    names: list[str] = []
    for row, count in zip(ticket.weights, counts, strict=True):
        names += [row.name] * round(float(count))
    return names
