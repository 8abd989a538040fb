"""What stands behind a number is there: its theory page and heading, its function, and tests that check it from outside."""

from __future__ import annotations

import ast
import tomllib

import pytest

from clubwright.club.quantities import QUANTITIES
from clubwright.services.why.formulas import formulas, joint, steps
from clubwright.services.why.formulas.formulas import Formula, quantity_formula, shown
from clubwright.services.why.formulas.steps import GATES, SHAFT, STEPS
from clubwright.services.why.library import sources, theory_pages, theory_text
from clubwright.web.theory_html import theory_page
from repository import DOCS, PACKAGE, ROOT

MODULES = (formulas, joint, steps)
DECLARED = {id(item): item for module in MODULES for item in vars(module).values() if isinstance(item, Formula)}
EVERY = [*DECLARED.values(), *(quantity_formula(key) for key in QUANTITIES)]
NAMES = [item.name for item in EVERY]


@pytest.mark.parametrize("formula", EVERY, ids=NAMES)
def test_a_formula_leads_to_a_heading_that_is_there(formula: Formula) -> None:
    found = theory_page(formula.page.removesuffix(".md"))
    assert found is not None, f"docs/theory/{formula.page} is not there"
    assert not formula.section or formula.section in dict(found.sections), f"{formula.page} has no such heading"


@pytest.mark.parametrize("formula", EVERY, ids=NAMES)
def test_a_formula_leads_to_its_function(formula: Formula) -> None:
    said = shown(formula)
    lines = sources()[said.source].read_text(encoding="utf-8").splitlines()
    name = said.function.rpartition(".")[2]
    # a decorator, such as that of a property, stands on the line before
    assert any(f"def {name}(" in line for line in lines[said.line - 1 : said.line + 2])


@pytest.mark.parametrize("formula", EVERY, ids=NAMES)
def test_a_formula_is_checked_from_outside(formula: Formula) -> None:
    assert formula.equation
    assert formula.checks, "no test holds it against anything outside"
    for check in formula.checks:
        assert (ROOT / check).is_file()
        assert check in sources(), "it cannot be read without a network"


@pytest.mark.parametrize("formula", DECLARED.values(), ids=[item.name for item in DECLARED.values()])
def test_its_checks_are_those_that_its_page_names(formula: Formula) -> None:
    """One of them at least: what a page is checked by is said on the page."""
    text = theory_text(formula.page.removesuffix(".md"))
    assert text is not None
    assert any(check in text for check in formula.checks), f"{formula.page} names none of {formula.checks}"


def test_every_quantity_says_its_equation() -> None:
    assert not [key for key, entry in QUANTITIES.items() if not entry.equation or not entry.checks]


def test_no_formula_stands_behind_nothing() -> None:
    """Each is used by a step, a gate, the shaft's page, or by the code that explains a number of no step."""
    used = {id(item) for item in [*SHAFT, *(each for group in [*STEPS.values(), *GATES.values()] for each in group)]}
    named = {
        node.id
        for path in (PACKAGE / "services" / "why").glob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Name)
    }
    by_name = {name: item for module in MODULES for name, item in vars(module).items() if isinstance(item, Formula)}
    assert not [name for name, item in by_name.items() if id(item) not in used and name not in named]


def test_pages_and_checks_are_in_the_wheel() -> None:
    """Built from the tree, a wheel carries them beside the package; here they are read where they are written."""
    wheel = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["hatch"]["build"]["targets"]
    carried = wheel["wheel"]["sources"]
    assert carried["docs/theory"] == "clubwright/reference/theory"
    assert carried["tests/published"] == "clubwright/reference/tests/published"
    assert set(carried) == set(wheel["wheel"]["only-include"])
    assert set(theory_pages()) == {path.stem for path in (DOCS / "theory").glob("*.md")}
