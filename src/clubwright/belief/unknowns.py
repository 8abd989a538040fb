"""Which number of which part each unknown is, and the club that goes with a guess about all of them.

An unknown's name is its path (`clubwright.club.part_paths`): ``head.mass_kg``, ``tapes.0.cg_from_cap_m``,
``weights.2.mass_kg``, and ``came.grip.mass_kg`` for a part that the club came in with, and ``earlier.0.length_m`` for what
the first change of the club made different. What a gauge adds of its own belongs to no part (`OF_A_GAUGE`).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import Any, NamedTuple

import msgspec

from clubwright.club.part_paths import steps_of, without_earlier
from clubwright.club.parts import Club
from clubwright.club.quantities import ANGLES
from clubwright.units import Number

BIAS = "bias:"
ROUNDING = "rounding:"

OF_A_GAUGE: dict[str, str] = {
    BIAS: "what a gauge shows too much of one quantity, always; of a mass it is one for all that it weighs on this club",
    ROUNDING: "what a gauge rounds up of one figure of a part, each time that it measures it",
}
"""Unknowns that are no number of a part, by how their names begin: ``bias:GAUGE:QUANTITY``, ``rounding:GAUGE:FIGURE``."""

USUAL_GAUGE = "usual gauge"
"""Name of the gauge of a reading that names none: nobody says that two such readings were taken with one gauge."""

EVERY_MASS = "total_weight"
"""The quantity that names the bias of a scale, whatever it weighs."""

OF_THE_HEAD = {f"head.{key}_rad": key for key in ANGLES}
"""Angles of a head, and the quantity that names the bias of a gauge for each: on the club it shows the same angle."""


def bias_name(gauge: str, quantity: str) -> str:
    """Name the unknown bias of one gauge for one quantity, or for one figure of a part."""
    if gauge == USUAL_GAUGE:
        return f"{BIAS}{gauge}:{quantity}"
    of_the_club = OF_THE_HEAD.get(without_earlier(quantity)[1], quantity)
    return f"{BIAS}{gauge}:{EVERY_MASS if quantity.endswith('mass_kg') else of_the_club}"


def rounding_name(gauge: str, figure: str) -> str:
    """Name the unknown share of the rounding that one gauge's measurements of one figure of a part have in common."""
    return f"{ROUNDING}{gauge}:{figure}"


def is_of_a_gauge(name: str) -> bool:
    """True for what a gauge adds of its own, false for a number of a part."""
    return name.startswith(tuple(OF_A_GAUGE))


class OfAGauge(NamedTuple):
    """What such a name says: which of the two it is, of which gauge, in which quantity or figure of a part."""

    kind: str
    gauge: str
    figure: str


def read_of_a_gauge(name: str) -> OfAGauge | None:
    """Read the name of what a gauge adds; None for the path of a number of a part."""
    kind = next((kind for kind in OF_A_GAUGE if name.startswith(kind)), None)
    if kind is None:
        return None
    gauge, _, figure = name.removeprefix(kind).rpartition(":")  # no figure's name holds a colon, a gauge's may
    return OfAGauge(kind, gauge, figure)


def is_rounding(name: str) -> bool:
    """True for the share of a rounding that several measurements have in common."""
    return name.startswith(ROUNDING)


def club_with(template: Club, names: Sequence[str], values: Sequence[Number]) -> Club:
    """Return the template with each named number replaced by a value (a number or an array)."""
    assert len(values) == len(names)
    replaced = _replaced(template, _tree(tuple(names)), values)
    assert isinstance(replaced, Club)  # what it was
    return replaced


@lru_cache(maxsize=256)
def _tree(names: tuple[str, ...]) -> Mapping[str, Any]:
    """Return, field by field, which of the values goes there: a number, or a tree for the part that the field holds."""
    found: dict[str, Any] = {}
    for number, name in enumerate(names):
        if not is_of_a_gauge(name):
            *path, field = steps_of(name)
            branch = found
            for step in path:
                branch = branch.setdefault(step, {})
            branch[field] = number
    return found


def _replaced(part: Any, tree: Mapping[str, Any], values: Sequence[Number]) -> Any:
    """Put the values into a part: its fields by name, and where a part comes several times, each by its place."""
    if isinstance(part, tuple):
        members = list(part)
        for place, branch in tree.items():
            members[int(place)] = _replaced(members[int(place)], branch, values)
        return tuple(members)
    fields = {
        name: values[branch] if isinstance(branch, int) else _replaced(getattr(part, name), branch, values)
        for name, branch in tree.items()
    }
    return msgspec.structs.replace(part, **fields)
