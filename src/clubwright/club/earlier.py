"""The club as it was before a change of it: before a cut, a trim, a bend, another part.

What a change did not touch is the same then and now, to the last number: so a reading from before it goes on telling of it.
Derivation: docs/theory/belief.md; checked in tests/published/test_published_earlier.py.
"""

from __future__ import annotations

import msgspec

from clubwright.club.head_cg import head_after_lie_bend
from clubwright.club.parts import Club, Earlier, Head, Shaft, as_it_came
from clubwright.units import Number

PARTS = ("head", "shaft", "grip", "ferrule", "adhesive")


def club_then(club: Club, place: int) -> Club:
    """Return the club as it was before one of its changes, and so after the change before that one.

    Args:
        club: The club as it is now.
        place: Which change, 0 the first; the number of changes gives the club as it is now.
    """
    off_butt_m: Number | None = None
    for change in reversed(club.earlier[place:]):
        came_with_another = change.came and club.came is not None and club.came.shaft is not None
        club = _before(club, change)
        if change.off_butt_m is not None:
            off_butt_m = change.off_butt_m
        elif change.length_m is not None or change.shaft is not None or came_with_another:
            off_butt_m = None
    if off_butt_m is None:
        return club
    shaft = club.shaft
    uncut_m = shaft.raw_length_m - shaft.tip_trim_m - off_butt_m
    return msgspec.structs.replace(club, shaft=msgspec.structs.replace(shaft, length_m=uncut_m))


def head_unbent(head: Head, change: Earlier) -> Head:
    """Return a head as it was before a bend, what its lie moves turned back; and before its bore was reamed."""
    if change.lie_rad is not None:
        head = head_after_lie_bend(head, change.lie_rad - head.lie_rad)
    if change.loft_rad is not None:
        turned = head.bounce_rad + (change.loft_rad - head.loft_rad)
        head = msgspec.structs.replace(head, loft_rad=change.loft_rad, bounce_rad=turned)
    if change.bounce_rad is not None:
        head = msgspec.structs.replace(head, bounce_rad=change.bounce_rad)
    if change.bore_diameter_m is not None:
        head = msgspec.structs.replace(head, bore_diameter_m=change.bore_diameter_m)
    return head


def _before(club: Club, change: Earlier) -> Club:
    if change.came:
        return as_it_came(club)
    others = {name: part for name in PARTS if (part := getattr(change, name)) is not None}
    if change.tapes is not None:
        others["tapes"] = tuple(club.tapes[tape] if isinstance(tape, int) else tape for tape in change.tapes)
    club = msgspec.structs.replace(club, **others)
    return msgspec.structs.replace(club, head=head_unbent(club.head, change), shaft=_uncut(club.shaft, change))


def _uncut(shaft: Shaft, change: Earlier) -> Shaft:
    numbers = {"length_m": change.length_m, "tip_trim_m": change.tip_trim_m}
    return msgspec.structs.replace(shaft, **{name: each for name, each in numbers.items() if each is not None})
