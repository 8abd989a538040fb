"""Which number of which part each unknown is, and the club that goes with a guess about all of them.

An unknown's name is its path: ``head.mass_kg``, ``tapes.0.cg_from_cap_m``, ``weights.2.mass_kg``. A gauge's bias is named
``bias:GAUGE:QUANTITY`` and belongs to no part.
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
    changes: dict[str, dict[str, Number]] = {}
    for name, value in zip(names, values, strict=True):
        if not name.startswith(BIAS):
            part, _, field = name.rpartition(".")
            changes.setdefault(part, {})[field] = value
    return _replaced(template, changes)


def _replaced(template: Club, changes: Mapping[str, dict[str, Number]]) -> Club:
    """Apply changes grouped by part path."""
    parts: dict[str, Any] = {}
    for path, fields in changes.items():
        section, _, place = path.partition(".")
        if place:
            members = list(parts.get(section, getattr(template, section)))
            members[int(place)] = msgspec.structs.replace(members[int(place)], **fields)
            parts[section] = tuple(members)
        else:
            parts[section] = msgspec.structs.replace(getattr(template, section), **fields)
    return msgspec.structs.replace(template, **parts)
