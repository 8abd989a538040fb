"""Where the numbers of a recorded CSV begin and which column is which: loggers put lines of their own before the names.

The first lines decide: numbers begin where lines of equally many cells hold numbers only, and the names are the last line
above them that holds none. A line of units may stand between.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator, Sequence
from math import isfinite

import msgspec

from clubwright.notation import Collector

Line = tuple[int, str]
"""Number of a line in its file, and the line."""

TIME_UNITS_S = {"s": 1.0, "sec": 1.0, "ms": 1e-3, "us": 1e-6, "µs": 1e-6, "μs": 1e-6, "ns": 1e-9}
TIME_NAMES = ("time", "t", "zeit", "timestamp", "seconds", "elapsed")
HEAD_LINES = 200
"""Lines that are looked at for where the numbers begin."""
PARTINGS = (";", "\t", ",")

HEADER = "Begin the file with the columns' names and units, such as: time (s),strain (um/m)"
_UNIT = re.compile(r"[\s_]*[\[(]?\s*([A-Za-zµμ]+)\s*[\])]?\s*$")
_NUMBER = re.compile(r"[+-]?(\d+([.,]\d*)?|[.,]\d+)([eE][+-]?\d+)?", re.ASCII)


class Layout(msgspec.Struct, frozen=True, kw_only=True):
    """Which cells of a line hold what.

    Attributes:
        parting: What parts the cells.
        columns: How many there are.
        time: Place of the time; None where there is none.
        time_unit_s: Its unit.
        value: Place of the value.
        name: Name of the value's column.
        body: Place of the first line of numbers among those that were looked at.
    """

    parting: str
    columns: int
    time: int | None
    time_unit_s: float
    value: int
    name: str
    body: int


def cells_of(line: str, parting: str) -> list[str]:
    """Return the cells of a line without the blanks and quotes around them."""
    if '"' in line:
        parted = next(csv.reader([line.strip()], delimiter=parting), [])
        return [cell.strip().strip('"') for cell in parted]
    return [cell.strip() for cell in line.split(parting)]


def number_of(cell: str, decimal: str = ".") -> float | None:
    """Return a finite number; None for anything else."""
    if not _NUMBER.fullmatch(cell) or (decimal == "." and "," in cell):
        return None
    found = float(cell.replace(",", "."))
    return found if isfinite(found) else None


def layout_of(
    head: Sequence[Line], source: str, rate_hz: float | None, column: str | None, notes: Collector
) -> Layout | None:
    """Say which column is which; None with a finding where that cannot be said.

    Args:
        head: The first lines of the file that are not blank and no remark; at least one.
        source: Name of the file.
        rate_hz: Samples a second, where it is stated.
        column: Name of the wanted column, where one is.
        notes: Takes the findings.
    """
    parting, first = _numbers_begin(head)
    rows = [cells_of(line, parting) for _, line in head[: first + 1]]
    names_at, names = _names_above(rows, first)
    where = f"{source} line {head[max(names_at, 0)][0]}"
    if names_at < 0 and len(names) > 1:
        what = f"{len(names)} columns, and the first line does not name them"
        notes.add(where, what, HEADER + ". Decimals have a point.")
        return None
    time = next((place for place, name in enumerate(names) if _is_time(name)), None) if len(names) > 1 else None
    unit_s = _time_unit(names[time], where, notes) if time is not None else 1.0
    if time is not None and rate_hz is not None:
        notes.add(where, "the file has times, and a rate is stated too", "Leave the rate out: the times are used.")
    if time is None and rate_hz is None:
        mend = "State the samples a second with --rate, or name a column of times, such as time (s)."
        notes.add(where, "no column of times, and no rate is stated", mend)
    value = _value_place(names, time, column, where, notes)
    if value is None:
        return None
    return Layout(
        parting=parting,
        columns=len(names),
        time=time,
        time_unit_s=unit_s,
        value=value,
        name=names[value] or "value",
        body=first,
    )


def _numbers_begin(head: Sequence[Line]) -> tuple[str, int]:
    """Return what parts the cells, and the place of the first line of numbers; the second line where there is none."""
    for parting in PARTINGS:
        rows = [cells_of(line, parting) for _, line in head]
        for place, row in enumerate(rows):
            after = rows[place : place + 3]
            if len(row) > 1 and all(len(other) == len(row) and _all_numbers(other, parting) for other in after):
                return parting, place
    for place, (_, line) in enumerate(head):
        if number_of(line.strip().strip('"')) is not None and all(
            number_of(other.strip().strip('"')) is not None for _, other in head[place : place + 3]
        ):
            return ",", place
    parting = next((mark for mark in PARTINGS if mark in head[0][1]), ",")
    return parting, 0 if _all_numbers(cells_of(head[0][1], parting), parting) else 1


def _all_numbers(row: Sequence[str], parting: str) -> bool:
    decimal = "." if parting == "," else ","
    return any(row) and all(not cell or number_of(cell, decimal) is not None for cell in row)


def _names_above(rows: Sequence[list[str]], first: int) -> tuple[int, list[str]]:
    """Return the place of the names, -1 where there are none, and the names with their units."""
    wide = len(rows[first]) if first < len(rows) else len(rows[0])
    above = [
        place
        for place in range(min(first, len(rows)))
        if any(rows[place]) and all(number_of(cell, ",") is None for cell in rows[place])
    ]
    fits = [place for place in above if len(rows[place]) == wide]
    if fits:
        last = fits[-1]
        before = rows[fits[-2]] if fits[-2:-1] == [last - 1] else []
        if any(map(_is_time, before)) and not any(map(_is_time, rows[last])):
            return fits[-2], [f"{name} {unit}".strip() for name, unit in zip(before, rows[last], strict=True)]
        return last, rows[last]
    if above and (wide > 1 or len(rows[above[-1]]) == 1):
        return above[-1], rows[above[-1]]
    return -1, ["value"] if wide == 1 else [""] * wide


def _is_time(name: str) -> bool:
    word = re.split(r"[\s_\[(]", name.strip().lower(), maxsplit=1)[0]
    return word in TIME_NAMES


def _time_unit(name: str, where: str, notes: Collector) -> float:
    word = re.split(r"[\s_\[(]", name.strip(), maxsplit=1)[0]
    match = _UNIT.fullmatch(name.strip()[len(word) :])
    unit = "s" if word.lower() == "seconds" else (match[1].lower() if match else "")
    if unit not in TIME_UNITS_S:
        mend = "Write time (s), time (ms), time (us) or time (ns)."
        notes.add(where, f"the column {name!r} names no unit of time", mend)
        return 1.0
    return TIME_UNITS_S[unit]


def _value_place(names: list[str], time: int | None, column: str | None, where: str, notes: Collector) -> int | None:
    """Return the place of the column of values: the only one, or the one asked for."""
    places = [place for place, name in enumerate(names) if place != time and (name or len(names) == 1)]
    listed = ", ".join(repr(names[place]) for place in places)
    if column is not None:
        wanted = column.strip().lower()
        found = [place for place in places if names[place].lower() == wanted]
        found = found or [place for place in places if names[place].lower().startswith(wanted)]
        if len(found) == 1:
            return found[0]
        notes.add(where, f"{len(found) or 'no'} columns are called {column!r}", f"Name one of {listed}.")
        return None
    if len(places) == 1:
        return places[0]
    what = f"{len(places)} columns of values" if places else "no column of values"
    notes.add(where, what, f"Name one with --column: {listed}." if places else HEADER)
    return None


def told(lines: Iterator[Line]) -> Iterator[Line]:
    """Pass over lines that are blank or a remark."""
    return ((number, line) for number, line in lines if line.strip() and not line.lstrip().startswith("#"))
