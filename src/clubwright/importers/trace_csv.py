"""Times and values from CSV: `time (s),strain (um/m)`, or one column of values with a stated rate; read line by line."""

from __future__ import annotations

from array import array
from collections.abc import Iterator
from itertools import chain, islice
from typing import TextIO

import numpy as np

from clubwright.club.trace.record import MOST_SAMPLES, Trace
from clubwright.errors import Finding, InputError
from clubwright.importers.trace_layout import HEAD_LINES, HEADER, Layout, Line, cells_of, layout_of, number_of, told
from clubwright.notation import Collector
from clubwright.notation.refusal import shown

SAID_SINGLY = 8
"""Findings of lines that are said one by one; the rest are counted."""
LONGEST_LINE = 64 * 1024
"""Characters: no logger has as many columns."""
_SHORTER = "Cut the file to the swing: from before the pluck until it has died away."


def read_csv(file: TextIO, source: str, *, rate_hz: float | None = None, column: str | None = None) -> Trace:
    """Return one channel of a CSV file; lines that are blank or begin with # are passed over, and so is a logger's preamble.

    Cells are parted by semicolons, tabs or commas. Where commas do not part them, decimals may have a comma.

    Raises:
        InputError: Every finding, with its line number.
    """
    lines = told(_lines(file, source))
    head = list(islice(lines, HEAD_LINES))
    if not head:
        raise InputError([Finding(where=source, what="the file has no lines", mend=HEADER)])
    notes = Collector()
    layout = layout_of(head, source, rate_hz, column, notes)
    notes.raise_if_any()
    assert layout is not None  # else there was a finding
    body = _Body(layout, source)
    for number, line in chain(head[layout.body :], lines):
        body.take(number, line)
    notes.findings += body.findings()
    notes.raise_if_any()
    return Trace(
        values=np.frombuffer(body.values, dtype=np.float64) if body.values else np.empty(0),
        times_s=None if layout.time is None else np.array(body.times, dtype=np.float64) * layout.time_unit_s,
        rate_hz=None if layout.time is not None else rate_hz,
        source=source,
        channel=layout.name,
    )


def _lines(file: TextIO, source: str) -> Iterator[Line]:
    number = 0
    while line := file.readline(LONGEST_LINE):
        number += 1
        if len(line) == LONGEST_LINE and not line.endswith("\n"):
            what = f"{shown(line)} goes on for more than {LONGEST_LINE} characters"
            raise InputError(
                [Finding(where=f"{source} line {number}", what=what, mend="Save it as CSV, a sample a line.")]
            )
        yield number, line


class _Body:
    """The numbers below the names; as many are kept as are used, whatever the length of the file."""

    def __init__(self, layout: Layout, source: str) -> None:
        self.layout, self.source = layout, source
        self.values, self.times = array("d"), array("d")
        self._said: list[Finding] = []
        self._more, self._last = 0, ""
        self._start: int | None = None
        self._decimal = ""

    def take(self, number: int, line: str) -> None:
        """Read one line."""
        layout, where = self.layout, f"{self.source} line {number}"
        if len(self.values) >= MOST_SAMPLES:
            what = f"there are more than {MOST_SAMPLES} samples"
            raise InputError([*self.findings(), Finding(where=where, what=what, mend=_SHORTER)])
        cells = cells_of(line, layout.parting)
        if len(cells) == layout.columns + 1 and not cells[-1]:
            cells.pop()
        if len(cells) != layout.columns:
            mend = f"Give {layout.columns} in each line; decimals have a point, 35.5, not a comma."
            what = f"{len(cells)} cells for {layout.columns} columns"
            self._add(Finding(where=where, what=what, mend=mend))
            return
        if layout.time is not None:
            self._keep(self.times, where, cells[layout.time], whole=True)
        self._keep(self.values, where, cells[layout.value], whole=False)

    def _keep(self, kept: array[float], where: str, cell: str, *, whole: bool) -> None:
        mark = "," if "," in cell else "." if "." in cell else ""
        read = number_of(cell, "." if self.layout.parting == "," else ",")
        if read is None or (mark and self._decimal not in ("", mark)):
            self._add(_no_number(where, cell, mixed=read is not None))
            return
        self._decimal = self._decimal or mark
        if whole and not mark and cell.lstrip("+-").isdecimal():
            # a clock that counts nanoseconds from 1970 has more digits than a floating-point number
            self._start = int(cell) if self._start is None and not kept else self._start
            read = float(int(cell) - (self._start or 0))
        elif whole and self._start:
            read -= self._start
        kept.append(read)

    def _add(self, finding: Finding) -> None:
        if len(self._said) < SAID_SINGLY:
            self._said.append(finding)
        else:
            self._more, self._last = self._more + 1, str(finding.where)

    def findings(self) -> list[Finding]:
        """Return the first findings, and how many more there are."""
        if not self._more:
            return self._said
        what = f"{self._more} more findings of the same kinds, the last in {self._last}"
        mend = "Mend the first ones; the rest are likely the same."
        return [*self._said, Finding(where=self.source, what=what, mend=mend)]


def _no_number(where: str, cell: str, *, mixed: bool) -> Finding:
    if mixed:
        what = f"{cell!r} has another decimal mark than the numbers before it"
        return Finding(
            where=where, what=what, mend="Write all with a point, or all with a comma, and none for thousands."
        )
    if "," in cell:
        what = f"{cell!r} has a decimal comma"
        return Finding(where=where, what=what, mend=f"Write {cell.replace(',', '.')}, or part the cells by semicolons.")
    what = f"{shown(cell)} is no number" if cell else "a cell is empty"
    return Finding(where=where, what=what, mend="Record again, or cut the file to the lines that are whole.")
