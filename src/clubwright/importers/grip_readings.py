"""Measured grips from a CSV file, one grip a line, in trade notation."""

from __future__ import annotations

from pathlib import Path

from clubwright.importers.csv_rows import csv_rows, header_of, header_refused, named_cells, read_csv_text
from clubwright.notation import Collector
from clubwright.planning.grip.calibration import GripSizeReading, reading_findings

COLUMNS = {"core": "grip_core", "nominal": "diameter", "butt": "diameter", "tape": "length", "measured": "diameter"}
"""Column of the file and the kind of its notation."""

_HEADER = f"Begin the file with the line {','.join(COLUMNS)}, and put commas between the cells."


def load_grip_readings(path: Path) -> tuple[GripSizeReading, ...]:
    """Return the grips of a file; blank lines are passed over.

    Raises:
        InputError: The file is not there or is no text, or lines cannot be taken: every one, with its number.
    """
    return parse_grip_readings(read_csv_text(path), path.name)


def parse_grip_readings(text: str, source: str = "grips") -> tuple[GripSizeReading, ...]:
    """Return the grips of a CSV text; errors as `load_grip_readings`."""
    rows = csv_rows(text, source)
    header = header_of(rows)
    if sorted(header) != sorted(COLUMNS):
        raise header_refused(header, source, _HEADER)
    notes = Collector()
    found = [_reading(where, cells, notes) for where, cells in named_cells(rows, source, notes)]
    notes.raise_if_any()
    return tuple(reading for reading in found if reading is not None)


def _reading(where: str, cells: dict[str, str], notes: Collector) -> GripSizeReading | None:
    """Read one line; keep its findings and return None when it cannot be taken."""
    read = {name: notes.take(kind, cells[name], where=f"{where} {name}") for name, kind in COLUMNS.items()}
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
