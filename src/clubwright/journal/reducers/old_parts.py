"""Parts that a club came in with, under the keys that a part has while it is on: for the job after theirs."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from clubwright.club.part_paths import TAPES
from clubwright.ticket.field_names import read_field_name
from clubwright.ticket.fields.defaults import default_for
from clubwright.ticket.part_paths import REPLACED

KEYS: dict[str, dict[str, str]] = {
    "grip": {"name": "name", "mass": "mass", "length": "length", "cap": "cap", "cg_from_cap": "cg_from_cap"},
    "shaft": {
        "name": "name",
        "mass": "cut_mass",
        "length": "cut_length",
        "balance_from_tip": "cut_balance_from_tip",
    },
    "ferrule": {"mass": "mass", "length": "length"},
}
"""Part to its keys while it is old and what each is while it is on: an old shaft was weighed as it was cut."""

WIDE = {"grip": ("mass", "cg_from_cap"), "shaft": ("mass",)}
"""Figures of an old part that nobody measured and that are known less well than those of a new one."""


def old_tables(document: Mapping[str, Any], known: Mapping[str, Any]) -> dict[str, Any]:
    """Return the tables of the old parts of a job, as a change keeps them.

    Args:
        document: The job's document: its tables of old parts, and readings of them.
        known: Tables of those parts from the job before; what was measured of them since comes on top.
    """
    ticket = document["ticket"]
    off = REPLACED.get(ticket.get("job", "build"), ())
    found: dict[str, Any] = {}
    for part, keys in KEYS.items():
        if part in off:
            said = {**document.get(f"old_{part}", {}), **_read(document, part)}
            measured = {keys[key]: text for key, text in said.items() if key in keys}
            wide = {} if part in known else _wide(part, ticket.get("kind", "iron"))
            found[part] = {**wide, **known.get(part, {}), **measured}
    if "shaft" in found:
        found["shaft"]["another"] = "yes"
        found["adhesive"] = known.get("adhesive", {})
    if TAPES in off:
        found["tape"] = _tapes(document, known)
        both = document.get("old_grip", {}).get("mass_with_tape")
        if both is not None and "mass" not in document["old_grip"] and "grip" not in known:
            found["grip"]["mass"], found["tape"] = both, []
    return found


def _read(document: Mapping[str, Any], part: str) -> dict[str, str]:
    """Return what was read of an old part and stands."""
    rows = document.get("reading", [])
    read = [(read_field_name(str(row.get("quantity"))), row) for row in rows if row.get("keep") != "no"]
    return {name.key: row["value"] for name, row in read if name.section == f"old_{part}"}


def _wide(part: str, kind: Any) -> dict[str, str]:
    defaults = {key: default_for(f"old_{part}.{key}", kind) for key in WIDE.get(part, ())}
    return {KEYS[part][key]: default.text for key, default in defaults.items() if default is not None}


def _tapes(document: Mapping[str, Any], known: Mapping[str, Any]) -> list[dict[str, str]]:
    rows = [dict(row) for row in document.get("old_tape", [])]
    if rows or "tape" in known:
        return rows or list(known["tape"])
    default = default_for("old_tape.mass", "iron")
    return [{} if default is None else {"mass": default.text}]
