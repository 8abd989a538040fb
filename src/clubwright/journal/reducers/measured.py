"""What a measuring of a part lays on the document: the first one of a figure stands in its table, a further one adds.

Only a figure whose gauge is said is a measuring: one without replaces what stands there, as it always did, and so does a
measuring of a figure that no gauge is known for. A further one becomes a reading of that figure and counts beside the first.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from clubwright.club.stages import BARE_SHAFT
from clubwright.journal.facts import Fact, PartChanged, ShaftCut, TapeLaid
from clubwright.journal.reducers.builder import LISTS, JobBuilder
from clubwright.journal.reducers.changes import before_reaming
from clubwright.ticket.part_readings import part_kind

WEIGHED_AT = {"cut_mass": "cut_mass_length", "cut_balance_from_tip": "cut_balance_length"}
"""Figures of the cut shaft, and the key that says how long the shaft was then, where it was cut again since."""
NO_GAUGES: Mapping[str, str] = MappingProxyType({})
"""Nobody says what measured it."""
OFF_THE_RAW_SHAFT = ("mass", "balance_from_tip")
"""Figures of a shaft that are the raw shaft's while it is said to be raw, or is not cut."""


def gauges_of(what: PartChanged | ShaftCut | TapeLaid) -> dict[str, str]:
    """Return which gauge measured which of its figures; empty where it says of none."""
    return what.gauges if isinstance(what.gauges, dict) else {}


def put(table: dict[str, Any], values: Mapping[str, str], gauges: Mapping[str, str] = NO_GAUGES) -> None:
    """Put figures on the table of a part; an empty text takes one out. It alone writes there.

    A figure takes the name of its gauge with it: what measured the new one is said here, or nobody knows it any more.

    Args:
        table: Of the part.
        values: Keys and texts.
        gauges: Which gauge measured which of them.
    """
    for key, text in values.items():
        if text:
            table[key] = text
        else:
            table.pop(key, None)
    known = {key: gauge for key, gauge in table.get("gauges", {}).items() if key not in values}
    known |= {key: gauge for key, gauge in gauges.items() if values.get(key)}
    if known:
        table["gauges"] = known
    else:
        table.pop("gauges", None)


def figure_path(section: str, values: Mapping[str, str], key: str) -> str:
    """Return what a further measuring of a figure is a reading of: ``grip.mass``, in a list ``weight.port 6.mass``."""
    return f"{section}.{values.get('name', '')}.{key}" if section in LISTS else f"{section}.{key}"


def lay_measured(
    builder: JobBuilder, what: PartChanged, fact: Fact, table: dict[str, Any]
) -> tuple[dict[str, str], dict[str, str]]:
    """Lay what adds to an earlier measuring; return what is to be put on the table, with the gauges that measured it.

    Args:
        builder: The job.
        what: What was measured.
        fact: The fact of it.
        table: Of the part.
    """
    if what.section == "head" and what.values.get("bore_reamed") == "yes" and "bore_diameter" in what.values:
        before_reaming(builder)
        put(table, {"bore_diameter": str(table.get("bore_diameter", ""))})  # it was measured before the reamer
    gauges, keep = gauges_of(what), builder.decided.get(fact.place)
    known: Mapping[str, str] = table.get("gauges", NO_GAUGES)
    rest: dict[str, str] = {}
    for key, value in what.values.items():
        gauge = gauges.get(key, "") if value else ""
        path = figure_path(what.section, what.values, key)
        if gauge and known.get(key) and table.get(key) and _adds(what.section, key, path, table):
            _add(builder, path, value, gauge, fact, keep=keep)
        elif not (gauge and keep is False):
            rest[key] = value
    return rest, {key: gauge for key, gauge in gauges.items() if gauge and rest.get(key)}


def lay_tape(builder: JobBuilder, what: TapeLaid, fact: Fact, table: dict[str, Any]) -> None:
    """Lay tape as it was weighed: the same layers weighed again add to the first.

    Args:
        builder: The job, tape of another number of layers kept as it was before it already.
        what: The tape.
        fact: The fact of it.
        table: Of that tape.
    """
    laid = {"name": what.name, "layers": what.layers}
    gauge, known = gauges_of(what).get("mass", ""), table.get("gauges", {}).get("mass")
    keep = builder.decided.get(fact.place)
    if gauge and known and table.get("mass") and str(table.get("layers", "1")) == what.layers:
        _add(builder, figure_path("tape", laid, "mass"), what.mass, gauge, fact, keep=keep)
        put(table, laid)
    elif gauge and keep is False:
        put(table, laid)
    else:
        put(table, {**laid, "mass": what.mass}, gauges_of(what))


def no_longer_read(builder: JobBuilder, path: str) -> None:
    """Take out the readings of a piece of the tray, or of a tape, that is said to be another one now."""
    if builder.document.get("reading"):
        builder.document["reading"] = [row for row in builder.rows("reading") if row.get("quantity") != path]


def _adds(section: str, key: str, path: str, table: Mapping[str, Any]) -> bool:
    """True for a figure of which a further measuring can be held against the first as a reading."""
    if part_kind(path) is None:
        return False
    if section == "shaft" and key in WEIGHED_AT:
        return WEIGHED_AT[key] not in table  # else it was cut again since: the first is of a longer shaft
    if section != "shaft" or key not in OFF_THE_RAW_SHAFT:
        return True
    return table.get("weighed") != "cut" and ("raw_length" in table or "cut_length" not in table)


def _add(builder: JobBuilder, quantity: str, value: str, gauge: str, fact: Fact, *, keep: bool | None) -> None:
    readings = builder.rows("reading")
    row: dict[str, Any] = {
        "quantity": quantity,
        "value": value,
        "stage": BARE_SHAFT.name,
        # a part is the same whatever is fitted: which weights are on now is what it was
        "weights": list(readings[-1].get("weights", [])) if readings else [],
        "instrument": gauge,
        "fact": str(fact.sequence),
    }
    if keep is not None:
        row["keep"] = "yes" if keep else "no"
    readings.append(row)
