"""What a measuring of a part lays on the document: the first one of a figure stands in its table, a further one adds.

Only a figure whose gauge is said is a measuring: one without replaces what stands there, as it always did, and so does a
measuring of a figure that no gauge is known for. A further one becomes a reading of that figure and counts beside the first.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from clubwright.club.stages import BARE_SHAFT
from clubwright.journal.facts import Fact, PartChanged
from clubwright.journal.reducers.builder import JobBuilder
from clubwright.ticket.rows.reading_entries import part_number_kind

OFF_THE_RAW_SHAFT = ("mass", "balance_from_tip")
"""Figures of a shaft that are the raw shaft's while it is said to be raw, or is not cut."""


def gauges_of(what: PartChanged) -> dict[str, str]:
    """Return which gauge measured which of its figures; empty where it says of none."""
    return what.gauges if isinstance(what.gauges, dict) else {}


def lay_measured(draft: JobBuilder, what: PartChanged, fact: Fact, table: dict[str, Any]) -> dict[str, str]:
    """Lay what adds to an earlier measuring; return what is to be laid in the table, its gauges said there already.

    Args:
        draft: The job.
        what: What was measured.
        fact: The fact of it.
        table: Of the part.
    """
    gauges, keep = gauges_of(what), draft.decided.get(fact.place)
    known: dict[str, str] = dict(table.get("gauges", {}))
    rest: dict[str, str] = {}
    for key, value in what.values.items():
        gauge = gauges.get(key, "") if value else ""
        if gauge and known.get(key) and table.get(key) and _adds(what.section, key, table):
            _add(draft, f"{what.section}.{key}", value, gauge, fact, keep=keep)
        elif not (gauge and keep is False):
            rest[key] = value
            known.pop(key, None)
            known |= {key: gauge} if gauge else {}
    if known:
        table["gauges"] = known
    else:
        table.pop("gauges", None)
    return rest


def no_longer_measured(table: dict[str, Any], *keys: str) -> None:
    """Forget which gauge measured figures that another action changes, or measures without saying with what."""
    known = {key: gauge for key, gauge in table.get("gauges", {}).items() if key not in keys}
    if known:
        table["gauges"] = known
    else:
        table.pop("gauges", None)


def _adds(section: str, key: str, table: Mapping[str, Any]) -> bool:
    """True for a figure of which a further measuring can be held against the first as a reading."""
    if part_number_kind(f"{section}.{key}") is None:
        return False
    if section != "shaft" or key not in OFF_THE_RAW_SHAFT:
        return True
    return table.get("weighed") != "cut" and ("raw_length" in table or "cut_length" not in table)


def _add(draft: JobBuilder, quantity: str, value: str, gauge: str, fact: Fact, *, keep: bool | None) -> None:
    readings = draft.rows("reading")
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
