"""The state is typed: its structs and the register of fields have the same keys, and tables of texts stay with importers."""

from __future__ import annotations

import ast
import typing

import pytest

from clubwright.club.quantities import TARGETS
from clubwright.state.order import ByQuantity, Order, OrderWords, Player
from clubwright.state.particulars import Entry, Particulars, StiffnessTyped, said_of
from clubwright.ticket.fields.fields import CHANGED, INSTRUMENT, READING, SECTIONS, TICKET, Field
from clubwright.ticket.rows.typed import KINDS, order_of, parts_of
from repository import PACKAGE, source_files, tree

TABLES = {section.name: section for section in (*SECTIONS, *CHANGED.values())}
NO_STRUCT_OF_THEIR_OWN = {"ticket", "change", READING.name, INSTRUMENT.name}
"""An order, changes, readings and gauges are made by readers of their own."""


def expected(field: Field) -> type | object:
    if field.kind == "table":
        return StiffnessTyped | None
    if field.kind == "gauges":
        return dict[str, str]
    if field.kind not in ("text", "choice", "key"):
        return Entry | None
    return str if field.needed else str | None


BY_QUANTITY = {name for name, kind in KINDS.items() if issubclass(kind, ByQuantity)}
"""Their figures are those of the register of quantities, whatever it lists."""


@pytest.mark.parametrize("name", sorted(set(KINDS) - BY_QUANTITY))
def test_a_struct_has_what_the_register_lists_and_nothing_else(name: str) -> None:
    kind, section = KINDS[name], TABLES[name]
    hints = typing.get_type_hints(kind)
    listed = {field.key: expected(field) for field in section.fields}
    assert {key: hints[key] for key, _ in said_of(kind)} == listed


@pytest.mark.parametrize("name", sorted(BY_QUANTITY))
def test_a_table_of_figures_by_quantity_has_beside_them_the_words_that_the_register_lists(name: str) -> None:
    words = {key for key, _ in said_of(KINDS[name])} - {"figures"}
    numbers = {field.key for field in TABLES[name].fields} - words
    assert numbers <= set(TARGETS)
    assert words == {field.key for field in TABLES[name].fields if field.kind in ("text", "choice", "key")}


def test_an_order_has_what_the_register_lists() -> None:
    hints = typing.get_type_hints(Order)
    listed = {field.key: expected(field) for field in TICKET.fields if field.key != "player"}
    own = {*Particulars.__struct_fields__, "player", "targets", "tolerances", "base"}
    assert {key: kind for key, kind in hints.items() if key not in own} == listed
    assert hints["player"] is Player


def test_the_words_of_an_order_are_those_that_the_register_lists() -> None:
    assert set(OrderWords.__struct_fields__) == {field.key for field in TICKET.fields}


def test_of_many_orders_the_words_are_read_as_typed_and_what_is_no_word_is_left_out() -> None:
    document = {"ticket": {"id": "T-1", "label": " 7 iron ", "player": 3, "unknown": "x"}}
    assert order_of(document) == OrderWords(id="T-1", label=" 7 iron ")
    assert order_of({}) == order_of({"ticket": "T-1"}) == OrderWords()


def test_of_the_parts_of_many_clubs_the_words_are_read_and_no_figure() -> None:
    shaft = {"name": "Larch 120", "family": "larch", "mass": "no mass at all", "stiffness": "from a few readings"}
    club = parts_of({"shaft": shaft, "grip": "heather"}, "ticket T-1")
    assert (club.shaft.name, club.shaft.family, club.shaft.mass) == ("Larch 120", "larch", None)
    assert club.shaft.stiffness == StiffnessTyped(words="from a few readings")
    assert not club.grip.given and not club.came.grip.given


def test_every_table_of_the_ticket_file_has_a_struct() -> None:
    assert set(TABLES) - NO_STRUCT_OF_THEIR_OWN == set(KINDS)


IMPORTERS = ("ticket/", "importers/", "state/", "journal/")
"""They read tables of texts and make structs of them; the journal lays facts on such tables."""


def named_in_code(path: str) -> list[str]:
    """Return where a file asks for a known table or figure by a text, though the struct has an attribute for it."""
    found = []
    for node in ast.walk(tree(PACKAGE / path)):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.args:
            asks = node.func.attr in ("row", "entry", "value") and isinstance(node.args[0], ast.Constant)
            asks = asks and isinstance(node.args[0].value, str)  # type: ignore[attr-defined]
        elif isinstance(node, ast.Subscript) and isinstance(node.value, ast.Attribute):
            asks = node.value.attr in ("numbers", "words") and isinstance(node.slice, ast.Constant)
            asks = asks and isinstance(node.slice.value, str)  # type: ignore[attr-defined]
        else:
            continue
        if asks:
            found.append(f"{path}:{node.lineno}")
    return found


def test_below_the_importers_a_figure_is_an_attribute() -> None:
    files = [path.relative_to(PACKAGE).as_posix() for path in source_files()]
    astray = [line for path in files if not path.startswith(IMPORTERS) for line in named_in_code(path)]
    assert not astray, "take it from the struct: " + ", ".join(astray)


WAYS_IN = {
    "cli/files.py",
    "services/actions/orders/new_ticket.py",
    "services/checks/order_findings.py",
    "services/answer/shop_settings.py",
    "services/actions/orders/ticket_taking.py",
    "web/api/routes.py",
    "web/pages/ticket_new.py",
    "web/ticket_form.py",
    "web/views/ticket_form_view.py",
}
"""The form, a ticket made of words, the shop's settings laid in, the doors where a ticket is taken and its order changed."""


def tables_read(path: str) -> list[str]:
    """Return where a file opens a table of texts: ``x.document``, ``document["..."]``, ``document.get(...)``."""
    found = []
    for node in ast.walk(tree(PACKAGE / path)):
        if isinstance(node, ast.Attribute):
            ours = not (isinstance(node.value, ast.Name) and node.value.id == "tomlkit")
            opened = node.attr in ("get", "items", "setdefault", "pop") and isinstance(node.value, ast.Name)
            opens = (node.attr == "document" and ours) or (opened and node.value.id == "document")  # type: ignore[attr-defined]
        elif isinstance(node, ast.Subscript) and isinstance(node.value, ast.Name):
            opens = node.value.id == "document"
        else:
            continue
        if opens:
            found.append(f"{path}:{node.lineno}")
    return found


def test_below_the_importers_and_the_ways_in_nothing_reads_a_tickets_tables_of_texts() -> None:
    files = sorted({path.relative_to(PACKAGE).as_posix() for path in source_files()} - WAYS_IN)
    astray = [line for path in files if not path.startswith(IMPORTERS) for line in tables_read(path)]
    assert not astray, "read it from the state: " + ", ".join(astray)


def test_every_way_in_is_one() -> None:
    assert [path for path in sorted(WAYS_IN) if not tables_read(path)] == []
