"""Modules hand each other data, and words are made last: nothing takes a text of ours apart to learn what it was made of."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

from clubwright.state.steps import STEPS
from repository import PACKAGE, source_files, tree

READERS = ("notation/", "importers/", "devices/", "ticket/shorthand")
"""They read what somebody else wrote: trade notation, files, lines of gauges, the words of an order."""

OF_OTHERS: dict[str, str] = {
    "api/given.py": "a ticket as a program gives it: its text, or a path",
    "bootstrap.py": "the address of a database",
    "cli/main.py": "a command line",
    "cli/options.py": "a command line",
    "cli/output.py": "a line of any text, laid out: where it may break",
    "journal/erasing.py": "a person's name, in texts that persons wrote",
    "labels/tag/from_work.py": "which way a logo looks, as a person wrote it",
    "labels/typesetting.py": "what the typesetter says of an error",
    "planning/bending/metals.py": "a metal as a person wrote it",
    "services/actions/orders/renumbering.py": "the name of a bench",
    "services/record/done_at.py": "a time as a person types it",
    "services/record/search.py": "the words of a search",
    "services/why/key.py": "the key of a number, which is an address",
    "store/guards.py": "what SQLite says that a record is made of",
    "store/index/words.py": "texts to be searched, word by word",
    "ticket/fields/printer.py": "a command line, as the shop writes it",
    "ticket/fields/shapes.py": "two densities in one text of a ticket file",
    "ticket/rows/rows.py": "a key as a person writes it",
    "ticket/shorthand/promised.py": "the words in which a day was promised",
    "ticket/ticket_number.py": "a ticket number as a person chose it",
    "web/errors.py": "the path of an address",
    "web/guard/access.py": "a cookie",
    "web/guard/csrf.py": "the name of a host, a cookie",
    "web/guard/headers.py": "the path of an address",
    "web/rendering.py": "the path of an address",
    "web/security.py": "the path of an address, a header",
    "web/sent.py": "what a form of the page sent",
    "web/session.py": "the path of an address",
    "web/theory_html.py": "a page written in Markdown, and the addresses in it",
    "web/typed.py": "the names of the fields of a form",
    "web/units_first.py": "the path of an address",
}
"""Files that read a text of somebody else, or of a person, and what it is."""

OF_RECORDS: dict[str, str] = {
    "belief/unknowns.py": "the name of what a gauge adds",
    "club/part_paths.py": "the path of a part and of its numbers",
    "journal/action_keys.py": "the idempotency key of an action",
    "journal/chain.py": "the form of a moment",
    "journal/names.py": "a ticket number with its bench",
    "journal/seen.py": "how far somebody had seen, in a form",
    "journal/text_paths.py": "where a text stands in a fact",
    "journal/times.py": "a moment",
    "ticket/field_names.py": "the name of a figure of a ticket",
    "ticket/order_paths.py": "the path of a figure of an order",
}
"""Spellings that stand in old records or on a page's forms: each is written and read in one file, everybody else asks it."""

METHODS = {"partition", "rpartition", "split", "rsplit", "splitlines", "startswith", "endswith"}
METHODS |= {"removeprefix", "removesuffix", "find", "rfind", "rindex"}
PATTERNS = {"match", "fullmatch", "search", "sub", "subn", "finditer", "findall"}
"""What a pattern does with a text; counted in a file that has patterns at all."""

KEYS = {*STEPS, "cannot tell"}
"""Keys of registers that hold a space: such a key in a set is no piece of a sentence."""


def is_piece(item: ast.expr) -> bool:
    """True for a text that is no key: a piece of a sentence, of an address, of a path."""
    if not isinstance(item, ast.Constant) or not isinstance(item.value, str):
        return False
    return not re.fullmatch("[a-z0-9_]+([.][a-z0-9_]+)*", item.value) and item.value not in KEYS


def looks_for_a_piece(node: ast.Compare) -> bool:
    """True for ``"piece" in text``."""
    if not isinstance(node.ops[0], ast.In | ast.NotIn):
        return False
    looked_at = node.comparators[0]
    folded = isinstance(looked_at, ast.Call) and isinstance(looked_at.func, ast.Attribute)
    folded = folded and looked_at.func.attr in ("lower", "casefold")  # type: ignore[attr-defined]
    return is_piece(node.left) or (folded and isinstance(node.left, ast.Constant))


def cuts_a_moment(node: ast.Subscript) -> bool:
    """True for ``fact.at[:16]``: a moment is a text of the record too."""
    name = node.value.attr if isinstance(node.value, ast.Attribute) else getattr(node.value, "id", "")
    upper = node.slice.upper if isinstance(node.slice, ast.Slice) else None
    to_the = isinstance(upper, ast.Constant) and upper.value in (len("2026-12-24"), len("2026-12-24T12:00"))
    return to_the and (name in ("at", "came") or name.endswith("_at"))


def taken_apart(module: ast.Module) -> list[int]:
    """Return the lines on which a module takes a text apart."""
    nodes = list(ast.walk(module))
    patterns = any(isinstance(node, ast.Import) and node.names[0].name == "re" for node in nodes)
    wrong = METHODS | PATTERNS if patterns else METHODS
    found = []
    for node in nodes:
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
            apart = node.func.attr in wrong
        elif isinstance(node, ast.Compare):
            apart = looks_for_a_piece(node)
        else:
            apart = isinstance(node, ast.Subscript) and cuts_a_moment(node)
        if apart:
            found.append(node.lineno)  # type: ignore[attr-defined]
    return sorted(found)


def is_open(path: str) -> bool:
    """True for a file that the law holds for."""
    return not path.startswith(READERS) and path not in OF_OTHERS and path not in OF_RECORDS


def name_of(path: Path) -> str:
    return path.relative_to(PACKAGE).as_posix()


def test_no_text_is_taken_apart() -> None:
    lines = {name_of(path): taken_apart(tree(path)) for path in source_files() if is_open(name_of(path))}
    found = {path: places for path, places in lines.items() if places}
    assert not found, f"hand on the data that the text was made of: {found}"


TEMPLATES = sorted((PACKAGE / "web" / "templates").rglob("*.html"))
OF_A_TEMPLATE = re.compile(rf"[.](?:{'|'.join(sorted(METHODS))})[(]|[.](?:at|came|[a-z]+_at)\[")


def test_no_template_takes_a_text_apart() -> None:
    """But for the path of the page's own address, by which its place in the map is marked."""
    own = "path.startswith(address)"
    found = {name_of(path): OF_A_TEMPLATE.findall(path.read_text().replace(own, "")) for path in TEMPLATES}
    assert not {name: places for name, places in found.items() if places}
    assert OF_A_TEMPLATE.search("{{ item.at[:16] }}")
    assert OF_A_TEMPLATE.search("{{ text.split(':')[0] }}")


@pytest.mark.parametrize("path", sorted({*OF_OTHERS, *OF_RECORDS}))
def test_a_file_that_may_take_texts_apart_does(path: str) -> None:
    assert taken_apart(tree(PACKAGE / path)), "take it out of the list"


@pytest.mark.parametrize(
    "planted",
    [
        'section, _, key = finding.where.partition(".")',
        'figure = text.split(";")[0]',
        'if quantity.startswith("old_"): pass',
        'name.removesuffix("_kg")',
        'at = text.find(": ")',
        'import re\nre.search(" ([0-9]+)$", finding.where)',
        'import re\n_PLACE = re.compile("a")\n_PLACE.fullmatch(finding.where)',
        'asks = "counted from" in finding.what',
        'lead = "lead" in weight.name.casefold()',
        'section = "." not in name',
        "minute = line.at[:16]",
    ],
)
def test_the_law_sees_a_text_taken_apart(planted: str) -> None:
    assert taken_apart(ast.parse(planted))


@pytest.mark.parametrize(
    "plain",
    [
        'done = "mark and cut" in job.steps_done',
        'given = "mass" in row.numbers',
        "jobs.search(words)",
        "some = names[:3]",
        "some = latest_at[:40]",
    ],
)
def test_the_law_sees_no_text_where_none_is(plain: str) -> None:
    assert not taken_apart(ast.parse(plain))
