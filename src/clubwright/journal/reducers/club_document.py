"""The document of a job on a club of the record: its ticket laid over the club as the job before left it.

What stays on the club keeps all that is known of it; what comes off in this kind of work becomes a change, `came`, with
the readings from before it. So the next job's belief begins where the last one ended. Pure: documents in, a document out.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from clubwright.club.stages import AS_IT_CAME, FINISHED
from clubwright.journal.reducers.old_parts import old_tables
from clubwright.ticket.field_names import read_field_name
from clubwright.ticket.fields.defaults import default_for
from clubwright.ticket.fields.fields import METER_FIELDS
from clubwright.ticket.fields.shop import FROM_SHOP
from clubwright.ticket.order_paths import place_of
from clubwright.ticket.part_paths import OLD_TABLES, PART_OF_CHANGED, REPLACED
from clubwright.ticket.shop.laying import own_of

Document = dict[str, Any]

CARRIED = ("adapter", "shim", "shop")
FROM_THE_CLUB = ("kind", "hand", "player", "label")
"""What a ticket need not say again of a club that the record has."""

CONVENTION = {
    "length": ("target", "length_method"),
    "swing_weight": ("shop", "swing_weight_point"),
}
"""Where a quantity has more than one definition: what was read by another one is kept, and not used."""


def taken_over(as_left: Mapping[str, Any], ticket: Mapping[str, Any]) -> Document:
    """Return the document of a job on a club that another job left.

    Args:
        as_left: Document of the club's last job, as that job left it.
        ticket: The new job's own ticket.
    """
    old, new = _tables(as_left), _tables(ticket)
    number = str(old["ticket"]["id"])
    gauges = _gauge_names(old, new, number)
    old = _under_their_names(old, gauges)
    new["ticket"] = {key: old["ticket"][key] for key in FROM_THE_CLUB if key in old["ticket"]} | new["ticket"]
    off = REPLACED.get(new["ticket"].get("job", "build"), ())
    changes, readings = _as_they_were(old, number)
    came = {table: _of_a_part(old, table) for table, part in PART_OF_CHANGED.items() if part in off}
    changes.append({"name": number, **({"came": "yes"} if off else {}), **came})
    used = _same_definitions(old, new)
    for row in readings:
        row.setdefault("before", number)
        row.setdefault("job", number)
        row.pop("fact", None)
        if row.get("quantity") not in used:
            row["keep"] = "no"
        if row.get("quantity") == "frequency":
            _say_meter(row, old, new)
    merged = dict(new)
    own = own_of(new)
    stays = [table for table, part in PART_OF_CHANGED.items() if part not in off]
    for table in (*stays, *CARRIED):
        merged |= _laid_over(old, new, own, table)
    _join_gauges(old, merged, gauges, readings)
    _join_shop(old, merged, (*stays, *CARRIED))
    if old.get("weight"):
        names = {row.get("name") for row in new.get("weight", [])}
        merged["weight"] = [*(row for row in old["weight"] if row.get("name") not in names), *new.get("weight", [])]
        # what this ticket lists is what lies in the tray now: the piece of that name before was another one
        readings = [row for row in readings if not _is_of_a_weight(row, names)]
    merged["change"] = [*changes, *new.get("change", [])]
    merged["reading"] = [*readings, *new.get("reading", [])]
    if "length_method" in old.get("target", {}):
        merged["target"] = {"length_method": old["target"]["length_method"], **new.get("target", {})}
    return merged


def _is_of_a_weight(row: Document, names: set[Any]) -> bool:
    place = place_of(str(row.get("quantity")))
    return place is not None and place.table == "weight" and place.entry in names


def _tables(document: Mapping[str, Any]) -> Document:
    """Copy a document so far that its tables and rows can be changed."""
    return {
        name: [dict(row) for row in content] if isinstance(content, list) else dict(content)
        for name, content in document.items()
    }


def _laid_over(old: Document, new: Document, own: Document, table: str) -> Document:
    """Return a table of a part that stays: what is typed now counts, what was known goes on, and the shop says the rest."""
    if isinstance(old.get(table), list) or isinstance(new.get(table), list):
        found: Any = own.get(table) or old.get(table) or new.get(table)
    else:
        goes_on = {} if table == "adhesive" and _is_another(old, own) else old.get(table, {})
        mine = own.get(table, {})
        found = {**new.get(table, {}), **goes_on, **mine}
        # what is typed now was not measured by what measured the figure in its place
        gauges = {key: name for key, name in goes_on.get("gauges", {}).items() if key not in mine}
        gauges |= mine.get("gauges", {})
        found = {key: text for key, text in found.items() if key != "gauges"} | ({"gauges": gauges} if gauges else {})
    return {table: found} if found else {}


def _is_another(old: Document, own: Document) -> bool:
    """True when the ticket names another adhesive than the one before: nothing of that one's sheet is of this one."""
    name = own.get("adhesive", {}).get("name")
    return name is not None and name != old.get("adhesive", {}).get("name")


def _gauge_names(old: Document, new: Document, number: str) -> dict[str, str]:
    """Name each gauge of the old job as it goes on: anew where another one has its name by now."""
    now, then = new.get("instrument", {}), old.get("instrument", {})
    return {name: name if now.get(name, said) == said else f"{name} {number}" for name, said in then.items()}


def _join_gauges(old: Document, merged: Document, named: Mapping[str, str], readings: list[Document]) -> None:
    """Keep the gauges that earlier readings name, under a name of their own where another one has that name by now."""
    now, then = merged.get("instrument", {}), old.get("instrument", {})
    if named:
        merged["instrument"] = {**{named[name]: said for name, said in then.items()}, **now}
    for row in readings:
        if row.get("instrument") in named:
            row["instrument"] = named[row["instrument"]]


def _under_their_names(old: Document, named: Mapping[str, str]) -> Document:
    """Return the tables of a job with the gauges of its parts under the names that they go on by."""

    def renamed(content: Any) -> Any:
        if isinstance(content, list):
            return [renamed(row) for row in content]
        if not isinstance(content, dict):
            return content
        found = {key: renamed(value) for key, value in content.items()}
        if isinstance(content.get("gauges"), dict):
            found["gauges"] = {key: named.get(gauge, gauge) for key, gauge in content["gauges"].items()}
        return found

    parts = (*PART_OF_CHANGED, "adapter", "weight", "change")
    return {name: renamed(content) if name in parts else content for name, content in old.items()}


def _join_shop(old: Document, merged: Document, tables: tuple[str, ...]) -> None:
    """Say of what goes on from the job before that the shop said it, where it did."""
    noted = {name: said for name, said in old.get(FROM_SHOP, {}).items() if name in tables}
    if noted:
        merged[FROM_SHOP] = {**merged.get(FROM_SHOP, {}), **noted}


def _of_a_part(document: Document, table: str) -> Any:
    """Return the table of a part that was on, as a change keeps it."""
    if table == "tape":
        return document.get("tape", [])
    found = dict(document.get(table, {}))
    if table == "adhesive":
        found = {key: text for key, text in found.items() if isinstance(text, str)}
    return {**found, "another": "yes"} if table in ("head", "shaft") else found


def _same_definitions(old: Document, new: Document) -> set[str]:
    """Name the quantities of the old readings that both jobs mean alike."""
    quantities = {str(row.get("quantity")) for row in old.get("reading", [])}
    for quantity, (table, key) in CONVENTION.items():
        said = new.get(table, {}).get(key)
        if said is not None and said != old.get(table, {}).get(key):
            quantities.discard(quantity)
    return quantities


def _say_meter(row: Document, old: Document, new: Document) -> None:
    """Say in a frequency how the old job's meter held the club, where the new job's holds it otherwise: it is converted."""
    was, said = old.get("shop", {}), new.get("shop", {})
    by_gauge = old.get("instrument", {}).get(row.get("instrument"), {})
    for field in METER_FIELDS:
        key, usual = field.key, default_for(f"shop.{field.key}", "iron")
        held = was.get(key) or (usual and usual.text)
        if key in said and said[key] != held and key not in by_gauge:
            row.setdefault(key, held)


def _as_they_were(old: Document, number: str) -> tuple[list[Document], list[Document]]:
    """Return changes and readings of a job as a later one holds them: under its own names, its old parts a change too."""
    named = {
        row["name"]: f"{number} {row['name']}" if row["name"].isdigit() else row["name"]
        for row in old.get("change", [])
    }
    changes = [{**row, "name": named[row["name"]]} for row in old.get("change", [])]
    readings = [{**row, "before": named[row["before"]]} if "before" in row else row for row in old.get("reading", [])]
    place = next((place for place, row in enumerate(changes) if row.get("came") == "yes"), None)
    at_first = [row for row in readings if row.get("stage") == AS_IT_CAME.name and "job" not in row]
    if place is None and not at_first:
        return changes, readings
    came = {"name": f"{number} as it came"} if place is None else changes.pop(place)
    came = {key: content for key, content in came.items() if key != "came"} | old_tables(old, came)
    at = max([0 if place is None else place, *(_place(changes, row.get("before")) for row in at_first)])
    later = {row["name"] for row in changes[at:]}
    changes.insert(at, came)
    for row in at_first:
        row["stage"] = FINISHED.name
        if row.get("before") is None or row["before"] in later:
            row["before"] = came["name"]
    return changes, [row for row in readings if read_field_name(str(row.get("quantity"))).section not in OLD_TABLES]


def _place(changes: list[Document], name: str | None) -> int:
    names = [row["name"] for row in changes]
    return names.index(name) if name in names else len(names)
