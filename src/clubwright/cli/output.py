"""What commands print: JSON with sorted keys for programs, short lines for people."""

from __future__ import annotations

import json
import re
import sys
import textwrap
from collections.abc import Iterable, Sequence
from typing import Any

import msgspec


def print_json(body: Any) -> None:
    """Print one answer as JSON, keys sorted, so that the same input gives the same bytes."""
    sys.stdout.write(
        json.dumps(msgspec.to_builtins(body), ensure_ascii=False, indent=2, sort_keys=True, allow_nan=False) + "\n"
    )


def print_lines(lines: Iterable[str]) -> None:
    """Print lines for a person."""
    for line in lines:
        sys.stdout.write(line + "\n")


JOIN = "\N{NO-BREAK SPACE}"
_BESIDE = re.compile(r"(?<=\d) (?=(?:in|mm|g|kg|pt|deg|points?|h|min|C|F|kg cm2|%)\b)")
WIDTH = 100
"""Columns that a screen at the bench has."""


WIDEST = 40
"""Columns that a cell may take before the last one."""


def wrapped(text: str, indent: str = "", hanging: str | None = None) -> list[str]:
    """Break a text at the width of the screen; a value stays beside its unit and uncertainty."""
    lines = textwrap.wrap(
        _BESIDE.sub(JOIN, text.replace(" ± ", JOIN + "±" + JOIN)),
        WIDTH,
        initial_indent=indent,
        subsequent_indent=indent if hanging is None else hanging,
        break_long_words=False,
        break_on_hyphens=False,
    )
    return [line.replace(JOIN, " ") for line in lines]


def table(rows: Iterable[Sequence[str]], gap: int = 2, indent: str = "") -> list[str]:
    """Lay rows out in columns, each as wide as it needs; the last one is broken where the screen ends.

    A cell that is too long for a column stands alone, with the last cell on the lines under it.
    """
    kept = [tuple(row) for row in rows]
    if not kept:
        return []
    widths = [
        max((len(row[column]) for row in kept if len(row[column]) <= WIDEST), default=WIDEST)
        for column in range(len(kept[0]) - 1)
    ]
    start = len(indent) + sum(widths) + gap * len(widths)
    lines: list[str] = []
    for row in kept:
        cells = [cell.ljust(width) for cell, width in zip(row[:-1], widths, strict=True)]
        head, last = indent + "".join(cell + " " * gap for cell in cells), row[-1]
        if len(head) > start:
            lines += wrapped(head.strip(), indent, indent + "    ") + wrapped(last, " " * start)
        elif len(head) + len(last) <= WIDTH:
            lines.append((head + last).rstrip())
        else:
            lines += wrapped(last, head, " " * start)
    return lines
