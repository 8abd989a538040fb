"""Lines of a CSV text with their numbers, and their cells by the name of the column."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Sequence
from pathlib import Path

from clubwright.errors import Finding, InputError
from clubwright.importers.opening import opening
from clubwright.notation import Collector

Row = tuple[int, list[str]]
"""Number of the line, and its cells without the blanks around them."""


def read_csv_text(path: Path) -> str:
    """Return a CSV file's text.

    Raises:
        InputError: when the file is not there, is a folder, or is no text.
    """
    with opening(path, name="Name the file.", save="Save it as CSV in UTF-8."):
        return path.read_text(encoding="utf-8-sig")


def csv_rows(text: str, source: str) -> list[Row]:
    """Return every line of a text, blank ones too.

    Raises:
        InputError: when the quotes do not match.
    """
    lines = csv.reader(io.StringIO(text, newline=""))
    try:
        return [(lines.line_num, [cell.strip() for cell in cells]) for cells in lines]
    except csv.Error as refused:
        mend = "Look for a quote that is opened and not closed."
        raise InputError([Finding(where=f"{source} line {lines.line_num}", what=str(refused), mend=mend)]) from None


def header_of(rows: Sequence[Row]) -> list[str]:
    """Return the names in the first line, in small letters; none where there is no line."""
    return [cell.lower() for cell in rows[0][1]] if rows else []


def header_refused(header: Sequence[str], source: str, mend: str) -> InputError:
    """Say that the first line does not name the columns."""
    what = f"the first line is {','.join(header)!r}" if header else "the file is empty"
    return InputError([Finding(where=f"{source} line 1", what=what, mend=mend)])


def named_cells(rows: Sequence[Row], source: str, notes: Collector) -> Iterator[tuple[str, dict[str, str]]]:
    """Yield the place and the cells by column of each line below the first; a line of another length is a finding."""
    header = header_of(rows)
    for number, cells in rows[1:]:
        if not any(cells):
            continue
        where = f"{source} line {number}"
        if len(cells) != len(header):
            mend = f"Give each of {', '.join(header)}; write 35.5, not 35,5."
            notes.add(where, f"{len(cells)} cells where there are {len(header)} columns", mend)
            continue
        yield where, dict(zip(header, cells, strict=True))
