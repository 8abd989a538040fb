"""What a measuring of a part lays on the document: the first one of a figure stands in its table, a further one adds.

Only a figure whose gauge is said is a measuring: one without replaces what stands there, as it always did, and so does a
measuring of a figure that no gauge is known for. A further one becomes a reading of that figure and counts beside the first.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from clubwright.club.stages import BARE_SHAFT
from clubwright.journal.facts import Fact, PartChanged, ShaftCut, TapeLaid
from clubwright.journal.reducers.builder import LISTS, JobBuilder
from clubwright.journal.reducers.changes import before_reaming
from clubwright.ticket.part_readings import part_kind

WEIGHED_AT = {"cut_mass": "cut_mass_length", "cut_balance_from_tip": "cut_balance_length"}
"""Figures of the cut shaft, and the key that says how long the shaft was then, where it was cut again since."""
OFF_THE_RAW_SHAFT = ("mass", "balance_from_tip")
"""Figures of a shaft that are the raw shaft's while it is said to be raw, or is not cut."""


def gauges_of(what: PartChanged | ShaftCut | TapeLaid) -> dict[str, str]:
    """Return which gauge measured which of its figures; empty where it says of none."""
    return what.gauges if isinstance(what.gauges, dict) else {}


def figure_path(section: str, values: Mapping[str, str], key: str) -> str:
    """Return what a further measuring of a figure is a reading of: ``grip.mass``, in a list ``weight.port 6.mass``."""
    return f"{section}.{values.get('name', '')}.{key}" if section in LISTS else f"{section}.{key}"


def lay_measured(builder: JobBuilder, what: PartChanged, fact: Fact, table: dict[str, Any]) -> dict[str, str]:
    """Lay what adds to an earlier measuring; return what is to be laid in the table, its gauges said there already.

    Args:
        builder: The job.
        what: What was measured.
        fact: The fact of it.
        table: Of the part.
    """
    if what.section == "head" and what.values.get("bore_reamed") == "yes" and "bore_diameter" in what.values:
        before_reaming(builder)
        no_longer_measured(table, "bore_diameter")
    gauges, keep = gauges_of(what), builder.decided.get(fact.place)
    known: dict[str, str] = dict(table.get("gauges", {}))
    rest: dict[str, str] = {}
    for key, value in what.values.items():
        gauge = gauges.get(key, "") if value else ""
        path = figure_path(what.section, what.values, key)
        if gauge and known.get(key) and table.get(key) and _adds(what.section, key, path, table):
            _add(builder, path, value, gauge, fact, keep=keep)
        elif not (gauge and keep is False):
            rest[key] = value
            known.pop(key, None)
            known |= {key: gauge} if gauge else {}
    _say(table, known)
    return rest


def lay_tape(builder: JobBuilder, what: TapeLaid, fact: Fact, row: dict[str, Any]) -> dict[str, str]:
    """Lay tape as it was weighed; return what is to be laid in its row: the same layers weighed again add to the first.

    Args:
        builder: The job, tape of another number of layers kept as it was before it already.
        what: The tape.
        fact: The fact of it.
        row: Of that tape.
    """
    laid = {"name": what.name, "layers": what.layers}
    gauge, known = gauges_of(what).get("mass", ""), row.get("gauges", {}).get("mass")
    keep = builder.decided.get(fact.place)
    if gauge and known and row.get("mass") and str(row.get("layers", "1")) == what.layers:
        _add(builder, figure_path("tape", laid, "mass"), what.mass, gauge, fact, keep=keep)
        return laid
    if gauge and keep is False:
        return laid
    no_longer_measured(row, "mass")
    measured_by(row, gauges_of(what))
    return {**laid, "mass": what.mass}


def measured_by(table: dict[str, Any], gauges: Mapping[str, str]) -> None:
    """Say of figures that are laid now which gauge measured them."""
    _say(table, {**table.get("gauges", {}), **gauges})


def no_longer_measured(table: dict[str, Any], *keys: str) -> None:
    """Forget which gauge measured figures that another action changes, or measures without saying with what."""
    _say(table, {key: gauge for key, gauge in table.get("gauges", {}).items() if key not in keys})


def no_longer_read(builder: JobBuilder, path: str) -> None:
    """Take out the readings of a piece of the tray, or of a tape, that is said to be another one now."""
    if builder.document.get("reading"):
        builder.document["reading"] = [row for row in builder.rows("reading") if row.get("quantity") != path]


def _say(table: dict[str, Any], gauges: Mapping[str, str]) -> None:
    if gauges:
        table["gauges"] = dict(gauges)
    else:
        table.pop("gauges", None)


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
