"""What the benchmark of the page counts: readings of the tablets that are lost or doubled, and not those of the demo."""

from __future__ import annotations

import re
import sys

import pytest

from repository import ROOT

sys.path.insert(0, str(ROOT / "benchmarks"))

from web import lost_and_doubled

PAGE = (ROOT / "benchmarks" / "README.md").read_text(encoding="utf-8")
FIGURE = re.compile(r"(?<![\w.])(\d+(?:\.\d+)?)(?= (?:%|ms|s|kB|points|pt)(?![\w-]))")
"""A number with a unit of the tables."""


@pytest.mark.parametrize(
    ("before", "after", "lost", "doubled"),
    [
        (["demo-1", "demo-2"], ["demo-1", "demo-2", "a", "b"], 0, 0),
        (["demo-1", "demo-2"], ["demo-1", "demo-2", "a"], 1, 0),
        (["demo-1"], ["demo-1", "a", "b", "b again"], 0, 1),
        ([], ["a", "a"], 1, 1),
    ],
)
def test_only_what_the_tablets_sent_counts(before: list[str], after: list[str], lost: int, doubled: int) -> None:
    assert lost_and_doubled(before, after, {"a", "b"}) == (lost, doubled)


def test_every_figure_that_the_page_speaks_of_stands_in_its_tables() -> None:
    """From the first table on; what a bench is assumed to be stands before it."""
    seen = PAGE[PAGE.index("## What was seen") :]
    tables = "\n".join(line for line in seen.splitlines() if line.startswith("|"))
    prose = "\n".join(line for line in seen.splitlines() if not line.startswith("|"))
    known = set(re.findall(r"\d+(?:\.\d+)?", tables))
    missing = sorted({number for number in FIGURE.findall(prose) if number not in known})
    assert not missing, f"in the text and in no table: {missing}"
