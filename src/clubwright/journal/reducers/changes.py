"""What a change of the club makes different: kept beside the readings from before it, which stay readings of that club.

A reading belongs to the configuration that it was taken in. So nothing is taken out of the document: each change adds a
table ``[[change]]`` with the parts as they stood before it, and the readings so far name the first change after them.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import reduce
from typing import Any

from clubwright.journal.amounts import added_length
from clubwright.journal.reducers.builder import JobBuilder, own_copy
from clubwright.ticket.priors.bent_head import MOVED

NOT_KNOWN = ""
NOTHING_OFF = "0 in"
OF_THE_JOINT = ("ferrule", "adhesive")
"""What is lost with a joint that is opened again: the new one has its own."""

BORE = "head.bore_diameter"
"""What a further measuring of a bore is a reading of."""

CURES = ("release", "release_times")
"""Rows of an adhesive that say how it cures, in either shape of a ticket."""


def keep_as_it_was(builder: JobBuilder, tables: Mapping[str, Any], *, always: bool = False) -> None:
    """Keep how parts stand before they change, and mark the readings taken so far as taken before it.

    Args:
        builder: The job, the change not yet laid on it.
        tables: The parts as they are, by table; of head and shaft what changes.
        always: Also where no reading rests on it: figures of a head measured before a bend go by it.
    """
    rows = builder.rows("reading") if builder.document.get("reading") else []
    if not rows and not always:
        return
    changes = builder.rows("change")
    names = {row.get("name") for row in changes}
    name = next(str(number) for number in range(len(changes) + 1, 2 * len(changes) + 2) if str(number) not in names)
    changes.append({"name": name, **own_copy(tables)})
    for row in rows:
        row.setdefault("before", name)


def before_trim(builder: JobBuilder, end: str) -> None:
    """Keep the shaft as it is before a trim."""
    shaft = builder.table("shaft")
    tip = {"tip_trim": _tip_off(shaft)} if end == "tip" else {}
    keep_as_it_was(builder, {"shaft": {**tip, **_length(builder, shaft)}})


def before_cut(builder: JobBuilder, cut_length: str) -> None:
    """Keep the shaft as it is before a cut; the same length again is no other cut."""
    shaft = builder.table("shaft")
    if shaft.get("cut_length") != cut_length:
        keep_as_it_was(builder, {"shaft": _length(builder, shaft)})


def before_bend(builder: JobBuilder, measured: Mapping[str, str]) -> None:
    """Keep the angles of the head before a bend, and with its lie the figures that turn with it."""
    head = builder.table("head")
    then = {name: head.get(name, NOT_KNOWN) for name in measured}
    known = bool(then.get("lie"))
    moved = {key: head[key] for key in MOVED if key in head} if known else {}
    keep_as_it_was(builder, {"head": {**then, **moved}}, always=bool(moved))


def before_reaming(builder: JobBuilder) -> None:
    """Keep the diameter of a bore before it is reamed, where more than one figure was measured of it."""
    if any(row.get("quantity") == BORE and "before" not in row for row in builder.document.get("reading", [])):
        keep_as_it_was(builder, {"head": {"bore_diameter": builder.table("head").get("bore_diameter", NOT_KNOWN)}})


def measured_since(builder: JobBuilder, figures: Mapping[str, str]) -> None:
    """Let figures of the head that are measured now stand for themselves, and no longer turn with earlier bends."""
    for row in builder.rows("change") if "change" in builder.document else []:
        head = row.get("head")
        if isinstance(head, dict) and head.get("another") != "yes":
            for key in MOVED:
                if key in figures:
                    head.pop(key, None)


def before_tape(builder: JobBuilder, name: str, layers: str) -> None:
    """Keep all tape as it is before another number of layers of one is laid in its place; the same number is a weighing."""
    rows = builder.rows("tape") if "tape" in builder.document else []
    row = next((row for row in rows if row.get("name") == name), {})
    was_laid = name in builder.tapes_laid or "layers" in row
    if was_laid and str(row.get("layers", "1")) != layers:
        keep_as_it_was(builder, {"tape": rows})


def before_another(builder: JobBuilder, part: str) -> None:
    """Keep a part before another one takes its place, and what was in the joint where it was closed."""
    tables: dict[str, Any] = {}
    if part in ("head", "shaft"):
        tables[part] = {**builder.table(part), "another": "yes"}
        if builder.glued_at is not None:
            tables |= {name: builder.document.get(name, {}) for name in OF_THE_JOINT}
    elif part in ("grip", *OF_THE_JOINT):
        tables[part] = builder.table(part)
    elif part == "tape":
        tables[part] = builder.rows(part)
    if part == "shaft" and builder.is_cut_here and "cut_length" not in tables[part]:
        tables[part]["butt_off"] = _butt_off(builder)
    if tables:
        keep_as_it_was(builder, {name: _of_a_part(name, table) for name, table in tables.items()})


def before_pull(builder: JobBuilder) -> None:
    """Keep what was in a joint before it is opened again; head and shaft stay what they are."""
    tables = {name: builder.document.get(name, {}) for name in OF_THE_JOINT}
    keep_as_it_was(builder, {name: _of_a_part(name, table) for name, table in tables.items()})


def _of_a_part(name: str, table: Any) -> Any:
    """Leave out of a table what is no figure of the part: how an adhesive cures."""
    return {key: text for key, text in table.items() if key not in CURES} if name == "adhesive" else table


def _length(builder: JobBuilder, shaft: Mapping[str, Any]) -> dict[str, str]:
    """Say how long the shaft is: as it was cut, or what is off the butt of one that is not cut yet."""
    if "cut_length" in shaft:
        return {"cut_length": str(shaft["cut_length"])}
    return {"butt_off": _butt_off(builder)} if builder.is_cut_here else {"cut_length": NOT_KNOWN}


def _butt_off(builder: JobBuilder) -> str:
    return reduce(added_length, builder.butt_trims) if builder.butt_trims else NOTHING_OFF


def _tip_off(shaft: Mapping[str, Any]) -> str:
    return str(shaft.get("tip_trim", NOTHING_OFF)) if shaft.get("tip_trimmed") == "yes" else NOTHING_OFF
