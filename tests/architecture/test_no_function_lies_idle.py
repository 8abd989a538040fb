"""Every public function and class is asked for somewhere in the program; what only tests ask for says why it stays."""

from __future__ import annotations

import ast
import re
from pathlib import Path

from clubwright import __all__ as front_door
from repository import PACKAGE, source_files, tree

ONLY_TESTS = {
    "belief of a beam, checked against published shafts and beams through it": (
        "club.beam.section.step_taper",
        "club.beam.section.straight_taper",
        "club.beam.solve.frequencies_hz",
        "club.beam.static.twist_rad",
        "club.shaft.profile_mass",
    ),
    "a bend forward in space, against which the plan's closed forms are checked": (
        "club.bending.angles_after_bend_rad",
        "club.bending.changes_from_lie_pull_rad",
        "club.bending.loft_change_from_square_pull_rad",
        "club.bending.square_pull_axis",
    ),
    "waits for the shop's list of heads in stock: a ticket holds one head": (
        "planning.bending.head_choice.rank_heads",
    ),
    "checks a data sheet's table from Python; release times come from the table": (
        "planning.joint.arrhenius.activation_energy_j_mol",
        "planning.joint.arrhenius.equivalent_time_s",
    ),
    "writes a page of the docs, which its test compares": (
        "services.actions.register.page.actions_page",
        "ticket.fields.page.ticket_page",
        "ticket.shop.page.shop_page",
    ),
    "holds the answer to the schema that was promised": ("services.told.schema.broken_promises",),
}
"""Why, and what. It may only get shorter."""

LOADED_BY_NAME = re.compile(r"[\w.:-]+")


def asked_for(path: Path) -> set[str]:
    """Return every name that a file uses: as a name, an attribute, an import, or a text that loads it (a command)."""
    found: set[str] = set()
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.Name):
            found.add(node.id)
        elif isinstance(node, ast.Attribute):
            found.add(node.attr)
        elif isinstance(node, ast.alias):
            found.add(node.name)
        elif isinstance(node, ast.Constant) and isinstance(node.value, str) and LOADED_BY_NAME.fullmatch(node.value):
            found |= set(re.split(r"[.:]", node.value.replace("-", "_")))
    return found


def idle() -> set[str]:
    """Public functions and classes without decorator, page's or template's use, that no line of the program asks for."""
    files = [path for path in source_files() if "migrations" not in path.parts]
    asked = set().union(*map(asked_for, files)) | set(front_door)
    templates = "\n".join(path.read_text(encoding="utf-8") for path in PACKAGE.rglob("*.html"))
    found = set()
    for path in files:
        module = ".".join(path.relative_to(PACKAGE).with_suffix("").parts)
        for node in tree(path).body:
            if not isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef):
                continue
            public = not node.name.startswith("_") and not node.decorator_list
            if public and node.name not in asked and not re.search(rf"\b{node.name}\b", templates):
                found.add(f"{module}.{node.name}")
    return found


def test_no_public_function_lies_idle() -> None:
    allowed = {name for names in ONLY_TESTS.values() for name in names}
    assert sorted(idle() - allowed) == [], "use these, or delete them with their tests"
    assert sorted(allowed - idle()) == [], "these are in use now, or gone: take them out of ONLY_TESTS"


def test_the_law_sees_what_is_asked_for(tmp_path: Path) -> None:
    file = tmp_path / "m.py"
    file.write_text('from a import b\nc.d\ne("x.y:calibrate-grips")\n"no name at all"\n', encoding="utf-8")
    assert {"b", "c", "d", "e", "x", "y", "calibrate_grips"} <= asked_for(file)
    assert not {"no", "name"} & asked_for(file)
