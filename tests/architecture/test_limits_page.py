"""Each limit of the trace reader and of the checks stands on its page with its value and its standing; none is left out."""

from __future__ import annotations

import ast
import importlib
import re

import pytest

from repository import DOCS, PACKAGE

TEXT = (DOCS / "theory" / "limits.md").read_text(encoding="utf-8")
ROWS = re.findall(r"^\| `([a-z_.]+)\.([A-Z_]+)` \| (\S+) \| ([a-z ]+) \| (.+) \|$", TEXT, re.MULTILINE)
MODULES = (
    "club.oscillation",
    *(f"club.trace.{path.stem}" for path in sorted((PACKAGE / "club" / "trace").glob("[a-z]*.py"))),
    "planning.gates.glue_checks",
    "belief.stiffness.checks",
    "conformity.settling",
    "services.report.reading_back",
)
STANDINGS = {"ours", "common practice", "memory", "arithmetic"}
NO_LIMITS = {"TINY"}
"""The least number that a computer writes; it divides, and decides nothing."""


def limits_of(module: str) -> dict[str, float]:
    """Numbers that a module gives a name of capitals to, where it is written."""
    tree = ast.parse((PACKAGE / f"{module.replace('.', '/')}.py").read_text(encoding="utf-8"))
    named = [target for node in tree.body if isinstance(node, ast.Assign) for target in node.targets]
    names = [item.id for target in named for item in ast.walk(target) if isinstance(item, ast.Name)]
    held = vars(importlib.import_module(f"clubwright.{module}"))
    return {name: held[name] for name in names if name.isupper() and isinstance(held[name], int | float)}


def test_every_limit_is_on_the_page_with_its_value() -> None:
    found = {
        (module, name): value
        for module in MODULES
        for name, value in limits_of(module).items()
        if name not in NO_LIMITS
    }
    assert len(found) > 30
    listed = {(module, name): float(value) for module, name, value, _, _ in ROWS}
    assert set(listed) == set(found)
    for key, value in found.items():
        assert listed[key] == pytest.approx(value, rel=1e-9), key


def test_every_limit_has_a_standing_and_a_reason() -> None:
    assert {standing for *_, standing, _ in ROWS} == STANDINGS
    assert all(len(why) > 10 for *_, why in ROWS)
    for standing in STANDINGS:
        assert f"- **{standing}**" in TEXT
