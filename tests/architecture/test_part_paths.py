"""A part has one name inside: the path to it from a club; a second spelling is found here."""

from __future__ import annotations

import ast
import re
import typing

import msgspec
import pytest

from clubwright.belief.causes.cause import SLIP_SIZE
from clubwright.club.earlier import PARTS as KEPT_BEFORE
from clubwright.club.part_paths import CAME, EARLIER, TAPES, WEIGHTS, at_path, without_came
from clubwright.club.parts import Came, Club, Earlier
from clubwright.club.quantities import NEVER_MEASURED
from clubwright.club.quantity import Steered
from clubwright.club.stages import PartName
from clubwright.state.club import ChangeEntry, KnownClub
from clubwright.state.old_parts import CameParts
from clubwright.ticket.fields.fields import CHANGED, SECTIONS
from clubwright.ticket.part_paths import PART_OF_CHANGED, READABLE, REPLACED, place_of
from clubwright.ticket.rows.typed import CAME as READ_OFF
from clubwright.ticket.rows.typed import PARTS as READ_ON
from repository import PACKAGE, source_files, tree

ON = frozenset(Club.__struct_fields__) - {"kind", CAME, EARLIER}
"""The parts of a club, as the mechanics holds them: the one spelling."""

OF_NO_MECHANICS = {"shim"}
"""What is known of a club and has no number in its mechanics."""

LISTS = frozenset({TAPES, WEIGHTS})


def structs_in(hint: typing.Any) -> typing.Iterator[type]:
    """Give the structs that a type names."""
    if isinstance(hint, type) and issubclass(hint, msgspec.Struct):
        yield hint
    for inner in typing.get_args(hint):
        yield from structs_in(inner)


def kind_at(root: type, path: str) -> type:
    """Return the struct that stands at a path of a struct, of a list the struct of its members."""
    found: typing.Any = root
    for step in path.split("."):
        found = next(structs_in(typing.get_type_hints(found)[step]))
    return found


@pytest.mark.parametrize("section", [each for each in SECTIONS if each.part], ids=lambda each: each.name)
def test_the_club_as_it_is_known_and_the_club_of_the_mechanics_have_a_part_under_one_path(section) -> None:
    known, worked = kind_at(KnownClub, section.part), kind_at(Club, section.part)
    assert {field.key for field in section.fields if field.number} <= set(known.__struct_fields__)
    assert {field.number for field in section.fields if field.number} <= set(worked.__struct_fields__)
    assert section.many == (without_came(section.part) in LISTS)


def test_every_part_of_a_club_is_said_of_by_one_table() -> None:
    parts = [section.part for section in SECTIONS if section.part]
    assert len(set(parts)) == len(parts)
    assert set(parts) == {*ON, *(f"{CAME}.{part}" for part in CameParts.__struct_fields__)}


def test_whatever_lists_parts_calls_them_alike() -> None:
    listed = {
        "stages": set(typing.get_args(PartName)),
        "what steers a quantity": set(typing.get_args(Steered)) - {"bends"},
        "what came": {*Came.__struct_fields__, *CameParts.__struct_fields__, *READ_OFF},
        "what was before": {*KEPT_BEFORE, *(set(Earlier.__struct_fields__) & set(CHANGED.keys() | ON))},
        "what changed": set(ChangeEntry.__struct_fields__) & (ON | set(CHANGED)),
        "what comes off": {part for parts in REPLACED.values() for part in parts},
        "what a change keeps": set(PART_OF_CHANGED.values()),
        "what is known": set(KnownClub.__struct_fields__) & (ON | {section.name for section in SECTIONS}),
        "what is read": {*READ_ON, *(without_came(part) for part in READABLE.values())},
        "what is never measured": set(NEVER_MEASURED.values()),
    }
    astray = {name: odd for name, parts in listed.items() if (odd := parts - ON - OF_NO_MECHANICS)}
    assert not astray, f"a club calls its parts {sorted(ON)}"


def test_what_a_slip_is_priced_by_are_numbers_of_parts() -> None:
    for path in SLIP_SIZE:
        assert place_of(path if "." in path else f"{EARLIER}.0.{path}").field is not None


def test_a_path_is_followed_to_a_part_a_list_and_a_number() -> None:
    class Inner(msgspec.Struct):
        mass_kg: float

    class Outer(msgspec.Struct):
        tapes: tuple[Inner, ...]

    outer = Outer((Inner(1.0), Inner(2.0)))
    assert [at_path(outer, path) for path in ("tapes", "tapes.1", "tapes.1.mass_kg")] == [
        outer.tapes,
        outer.tapes[1],
        2.0,
    ]


MAKES_PATHS = "club/part_paths.py"
SPELT = re.compile(rf"^({CAME}|{EARLIER}|{TAPES}|{WEIGHTS})\.($|\w)")


def spelt_by_hand(path: str) -> list[str]:
    """Return where a file writes such a path as a text of its own instead of having it made."""
    texts = (node for node in ast.walk(tree(PACKAGE / path)) if isinstance(node, ast.Constant))
    return [f"{path}:{text.lineno}: {text.value}" for text in texts if SPELT.match(str(text.value))]


def test_a_path_is_spelt_in_one_file() -> None:
    files = [path.relative_to(PACKAGE).as_posix() for path in source_files()]
    astray = [line for path in files if path != MAKES_PATHS for line in spelt_by_hand(path)]
    assert not astray, f"make it with clubwright.{MAKES_PATHS}: " + ", ".join(astray)
