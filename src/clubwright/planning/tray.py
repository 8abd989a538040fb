"""Which sets of loose weights can be fitted at all, from the tray as it is."""

from __future__ import annotations

import itertools

import numpy as np
from numpy.typing import NDArray

from clubwright.ticket.model import Ticket

MOST_PIECES = 3
"""Most loose weights fitted at once when the shop sets nothing (common practice, no source)."""

MOST_SETS = 4000
"""No tray offers more sets than this to a person; a larger one is thinned to fewer pieces."""


def possible_sets(ticket: Ticket) -> NDArray[np.float64]:
    """Return every set of weights that fits, as counts of each weight, shape (C, w).

    Fewest pieces first, so row 0 is "none"; the set fitted now is always among them. One tip weight and one butt weight
    at most; port weights up to the ports of the head, where the ticket says how many; never more than the tray holds.
    """
    weights = ticket.weights
    limit = ticket.row("shop").count("most_pieces", MOST_PIECES)
    ports = ticket.row("head").count("ports", limit)
    seats = [row.words["seat"] for row in weights]
    stock = [row.count("count", 1) for row in weights]
    rows: list[tuple[int, ...]] = []
    for pieces in range(limit + 1):
        found = [
            counts
            for chosen in itertools.combinations_with_replacement(range(len(weights)), pieces)
            if _fits(counts := _counted(chosen, len(weights)), seats, stock, ports)
        ]
        if rows and len(rows) + len(found) > MOST_SETS:
            break
        rows += found
    now = tuple(round(count) for count in ticket.fitted_now)
    if now not in rows:
        rows.append(now)
    return np.array(rows, dtype=float).reshape(len(rows), len(weights))


def _counted(chosen: tuple[int, ...], size: int) -> tuple[int, ...]:
    counts = [0] * size
    for place in chosen:
        counts[place] += 1
    return tuple(counts)


def _fits(counts: tuple[int, ...], seats: list[str], stock: list[int], ports: int) -> bool:
    if any(count > have for count, have in zip(counts, stock, strict=True)):
        return False
    used = {"port": 0, "tip": 0, "butt": 0, "head": 0}
    for count, seat in zip(counts, seats, strict=True):
        used[seat] += count
    return used["port"] <= ports and used["tip"] <= 1 and used["butt"] <= 1


def names_of(ticket: Ticket, counts: NDArray[np.float64]) -> list[str]:
    """Return the names of a set, a name for each piece."""
    names: list[str] = []
    for row, count in zip(ticket.weights, counts, strict=True):
        names += [row.words["name"]] * round(float(count))
    return names
