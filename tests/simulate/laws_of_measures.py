"""What was measured stays, and measuring again adds: the sentence of docs/user/bench.md, by rules of its own."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from typing import Any

from breaking import places, require
from shop import Decided

from clubwright.errors import ClubwrightError
from clubwright.journal.facts import Fact, PartChanged, Place, TapeLaid, Undone
from clubwright.journal.reducers.fold import fold

LAW = "measuring again adds"
PARTS = ("head", "shaft", "grip", "ferrule", "adapter", "tape", "weight")
BY_NAME = ("tape", "weight")

Figure = tuple[str, str, str]
"""Path of a figure of a part, what was shown, and by which gauge."""


def measuring_again_adds(decided: Decided, seen: Counter[str]) -> None:
    """A figure that a gauge measured stands in its table or beside the first, and no figure measured before is gone.

    It is not asked where the part is another one, or was undone, cut, reamed or laid anew: those begin anew.
    """
    fact = decided.fact
    measured = _measured_by(fact)
    if not measured or any(isinstance(each.what, Undone) for each in _new(decided)):
        return
    before, after = (_document(facts, fact.what.subject) for facts in (decided.before, decided.after))
    if before is None or after is None:
        return
    figures_before, figures_after = _figures(before), _figures(after)
    for path, (shown, gauge) in measured.items():
        there = _now(before, path)
        row = (path, shown, gauge) in [_row(each) for each in _added(after) if each.get("fact") == str(fact.sequence)]
        if there is not None and not _begins_anew(fact, before, path):
            require(LAW, row, f"{places([fact])}: {path} {shown} by {gauge} is not beside {there}")
            require(LAW, _now(after, path) == there, f"{places([fact])}: {path} was {there}, is {_now(after, path)}")
            seen["measured again"] += 1
        else:
            said = f"{places([fact])}: {path} {shown} by {gauge} is {_now(after, path)}"
            require(LAW, _now(after, path) == (path, shown, gauge), said)
    if not any(_begins_anew(each, before, path) for each in _new(decided) for path in _measured_by(each)):
        gone = figures_before - figures_after
        require(LAW, not gone, f"{places([fact])}: {dict(gone)} was measured, and is gone")


def _measured_by(fact: Fact) -> dict[str, tuple[str, str]]:
    """Return the figures that a fact says a gauge measured, with what was shown and by which; none of another part."""
    what = fact.what
    if isinstance(what, TapeLaid) and isinstance(what.gauges, dict):
        return {f"tape.{what.name}.mass": (what.mass, gauge) for gauge in what.gauges.values()}
    if not isinstance(what, PartChanged) or not isinstance(what.gauges, dict) or what.another is True:
        return {}
    name = f"{what.values.get('name', '')}." if what.section in BY_NAME else ""
    return {f"{what.section}.{name}{key}": (what.values[key], gauge) for key, gauge in what.gauges.items()}


def _begins_anew(fact: Fact, document: Mapping[str, Any], path: str) -> bool:
    """Say whether a figure is of something else than the one before: a bore reamed, other layers, a shaft cut since."""
    what, shaft = fact.what, document.get("shaft", {})
    if isinstance(what, PartChanged) and what.values.get("bore_reamed") == "yes":
        return path == "head.bore_diameter"
    if isinstance(what, TapeLaid):
        rows = [row for row in document.get("tape", []) if row.get("name") == what.name]
        return any(str(row.get("layers", "1")) != what.layers for row in rows)
    raw = shaft.get("weighed") != "cut" and ("raw_length" in shaft or "cut_length" not in shaft)
    cut_since = f"{path.removeprefix('shaft.')}_length" in shaft
    return (path == "shaft.mass" and not raw) or (path == "shaft.cut_mass" and cut_since)


def _new(decided: Decided) -> list[Fact]:
    there = {fact.place for fact in decided.before}
    return [fact for fact in decided.after if fact.place not in there]


def _document(facts: Sequence[Fact], subject: Place) -> Mapping[str, Any] | None:
    try:
        return next((job.document for job in fold(facts).jobs.values() if job.place == subject), None)
    except ClubwrightError:
        return None


def _figures(document: Mapping[str, Any]) -> Counter[Figure]:
    """Count all that stands as measured: in the tables of the parts, as they are and as they were, and added to them."""
    found = Counter(_row(row) for row in _added(document))
    for tables in (document, *document.get("change", [])):
        for section in PARTS:
            for row, name in _rows(tables, section):
                gauges = row.get("gauges", {}) if isinstance(row, dict) else {}
                found.update((f"{section}.{name}{key}", row[key], gauge) for key, gauge in gauges.items())
    return found


def _now(document: Mapping[str, Any], path: str) -> Figure | None:
    """Return the figure that stands in the table of the part as it is, None where no gauge is said of it."""
    for section in PARTS:
        for row, name in _rows(document, section):
            for key, gauge in row.get("gauges", {}).items():
                if f"{section}.{name}{key}" == path:
                    return (path, row[key], gauge)
    return None


def _rows(tables: Mapping[str, Any], section: str) -> list[tuple[dict[str, Any], str]]:
    content = tables.get(section, {})
    if isinstance(content, list):
        return [(row, f"{row.get('name', '')}.") for row in content]
    return [(content, "")]


def _added(document: Mapping[str, Any]) -> list[dict[str, Any]]:
    return [row for row in document.get("reading", []) if "instrument" in row and "." in row["quantity"]]


def _row(row: Mapping[str, Any]) -> Figure:
    return (row["quantity"], row["value"], row["instrument"])
