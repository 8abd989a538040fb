"""Measured grips from a CSV file, one grip a line, in trade notation."""

from __future__ import annotations

import csv
import io
from pathlib import Path

from clubwright.errors import Finding, InputError
from clubwright.notation import Collector
from clubwright.planning.grip_calibration import GripSizeReading, reading_findings

COLUMNS = {"core": "grip_core", "nominal": "diameter", "butt": "diameter", "tape": "length", "measured": "diameter"}
"""Column of the file and the kind of its notation."""

_HEADER = f"Begin the file with the line {','.join(COLUMNS)}, and put commas between the cells."


def load_grip_readings(path: Path) -> tuple[GripSizeReading, ...]:
    """Return the grips of a file; blank lines are passed over.

    Raises:
        InputError: The file is not there or is no text, or lines cannot be taken: every one, with its number.
    """
    try:
        text = path.read_text(encoding="utf-8-sig")
    except FileNotFoundError:
        raise InputError(
            [Finding(where=str(path), what="no such file", mend="Check the name and the folder.")]
        ) from None
    except UnicodeDecodeError as error:
        what = f"not a text file: byte {error.start} cannot be read"
        raise InputError([Finding(where=path.name, what=what, mend="Save it as CSV in UTF-8.")]) from None
    return parse_grip_readings(text, path.name)


def parse_grip_readings(text: str, source: str = "grips") -> tuple[GripSizeReading, ...]:
    """Return the grips of a CSV text; errors as `load_grip_readings`."""
    lines = csv.reader(io.StringIO(text, newline=""))
    try:
        rows = [(lines.line_num, cells) for cells in lines]
    except csv.Error as refused:
        mend = "Look for a quote that is opened and not closed."
        raise InputError([Finding(where=f"{source} line {lines.line_num}", what=str(refused), mend=mend)]) from None
    header = [cell.strip().lower() for cell in rows[0][1]] if rows else []
    if sorted(header) != sorted(COLUMNS):
        what = f"the first line is {','.join(header)!r}" if header else "the file is empty"
        raise InputError([Finding(where=f"{source} line 1", what=what, mend=_HEADER)])
    notes, found = Collector(), []
    for number, cells in rows[1:]:
        if not any(cell.strip() for cell in cells):
            continue
        where = f"{source} line {number}"
        if len(cells) != len(header):
            mend = f"Give each of {', '.join(header)}; write 35.5, not 35,5."
            notes.add(where, f"{len(cells)} cells where there are {len(header)} columns", mend)
            continue
        found.append(_reading(where, dict(zip(header, cells, strict=True)), notes))
    notes.raise_if_any()
    return tuple(reading for reading in found if reading is not None)


def _reading(where: str, cells: dict[str, str], notes: Collector) -> GripSizeReading | None:
    """Read one line; keep its findings and return None when it cannot be taken."""
    read = {name: notes.take(kind, cells[name].strip(), where=f"{where} {name}") for name, kind in COLUMNS.items()}
    values = {name: item.value for name, item in read.items() if item is not None}
    if len(values) < len(COLUMNS):
        return None
    reading = GripSizeReading(
        core_m=values["core"],
        nominal_m=values["nominal"],
        butt_m=values["butt"],
        tape_thickness_m=values["tape"],
        measured_m=values["measured"],
    )
    impossible = reading_findings(where, reading)
    notes.findings += impossible
    return None if impossible else reading
