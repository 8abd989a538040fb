"""Which number of which part each unknown is, and the club that goes with a guess about all of them.

An unknown's name is its path (`clubwright.club.part_paths`): ``head.mass_kg``, ``tapes.0.cg_from_cap_m``,
``weights.2.mass_kg``, and ``came.grip.mass_kg`` for a part that the club came in with, and ``earlier.0.length_m`` for what
the first change of the club made different. A gauge's bias is named ``bias:GAUGE:QUANTITY`` and belongs to no part.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import msgspec

from clubwright.club.parts import Club
from clubwright.units import Number

BIAS = "bias:"


def bias_name(gauge: str, quantity: str) -> str:
    """Name the unknown bias of one gauge for one quantity."""
    return f"{BIAS}{gauge}:{quantity}"


def club_with(template: Club, names: Sequence[str], values: Sequence[Number]) -> Club:
    """Return the template with each named number replaced by a value (a number or an array)."""
    changes: dict[str, Any] = {}
    for name, value in zip(names, values, strict=True):
        if not name.startswith(BIAS):
            *path, field = name.split(".")
            branch = changes
            for step in path:
                branch = branch.setdefault(step, {})
            branch[field] = value
    replaced = _replaced(template, changes)
    assert isinstance(replaced, Club)  # what it was
    return replaced


def _replaced(part: Any, changes: Mapping[str, Any]) -> Any:
    """Apply a tree of changes: names of fields, and places where a part comes several times."""
    if isinstance(part, tuple):
        members = list(part)
        for place, change in changes.items():
            members[int(place)] = _replaced(members[int(place)], change)
        return tuple(members)
    fields = {
        name: _replaced(getattr(part, name), change) if isinstance(change, dict) else change
        for name, change in changes.items()
    }
    return msgspec.structs.replace(part, **fields)
