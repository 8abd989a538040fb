"""A figure takes the name of its gauge with it, whatever fact changes it or takes it off: every figure that may have one."""

from __future__ import annotations

import ast
import copy
from typing import Any

import pytest

from clubwright.club.quantities import ANGLES
from clubwright.journal.facts import (
    HeadBent,
    OrderChanged,
    PartChanged,
    ShaftCut,
    ShaftTrimmed,
    TapeLaid,
    TicketTaken,
    What,
)
from clubwright.journal.reducers.fold import fold
from clubwright.ticket.fields.fields import SECTIONS, measured_field
from journal_facts import DOCUMENT, chained
from repository import ROOT

LISTED = {"tape": "base", "weight": "port 6"}
FIGURES = [
    (section.name, field.key)
    for section in SECTIONS
    if section.name in DOCUMENT or section.name in ("ferrule", "adapter")
    for field in section.fields
    if measured_field(section.name, field.key) is not None
]
GAUGE = "one of ours"
TABLES = ("shaft", "head", "table")
"""What the tables of parts are called in the code that lays facts."""
TRIM = ShaftTrimmed(job="T-1", end="tip", amount="1/4 in")


def gauged() -> dict[str, Any]:
    """A ticket on which every figure that may have a gauge is there, and has one."""
    document = copy.deepcopy(DOCUMENT)
    for section, key in FIGURES:
        table = table_of(document, section)
        field = measured_field(section, key)
        assert field is not None
        table.setdefault(key, field.example)
        table.setdefault("gauges", {})[key] = GAUGE
    document["shaft"]["tip_trimmed"] = "yes"
    return document


def table_of(document: dict[str, Any], section: str) -> dict[str, Any]:
    if section not in LISTED:
        return document.setdefault(section, {})
    return next(row for row in document[section] if row["name"] == LISTED[section])


def changing(section: str, key: str) -> list[What]:
    """Every fact that can change a figure, or take it off, and says of no gauge."""
    field = measured_field(section, key)
    assert field is not None
    entry = {"name": LISTED[section]} if section in LISTED else {}
    path = f"{section}.{LISTED[section]}.{key}" if section in LISTED else f"{section}.{key}"
    found: list[What] = [
        PartChanged(job="T-1", section=section, values={**entry, key: ""}),
        PartChanged(job="T-1", section=section, values={**entry, key: field.example}),
        PartChanged(job="T-1", section=section, values=entry, another=True),
        OrderChanged(job="T-1", values={path: field.example}, was={}, said_by="Ann", reason="so"),
    ]
    if section == "head" and key in ANGLES:
        found.append(HeadBent(job="T-1", loft="54.5 deg", lie="64 deg", bounce="10 deg"))
        found.append(HeadBent(job="T-1", loft="55.5 deg", lie="64 deg"))
    if section == "head" and key == "bore_diameter":
        found.append(PartChanged(job="T-1", section="head", values={"bore_reamed": "yes", "bore_diameter": "0.37 in"}))
    if section == "shaft":
        found += [
            TRIM,
            ShaftCut(job="T-1", cut_length="33 in"),
            ShaftCut(job="T-1", cut_length="33 in", cut_mass="99 g"),
        ]
        found.append(ShaftCut(job="T-1", cut_length="33 in", cut_balance_from_tip="15 in"))
    if section == "tape" and key == "mass":
        found += [TapeLaid(job="T-1", name="base", layers=layers, mass="1.6 g") for layers in ("1", "2")]
    return found


def said_of(what: What) -> set[str]:
    """The figures that a fact says anew."""
    if isinstance(what, PartChanged):
        return set(what.values)
    if isinstance(what, OrderChanged):
        return {path.rpartition(".")[2] for path in what.values}
    return {field for field in what.__struct_fields__ if isinstance(getattr(what, field), str)}


@pytest.mark.parametrize(("section", "key"), FIGURES)
def test_a_figure_that_goes_or_is_another_one_takes_its_gauge_with_it(section: str, key: str) -> None:
    document = gauged()
    before = table_of(document, section)
    for what in changing(section, key):
        facts = chained([TicketTaken(job="T-1", document=document, source="t.toml"), what])
        after = table_of(fold(facts).job("T-1").document, section)
        gauges = after.get("gauges", {})
        assert set(gauges) <= set(after), f"{what}: a gauge is said of a figure that is not there"
        for each, gauge in before["gauges"].items():
            moved = after.get(each) != before[each] or each in said_of(what)
            assert gauges.get(each) == (None if moved else gauge), f"{what}: {each}"


def test_there_are_such_figures_and_every_part_has_some() -> None:
    assert len(FIGURES) > 25
    assert {section for section, _ in FIGURES} >= {"head", "shaft", "grip", "ferrule", "tape", "weight"}


def test_nothing_but_the_one_function_writes_figures_on_the_table_of_a_part() -> None:
    """Found in the code that lays facts: an assignment, a pop or an update on a table of a part outside `put`."""
    wrong = []
    for name in ("apply", "measured", "shaft_table"):
        path = ROOT / f"src/clubwright/journal/reducers/{name}.py"
        for function in ast.parse(path.read_text(encoding="utf-8")).body:
            if getattr(function, "name", "") != "put":
                wrong += [f"{name}: {ast.unparse(node)}" for node in ast.walk(function) if writes(node)]
    assert wrong == []


def writes(node: ast.AST) -> bool:
    if isinstance(node, ast.Assign | ast.AugAssign | ast.Delete):
        targets = [node.target] if isinstance(node, ast.AugAssign) else node.targets
        return any(isinstance(target, ast.Subscript) and is_table(target.value) for target in targets)
    called = node.func if isinstance(node, ast.Call) else None
    return (
        isinstance(called, ast.Attribute)
        and called.attr in ("pop", "update", "setdefault", "popitem")
        and is_table(called.value)
    )


def is_table(node: ast.expr) -> bool:
    return isinstance(node, ast.Name) and node.id in TABLES
