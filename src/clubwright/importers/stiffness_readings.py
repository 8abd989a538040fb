"""Readings of a bare shaft at several clamp positions from a CSV file, one reading a line, in trade notation."""

from __future__ import annotations

from pathlib import Path

from clubwright.belief.stiffness.reading import StiffnessReading
from clubwright.importers.csv_rows import csv_rows, header_of, header_refused, named_cells, read_csv_text
from clubwright.notation import Collector, Understood
from clubwright.units import CPM_HZ

COLUMNS = ("clamp", "mass", "frequency", "deflection")
FREQUENCY_SD_HZ = 0.5 * CPM_HZ
DEFLECTION_SD_M = 0.5e-3
"""Gauges of a line that gives no ±: a meter that shows whole cpm, a ruler in mm. Common practice, no source."""

_HEADER = f"Begin the file with the line {','.join(COLUMNS)} (a column that stays empty may be left out)."
_EITHER = "Give one of frequency and deflection in each line, and leave the other cell empty."


def load_stiffness_readings(path: Path, *, insertion_m: float) -> tuple[StiffnessReading, ...]:
    """Return the readings of a file; blank lines are passed over.

    Args:
        path: The file.
        insertion_m: How far the tip sits in the test mass.

    Raises:
        InputError: The file is not there or is no text, or lines cannot be taken: every one, with its number.
    """
    return parse_stiffness_readings(read_csv_text(path), path.name, insertion_m=insertion_m)


def parse_stiffness_readings(text: str, source: str, *, insertion_m: float) -> tuple[StiffnessReading, ...]:
    """Return the readings of a CSV text; arguments and errors as `load_stiffness_readings`."""
    rows = [row for row in csv_rows(text, source) if any(row[1])]
    header = header_of(rows)
    named = set(header) <= set(COLUMNS) and len(set(header)) == len(header)
    if not (named and {"clamp", "mass"} < set(header)):
        raise header_refused(header, source, _HEADER)
    notes = Collector()
    found = [_reading(where, cells, insertion_m, notes) for where, cells in named_cells(rows, source, notes)]
    notes.raise_if_any()
    return tuple(reading for reading in found if reading is not None)


def _reading(where: str, cells: dict[str, str], insertion_m: float, notes: Collector) -> StiffnessReading | None:
    """Read one line; keep its findings and return None when it cannot be taken."""
    clamp = notes.take("length", cells["clamp"], where=f"{where} clamp")
    mass = notes.take("mass", cells["mass"], where=f"{where} mass")
    typed = [name for name in ("frequency", "deflection") if cells.get(name)]
    if len(typed) != 1:
        notes.add(where, "neither frequency nor deflection" if not typed else "both frequency and deflection", _EITHER)
        return None
    read: Understood | None
    if typed[0] == "frequency":
        read, sd = notes.take("frequency", cells["frequency"], where=f"{where} frequency"), FREQUENCY_SD_HZ
    else:
        read, sd = notes.take("length", cells["deflection"], where=f"{where} deflection"), DEFLECTION_SD_M
    if clamp is None or mass is None or read is None:
        return None
    return StiffnessReading(
        where=where,
        kind="frequency" if typed[0] == "frequency" else "deflection",
        value=read.value,
        sd=sd if read.sd is None else read.sd,
        clamp_length_m=clamp.value,
        mass_kg=mass.value,
        insertion_m=insertion_m,
    )
