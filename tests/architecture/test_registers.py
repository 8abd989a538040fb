"""Registers equal folders: a quantity has its module and its page, a page its link, and what a page names is there."""

from __future__ import annotations

import ast
import re
from pathlib import Path
from typing import cast

import pytest

from clubwright.club.build import Build
from clubwright.club.quantities import QUANTITIES, TARGETS
from clubwright.errors import NotPossible
from clubwright.journal.facts import KINDS
from clubwright.notation.register import KINDS as NOTATIONS
from clubwright.planning.steps.order import WANTED
from clubwright.planning.steps.plan import MAKERS
from clubwright.services.jobs.step_needs import STEP_NEEDS
from clubwright.state.steps import STEPS
from clubwright.ticket.fields.fields import JOBS, SECTIONS
from clubwright.web.views.card_forms import MAKERS as FORMS
from clubwright.words.german.keys import KEYS as GERMAN_WORDS
from repository import DOCS, PACKAGE, ROOT, SOURCE, TESTS, imported, module_name, pages, place, source_files, tree

NOT_COMPUTED: set[str] = set()
"""Taken on a ticket, and not computed by this version: refused by name, never guessed."""

ENTRY_POINTS = {"clubwright.cli.main", "clubwright.services.actions.register.page", "clubwright.ticket.shop.page"}
"""Started from outside: the console script, and the writers of pages of the docs."""

NOT_AT_THE_BENCH = {
    "clubwright.planning.joint.arrhenius": "checks a data sheet's table from Python; release times come from the table",
    "clubwright.planning.bending.head_choice": "waits for the shop's list of heads in stock: a ticket holds one head",
}
"""Computed and tested, of use from Python, and shown by no command yet, with the reason. It may only get shorter."""

LINK = re.compile(r"\[[^\]]*\]\(([^)#\s]+)(?:#[^)]*)?\)")
PATH = re.compile(r"(?<![\w/])((?:src|tests|docs|examples|benchmarks)/[A-Za-z0-9_./-]*[A-Za-z0-9_/])")
BARE_TEST = re.compile(r"(?<![\w/])(test_[a-z0-9_]+\.py)\b")
TEST_NAME = re.compile(r"`(test_[a-z0-9_]+)`")


@pytest.mark.parametrize("key", QUANTITIES)
def test_a_quantity_has_its_theory_and_its_notation(key: str) -> None:
    entry = QUANTITIES[key]
    if key in NOT_COMPUTED:
        assert entry.function is None, f"{key} is computed now: write its page and take it out of NOT_COMPUTED"
        return
    assert (DOCS / "theory" / entry.theory).is_file(), f"docs/theory/{entry.theory} is not written"
    assert entry.kind in NOTATIONS
    assert entry.tolerance_kind in NOTATIONS


@pytest.mark.parametrize("key", sorted(set(QUANTITIES) - NOT_COMPUTED))
def test_a_quantity_is_computed_in_club(key: str) -> None:
    function = QUANTITIES[key].function
    assert function is not None, f"{key} is promised, and not computed"
    assert function.__module__.startswith("clubwright.club.")


@pytest.mark.parametrize("key", sorted(NOT_COMPUTED))
def test_what_is_not_computed_is_refused_by_name(key: str) -> None:
    build = cast("Build", None)
    with pytest.raises(NotPossible, match=QUANTITIES[key].name):
        QUANTITIES[key].of(build)


def test_targets_are_quantities() -> None:
    assert set(TARGETS) <= set(QUANTITIES)
    assert len(TARGETS) == len(set(TARGETS))


def test_every_page_is_linked_from_the_map() -> None:
    linked = {(DOCS / target).resolve() for target in LINK.findall((DOCS / "README.md").read_text(encoding="utf-8"))}
    missing = [place(page) for page in DOCS.rglob("*.md") if page != DOCS / "README.md" and page not in linked]
    assert not missing, f"docs/README.md links to none of {missing}"


@pytest.mark.parametrize("page", pages(), ids=place)
def test_links_of_a_page_lead_somewhere(page: Path) -> None:
    targets = [
        t for t in LINK.findall(page.read_text(encoding="utf-8")) if "://" not in t and not t.startswith("mailto:")
    ]
    assert not [target for target in targets if not (page.parent / target).exists()]


@pytest.mark.parametrize("page", pages(), ids=place)
def test_files_and_tests_that_a_page_names_are_there(page: Path) -> None:
    text = page.read_text(encoding="utf-8")
    files = {path.name for path in TESTS.rglob("test_*.py")}
    functions = {name for path in TESTS.rglob("test_*.py") for name in functions_of(path)}
    stems = {name.removesuffix(".py") for name in files}
    assert not [name for name in PATH.findall(text) if not (ROOT / name).exists()]
    assert not [name for name in BARE_TEST.findall(text) if name not in files]
    assert not [name for name in TEST_NAME.findall(text) if name not in functions | stems]


@pytest.mark.parametrize("path", source_files(), ids=place)
def test_pages_and_tests_that_the_code_names_are_there(path: Path) -> None:
    text = re.sub(r"/\s*\n\s*(?=test_)", "/", path.read_text(encoding="utf-8"))
    assert not [name for name in PATH.findall(text) if not (ROOT / name).exists()]


def test_every_theory_page_names_the_test_that_checks_it() -> None:
    silent = [
        place(page)
        for page in (DOCS / "theory").glob("*.md")
        if not re.search(r"tests/\w+/test_\w+\.py", page.read_text(encoding="utf-8"))
    ]
    assert not silent


def test_every_outside_check_is_named_by_a_page_or_by_the_code() -> None:
    """Two clicks from a number to its check: a file of outside checks that nothing names would never be found."""
    named = "\n".join(path.read_text(encoding="utf-8") for path in [*pages(), *source_files()])
    assert not [path.name for path in (TESTS / "published").glob("test_*.py") if path.name not in named]


def test_no_module_lies_idle() -> None:
    """Every module is imported by another one, or named by a string that loads it (a command, a migration)."""
    used: set[str] = set()
    strings: set[str] = set()
    for path in source_files():
        used |= imported(path) - {module_name(path)}
        strings |= {
            node.value
            for node in ast.walk(tree(path))
            if isinstance(node, ast.Constant) and isinstance(node.value, str)
        }
    idle = [
        module_name(path)
        for path in source_files()
        if path.name != "__init__.py"
        and "migrations" not in path.parts
        and module_name(path) not in used | ENTRY_POINTS
        and not any(text.startswith(module_name(path)) for text in strings)
    ]
    assert sorted(set(idle) - set(NOT_AT_THE_BENCH)) == [], "nothing imports these"
    assert sorted(set(NOT_AT_THE_BENCH) - set(idle)) == [], "these are in use now: take them out of NOT_AT_THE_BENCH"


def test_every_quantity_has_a_name_in_every_language() -> None:
    assert set(GERMAN_WORDS["quantity"]) == set(QUANTITIES)


def test_every_step_has_its_maker_and_every_form_and_need_is_of_a_step() -> None:
    assert set(MAKERS) == set(STEPS)
    assert {step.form for step in STEPS.values()} - {"tick"} == set(FORMS), (
        "a form that no step has, or a step without its own"
    )
    assert set(STEP_NEEDS) | set(WANTED) <= set(STEPS)
    assert {kind for step in STEPS.values() for kind in (*step.completed_by, *step.anew_by)} <= set(KINDS)
    assert {step.or_behind for step in STEPS.values()} - {""} <= set(STEPS)
    assert {job for step in STEPS.values() for job in step.jobs} == set(JOBS)


def test_what_a_step_aims_at_is_in_a_ticket_file() -> None:
    sections = {section.name: section for section in SECTIONS}
    for step in STEPS.values():
        for path in step.aims_at:
            table, _, key = path.partition(".")
            assert not key or sections[table].field(key) is not None, (step.key, path)


OF_OTHER_THINGS = {
    "cli/demo.py": "targets of the invented wedge",
    "cli/demo_set.py": "targets of the invented irons",
    "labels/sheet/from_work.py": "figures of a head",
    "planning/bending/advice.py": "figures of a bend",
    "planning/bending/checks.py": "figures of a bend",
    "planning/gates/types.py": "checks of a gate",
    "planning/steps/finish.py": "figures of a bend",
    "services/report/bend_rows.py": "figures of a bend",
    "services/answer/rules_check.py": "what the Equipment Rules call it",
    "services/why/small.py": "kinds of notation",
    "ticket/again.py": "figures of a head",
    "ticket/plausible/checks.py": "a target that contradicts another",
    "ticket/plausible/ranges.py": "figures of a head, by kind of club",
    "words/german/bench.py": "checks of a gate",
    "ticket/rows/reading_entries.py": "kinds of notation",
    "words/how_typed.py": "kinds of notation",
    "words/german/keys.py": "names in another language",
}
"""Files outside the notation that name three keys of quantities in one list, and what that list is of."""


def test_what_is_known_of_quantities_is_said_in_their_register_and_in_no_list_beside_it() -> None:
    found = set()
    for path in source_files():
        name = path.relative_to(PACKAGE).as_posix()
        if name == "club/quantities.py" or name.startswith("notation/"):
            continue
        for node in ast.walk(tree(path)):
            items = node.keys if isinstance(node, ast.Dict) else getattr(node, "elts", [])
            named = {item.value for item in items if isinstance(item, ast.Constant) and item.value in QUANTITIES}
            found |= {name} if len(named) > 2 else set()
    assert sorted(found - set(OF_OTHER_THINGS)) == [], "give `Quantity` an attribute, and derive the list from it"
    assert sorted(set(OF_OTHER_THINGS) - found) == [], "these list no quantities any more: take them out"


def functions_of(path: Path) -> set[str]:
    return {node.name for node in ast.walk(tree(path)) if isinstance(node, ast.FunctionDef)}


def test_the_readers_of_pages_see_what_they_are_for() -> None:
    assert LINK.findall("see [page](theory/moi.md#top) and [site](https://example.org/a)") == [
        "theory/moi.md",
        "https://example.org/a",
    ]
    assert PATH.findall("`src/clubwright/club/moi.py`, tests/published/test_x.py.") == [
        "src/clubwright/club/moi.py",
        "tests/published/test_x.py",
    ]
    assert BARE_TEST.findall("beside `test_x.py`") == ["test_x.py"]
    assert module_name(PACKAGE / "club" / "moi.py") == "clubwright.club.moi"
    assert SOURCE in PACKAGE.parents
