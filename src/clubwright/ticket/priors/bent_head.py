"""Figures of a head that were measured before it was bent, told of the head as it is after the bend.

A lie bend turns the head about the bend point of its hosel and moves its bore, its centre of gravity and the place where its
sole touches (`clubwright.club.head_cg`). What nobody measured again since is therefore the earlier figure, turned with it.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

import msgspec
import numpy as np

from clubwright.belief.gaussian import Gaussian
from clubwright.belief.prediction import STEP
from clubwright.belief.unknowns import club_with
from clubwright.club.head_cg import head_after_lie_bend
from clubwright.club.part_paths import at_path, earlier_path
from clubwright.club.parts import Club, Head
from clubwright.state.parts import HeadPart
from clubwright.state.ticket import Ticket
from clubwright.units import Number

MOVED = {
    "bore_to_ground": "bore_to_ground_m",
    "cg_from_ground": "cg_from_ground_m",
    "cg_off_axis": "cg_off_axis_m",
    "sole_contact": "sole_contact_m",
}
"""What a lie bend moves of a head, by its key on the ticket."""


class Turned(NamedTuple):
    """Figures of one head that turned with its lie.

    Attributes:
        head: Path of the head.
        place: The first change since they were measured, which has the lie of then.
        numbers: Which figures.
    """

    head: str
    place: int
    numbers: tuple[str, ...]


def turned_of(ticket: Ticket) -> tuple[Turned, ...]:
    """Say which figures of which heads were measured before a bend and not again since.

    The table of a change has them as they stood; a figure that reads the same now is the one from then.
    """
    found = []
    head = "head"
    row: HeadPart = ticket.club.head
    first: dict[str, int] = {}
    for place in reversed(range(len(ticket.changes))):
        change = ticket.changes[place]
        if change.is_another("head"):
            found += _grouped(head, first)
            assert change.head is not None  # another one is one
            head, row, first = earlier_path(place, "head"), change.head, {}
        elif change.head is not None and change.head.lie is not None:
            for key in MOVED:
                now, then = row.entry(key), change.head.entry(key)
                if now is not None and then is not None and then.typed == now.typed:
                    first[key] = place
    return (*found, *_grouped(head, first))


def _grouped(head: str, first: Mapping[str, int]) -> list[Turned]:
    return [
        Turned(head, place, tuple(MOVED[key] for key, other in first.items() if other == place))
        for place in sorted(set(first.values()))
    ]


def bent_since(head: Head, lie_then_rad: Number, numbers: tuple[str, ...]) -> dict[str, Number]:
    """Return figures of a head after its lie went from what it was to what it is."""
    before = msgspec.structs.replace(head, lie_rad=lie_then_rad)
    after = head_after_lie_bend(before, head.lie_rad - lie_then_rad)
    return {name: getattr(after, name) for name in numbers}


def bent_now(ticket: Ticket, head: Head) -> Head:
    """Return the head of a ticket with what its bends moved, at the likeliest figures."""
    for item in turned_of(ticket):
        lie_then_rad = ticket.changes[item.place].rows["head"].value("lie")
        if item.head == "head" and lie_then_rad is not None:
            head = msgspec.structs.replace(head, **bent_since(head, lie_then_rad, item.numbers))
    return head


def with_bends(ticket: Ticket, club: Club, belief: Gaussian) -> tuple[Club, Gaussian]:
    """Tell what was measured of a head before a bend of the head as it is now.

    Args:
        ticket: The ticket.
        club: Its club at the figures as they are typed.
        belief: Of them, likewise.

    Returns:
        Both with the head bent: by first derivatives, so that what depends on the two lies hangs together with them.
    """
    turned = turned_of(ticket)
    if not turned:
        return club, belief
    size = len(belief.names)
    guesses: list[Number] = list(belief.mean[:, None] + 1j * STEP * np.eye(size))
    guessed = club_with(club, belief.names, guesses)
    mean, slope = belief.mean.copy(), np.eye(size)
    for item in turned:
        head, lie_then_rad = at_path(guessed, item.head), guessed.earlier[item.place].lie_rad
        assert lie_then_rad is not None  # the change that was chosen has it
        for name, number in bent_since(head, lie_then_rad, item.numbers).items():
            path = f"{item.head}.{name}"
            if path in belief.names:
                place = belief.index(path)
                values = np.broadcast_to(np.asarray(number), (size,))
                mean[place], slope[place] = values[0].real, values.imag / STEP
    covariance = slope @ belief.covariance @ slope.T
    belief = msgspec.structs.replace(belief, mean=mean, covariance=(covariance + covariance.T) / 2)
    return club_with(club, belief.names, [float(each) for each in mean]), belief
