"""The glossary has an entry for every word that is a key in the program, and none for a key that is gone."""

from __future__ import annotations

import ast
import re

from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import STAGES
from clubwright.planning.steps.plan import MAKERS
from clubwright.state.steps import STEPS
from clubwright.ticket.fields.fields import SECTIONS
from repository import DOCS, PACKAGE, source_files, tree

ENTRY = re.compile(r"^- \*\*(?P<term>.+?)\.?\*\*(?: \((?P<keys>.*?)\)\.)? (?P<meaning>.+)$")
KEY = re.compile(r"(quantity|stage|ticket|step|code|room) `([^`]+)`")


def entries() -> list[re.Match[str]]:
    lines = (DOCS / "glossary.md").read_text(encoding="utf-8").splitlines()
    found = [(line, ENTRY.match(line)) for line in lines if line.startswith("- ")]
    unread = [line for line, match in found if match is None]
    assert not unread, unread
    return [match for _, match in found if match is not None]


def keys_of(kind: str) -> list[str]:
    return [key for entry in entries() for sort, key in KEY.findall(entry["keys"] or "") if sort == kind]


def test_every_quantity_has_its_entry_under_its_own_name() -> None:
    assert sorted(keys_of("quantity")) == sorted(QUANTITIES)
    terms = {key: entry["term"] for entry in entries() for sort, key in KEY.findall(entry["keys"] or "")}
    assert {key: terms[key] for key in QUANTITIES} == {key: item.name for key, item in QUANTITIES.items()}


def test_every_stage_has_its_entry() -> None:
    assert sorted(keys_of("stage")) == sorted(STAGES)


def test_every_table_of_the_ticket_has_its_entry() -> None:
    names = [f"[{section.name}.NAME]" if section.named else f"[{section.name}]" for section in SECTIONS]
    assert sorted(keys_of("ticket")) == sorted(names)


def test_every_step_has_its_entry() -> None:
    assert sorted(keys_of("step")) == sorted(STEPS) == sorted(MAKERS)


WORDS_OF_THE_CODE = {
    "apply", "Cause", "ClubAnswer", "ClubState", "Explanation", "Fact", "fold",
    "Job", "JobAnswer", "JobBuilder", "Misfit", "Session",
}  # fmt: skip
"""Without them a reader gets nowhere in the code."""


def test_words_of_the_code_have_their_entry_and_are_names_there() -> None:
    named = {
        node.name
        for path in source_files()
        for node in tree(path).body
        if isinstance(node, ast.ClassDef | ast.FunctionDef)
    }
    assert sorted(keys_of("code")) == sorted(WORDS_OF_THE_CODE)
    assert named >= WORDS_OF_THE_CODE
    assert {"journal", "reducer", "room"} <= {entry["term"] for entry in entries()}


def test_every_room_of_services_and_planning_has_its_entry() -> None:
    rooms = {
        folder.relative_to(PACKAGE).as_posix()
        for floor in ("services", "planning")
        for folder in (PACKAGE / floor).iterdir()
        if (folder / "__init__.py").is_file()
    }
    assert sorted(keys_of("room")) == sorted(rooms)


def test_entries_are_in_the_order_of_the_alphabet_and_none_comes_twice() -> None:
    terms = [re.sub(r"[^a-z0-9 ]", "", entry["term"].casefold().replace("-", " ")) for entry in entries()]
    assert terms == sorted(set(terms))


def test_an_entry_that_points_to_another_finds_it() -> None:
    terms = {entry["term"] for entry in entries()}
    pointed = {word for entry in entries() for word in re.findall(r"(?<!\*)\*([^*]+)\*(?!\*)", entry["meaning"])}
    assert pointed
    assert pointed <= terms
