"""Times and values from CSV text: `time (s),strain (um/m)`, or one column of values with a stated rate."""

from __future__ import annotations

import io
import re
from math import isfinite

import msgspec
import numpy as np

from clubwright.club.trace.record import Trace
from clubwright.errors import Finding, InputError
from clubwright.notation import Collector
from clubwright.notation.refusal import shown

TIME_UNITS_S = {"s": 1.0, "sec": 1.0, "ms": 1e-3, "us": 1e-6, "µs": 1e-6, "μs": 1e-6}
TIME_NAMES = ("time", "t", "zeit", "timestamp", "seconds")
SAID_SINGLY = 8
"""Findings of lines that are said one by one; the rest are counted."""

_HEADER = "Begin the file with the columns' names and units, such as: time (s),strain (um/m)"
_UNIT = re.compile(r"[\s_]*[\[(]?\s*([A-Za-zµμ]+)\s*[\])]?\s*$")
_DECIMAL_COMMA = re.compile(r"[+-]?\d+,\d+")


class _Layout(msgspec.Struct, frozen=True, kw_only=True):
    """Which cells of a line hold what: number of columns, place of time and its unit, place and name of the value."""

    columns: int
    time: int | None
    time_unit_s: float
    value: int
    name: str


def parse_trace(text: str, source: str, *, rate_hz: float | None = None, column: str | None = None) -> Trace:
    """Return one channel of a CSV text; lines that are blank or begin with # are passed over.

    Cells are parted by semicolons or tabs where the first line has them, else by commas.

    Raises:
        InputError: Every finding, with its line number.
    """
    numbered = [
        (number, line)
        for number, line in enumerate(io.StringIO(text), start=1)
        if line.strip() and not line.lstrip().startswith("#")
    ]
    if not numbered:
        raise InputError([Finding(where=source, what="the file has no lines", mend=_HEADER)])
    parting = next((mark for mark in (";", "\t") if mark in numbered[0][1]), ",")
    rows = [(number, [cell.strip().strip('"') for cell in line.split(parting)]) for number, line in numbered]
    notes = Collector()
    layout, body = _layout(rows, f"{source} line {rows[0][0]}", rate_hz, column, notes)
    notes.raise_if_any()
    assert layout is not None  # else there was a finding
    times, values = _numbers(body, layout, source, notes)
    notes.raise_if_any()
    return Trace(
        values=np.array(values),
        times_s=None if layout.time is None else np.array(times) * layout.time_unit_s,
        rate_hz=None if layout.time is not None else rate_hz,
        source=source,
        channel=layout.name,
    )


def _layout(
    rows: list[tuple[int, list[str]]], where: str, rate_hz: float | None, column: str | None, notes: Collector
) -> tuple[_Layout | None, list[tuple[int, list[str]]]]:
    """Say which column is which, and which rows hold numbers."""
    first = rows[0][1]
    named = any(_number(cell) is None and not _DECIMAL_COMMA.fullmatch(cell) for cell in first)
    if not named and len(first) > 1:
        what = f"{len(first)} columns, and the first line does not name them"
        notes.add(where, what, _HEADER + ". Decimals have a point.")
        return None, []
    names = first if named else ["value"]
    time = next((place for place, name in enumerate(names) if _is_time(name)), None) if len(names) > 1 else None
    unit_s = _time_unit(names[time], where, notes) if time is not None else 1.0
    if time is not None and rate_hz is not None:
        notes.add(where, "the file has times, and a rate is stated too", "Leave the rate out: the times are used.")
    if time is None and rate_hz is None:
        mend = "State the samples a second with --rate, or name a column of times, such as time (s)."
        notes.add(where, "no column of times, and no rate is stated", mend)
    value = _value_place(names, time, column, where, notes)
    if value is None:
        return None, []
    layout = _Layout(columns=len(names), time=time, time_unit_s=unit_s, value=value, name=names[value] or "value")
    return layout, rows[1:] if named else rows


def _is_time(name: str) -> bool:
    word = re.split(r"[\s_\[(]", name.strip().lower(), maxsplit=1)[0]
    return word in TIME_NAMES


def _time_unit(name: str, where: str, notes: Collector) -> float:
    word = re.split(r"[\s_\[(]", name.strip(), maxsplit=1)[0]
    match = _UNIT.fullmatch(name.strip()[len(word) :])
    unit = "s" if word.lower() == "seconds" else (match[1].lower() if match else "")
    if unit not in TIME_UNITS_S:
        notes.add(where, f"the column {name!r} names no unit of time", "Write time (s), time (ms) or time (us).")
        return 1.0
    return TIME_UNITS_S[unit]


def _value_place(names: list[str], time: int | None, column: str | None, where: str, notes: Collector) -> int | None:
    """Return the place of the column of values: the only one, or the one asked for."""
    places = [place for place in range(len(names)) if place != time]
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
    notes.add(where, what, f"Name one with --column: {listed}." if places else _HEADER)
    return None


def _numbers(
    body: list[tuple[int, list[str]]], layout: _Layout, source: str, notes: Collector
) -> tuple[list[float], list[float]]:
    """Read times and values; the first findings are said line by line, the rest counted."""
    times: list[float] = []
    values: list[float] = []
    bad: list[Finding] = []
    for number, cells in body:
        where = f"{source} line {number}"
        if len(cells) != layout.columns:
            mend = f"Give {layout.columns} in each line; decimals have a point, 35.5, not a comma."
            bad.append(Finding(where=where, what=f"{len(cells)} cells for {layout.columns} columns", mend=mend))
            continue
        for place, kept in ((layout.time, times), (layout.value, values)):
            if place is None:
                continue
            read = _number(cells[place])
            if read is None:
                bad.append(_no_number(where, cells[place]))
            else:
                kept.append(read)
    notes.findings += bad[:SAID_SINGLY]
    if len(bad) > SAID_SINGLY:
        what = f"{len(bad) - SAID_SINGLY} more findings of the same kinds, the last in {bad[-1].where}"
        notes.add(source, what, "Mend the first ones; the rest are likely the same.")
    return times, values


def _number(cell: str) -> float | None:
    try:
        found = float(cell)
    except ValueError:
        return None
    return found if isfinite(found) and "_" not in cell else None


def _no_number(where: str, cell: str) -> Finding:
    if _DECIMAL_COMMA.fullmatch(cell):
        mend = f"Write {cell.replace(',', '.')}: decimals have a point."
        return Finding(where=where, what=f"{cell!r} has a decimal comma", mend=mend)
    what = f"{shown(cell)} is no number" if cell else "a cell is empty"
    return Finding(where=where, what=what, mend="Record again, or cut the file to the lines that are whole.")
