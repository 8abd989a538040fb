"""What commands print: JSON with sorted keys for programs, short lines for people."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterable, Mapping, Sequence
from typing import Any


def print_json(body: Mapping[str, Any] | list[Any]) -> None:
    """Print one JSON value, keys sorted, so that the same input gives the same bytes."""
    sys.stdout.write(json.dumps(body, ensure_ascii=False, indent=2, sort_keys=True, allow_nan=False) + "\n")


def print_lines(lines: Iterable[str]) -> None:
    """Print lines for a person."""
    for line in lines:
        sys.stdout.write(line + "\n")


def table(rows: Iterable[Sequence[str]], gap: int = 2) -> list[str]:
    """Lay rows out in columns, each as wide as it needs."""
    kept = [tuple(row) for row in rows]
    if not kept:
        return []
    widths = [max(len(row[column]) for row in kept) for column in range(len(kept[0]))]
    return [
        (" " * gap).join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in kept
    ]
