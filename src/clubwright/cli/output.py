"""What commands print: JSON with sorted keys for programs, short lines for people."""

from __future__ import annotations

import json
import re
import sys
import textwrap
import unicodedata
from collections.abc import Iterable, Sequence
from typing import Any

import msgspec


def print_json(body: Any) -> None:
    """Print one answer as JSON, keys sorted, so that the same input gives the same bytes."""
    document = msgspec.to_builtins(body)
    text = json.dumps(document, ensure_ascii=False, indent=2, sort_keys=True, allow_nan=False)
    if not _can_show(text, sys.stdout.encoding):
        text = json.dumps(document, indent=2, sort_keys=True, allow_nan=False)
    sys.stdout.write(_ACTS.sub(lambda found: f"\\u{ord(found[0]):04x}", text) + "\n")


def print_lines(lines: Iterable[str]) -> None:
    """Print lines for a person."""
    for line in lines:
        sys.stdout.write(on_screen(line, sys.stdout.encoding) + "\n")


def print_aside(line: str) -> None:
    """Print a line beside the answer, where errors and warnings go."""
    sys.stderr.write(on_screen(line, sys.stderr.encoding) + "\n")


_ACTS = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u200e\u200f\u202a-\u202e\u2066-\u2069\ud800-\udfff]")
"""Characters that a terminal obeys instead of showing them, or that turn round what stands behind them."""

_IN_ASCII = {"±": "+/-", "×": "x", "−": "-", "–": "-", "—": "-", "·": "*", "≤": "<=", "≥": ">=", "°": " deg", "µ": "u"}


def on_screen(text: str, encoding: str | None) -> str:
    """Return a text as a terminal can show it: what it would obey is spelt out, what it lacks stands in its nearest letters.

    Args:
        text: Any text, with a stranger's names in it.
        encoding: The terminal's; UTF-8 when not known.
    """
    text = _ACTS.sub(lambda found: f"\\x{ord(found[0]):02x}", text)
    if _can_show(text, encoding):
        return text
    return "".join(letter if _can_show(letter, encoding) else _nearest(letter) for letter in text)


def _can_show(text: str, encoding: str | None) -> bool:
    try:
        text.encode(encoding or "utf-8")
    except UnicodeEncodeError:
        return False
    return True


def _nearest(letter: str) -> str:
    plain = unicodedata.normalize("NFKD", letter).replace("\N{FRACTION SLASH}", "/").encode("ascii", "ignore").decode()
    return _IN_ASCII.get(letter) or plain or "?"


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
