"""Which gauge measured a figure of a part, what that makes its doubt, and what it shares with all that gauge measured.

A figure whose gauge is named has the doubt of that gauge; one typed with ± its own; any other the usual doubt of its field.
Derivation: docs/theory/belief.md; checked in tests/published/test_published_scale_error.py.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from clubwright.belief.instruments import Instrument
from clubwright.belief.readings import Reading
from clubwright.belief.shared_errors import SharedError
from clubwright.belief.unknowns import bias_name, rounding_name
from clubwright.club.part_paths import earlier_path
from clubwright.errors import Finding
from clubwright.state.gauge import Gauge
from clubwright.state.particulars import Entry, Particulars
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields.fields import Field, Section
from clubwright.ticket.fields.figures import usual_sd
from clubwright.ticket.rows.rows import Row

Slopes = Mapping[str, float]
"""How the numbers of a part depend on one measured figure, by their paths."""


def named_gauge(row: Particulars, key: str) -> str:
    """Return the name of the gauge that measured a figure; empty where nobody said it."""
    gauges: Mapping[str, str] = getattr(row, "gauges", {})
    return gauges.get(key, "")


def instrument_of(gauge: Gauge, entry: Entry) -> Instrument:
    """Return a gauge as far as one figure is concerned; an uncertainty typed behind it stands in for the gauge's own."""
    if entry.sd is not None:
        return Instrument(name=gauge.name, resolution=0.0, repeatability=0.0, stated=entry.sd)
    return Instrument(name=gauge.name, resolution=gauge.resolution, repeatability=gauge.repeatability, bias=gauge.bias)


def gauge_of_figure(ticket: Ticket, row: Particulars, key: str) -> Instrument | None:
    """Return what measured a figure of a part; None where no gauge is named, or there is no such figure."""
    entry, gauge = row.entry(key), ticket.gauges.get(named_gauge(row, key))
    return None if entry is None or gauge is None else instrument_of(gauge, entry)


def doubt_of(ticket: Ticket, row: Particulars, field: Field, entry: Entry) -> float:
    """Return the standard uncertainty of a figure: typed, else of its gauge, else the usual one."""
    if entry.sd is not None:
        return entry.sd
    gauge = gauge_of_figure(ticket, row, field.key)
    return usual_sd(field, entry.value) if gauge is None else gauge.uncertainty()


class FirstMeasured(NamedTuple):
    """A figure that stands in the table of its part.

    Attributes:
        gauge: What measured it.
        slopes: How the numbers of the part depend on it.
        figure: What a further measuring of it is a reading of; empty where none can be of the same.
    """

    gauge: Instrument
    slopes: Slopes
    figure: str


class Gauged(dict[str, FirstMeasured]):
    """Figures of parts whose gauge is named, by the path of the number that each gives."""

    def note(self, gauge: Instrument | None, path: str, share: float = 1.0, *, figure: str | None = None) -> None:
        """Note what measured a figure; nothing where that is not known.

        Args:
            gauge: The gauge.
            path: The number of the part that the figure gives.
            share: How far that number moves with the figure.
            figure: What a further measuring is a reading of, where that is not the number itself.
        """
        if gauge is not None:
            self[path] = FirstMeasured(gauge, {path: share}, path if figure is None else figure)

    def depend(self, slopes: Mapping[str, Slopes]) -> None:
        """Say that figures move more numbers than their own, by first derivatives."""
        for path in self.keys() & slopes.keys():
            self[path] = self[path]._replace(slopes=slopes[path])

    def take(self, others: Gauged, place: int) -> None:
        """Take in the figures of parts that were on before a change of the club, 0 the first."""
        for path, first in others.items():
            then = {earlier_path(place, other): slope for other, slope in first.slopes.items()}
            self[earlier_path(place, path)] = FirstMeasured(first.gauge, then, earlier_path(place, first.figure))

    def errors(self, readings: Sequence[Reading]) -> list[SharedError]:
        """Return what several figures, or a figure and its further measurements, have in common.

        Args:
            readings: Of the ticket; those of a figure by the gauge that measured it first share its rounding.
        """
        return [error for path, first in self.items() for error in _errors(path, first, readings)]

    def gauges(self) -> dict[str, Instrument]:
        """Return what measured each figure first."""
        return {first.figure: first.gauge for first in self.values() if first.figure}


def _errors(path: str, first: FirstMeasured, readings: Sequence[Reading]) -> Iterator[SharedError]:
    gauge, slopes, figure = first
    if gauge.bias > 0:
        yield SharedError(bias_name(gauge.name, figure or path), gauge.bias, slopes)
    shared = shared_again(gauge, figure, readings)
    if shared > 0:
        yield SharedError(rounding_name(gauge.name, figure), math.sqrt(shared), slopes)


def shared_again(gauge: Instrument, figure: str, readings: Sequence[Reading]) -> float:
    """Return the variance of the rounding that the first measuring of a figure has in common with further ones."""
    again = [
        reading.instrument.shared_variance
        for reading in readings
        if reading.quantity == figure and reading.instrument.name == gauge.name and reading.keep is not False
    ]
    return min([gauge.shared_variance, *again]) if again else 0.0


def kinds_measured(rows: Iterable[tuple[Section, Row]]) -> dict[str, set[str]]:
    """Return what kinds of figures of parts each gauge measured, by its name: it is in their notation."""
    found: dict[str, set[str]] = {}
    for section, row in rows:
        for key, name in row.gauges.items():
            field = section.field(key)
            assert field is not None, key  # seen when the row was read
            found.setdefault(name, set()).add(field.kind)
    return found


def unknown_gauges(rows: Iterable[tuple[Section, Row]], known: Sequence[str]) -> tuple[Finding, ...]:
    """Return a finding for each figure whose gauge is none of the ticket's, or that has a gauge and no value."""
    names = ", ".join(known) or "none"
    found = []
    for _, row in rows:
        for key, name in row.gauges.items():
            where = row.where.at("gauges", key)
            if name not in known:
                what = f'no gauge is called "{name}"'
                mend = f"Write [instrument.NAME] for it. Gauges here: {names}."
                found.append(Finding(where=where, what=what, mend=mend))
            elif key not in row.numbers:
                what, mend = "a gauge without a figure", f"Write {key} too, or take the gauge out."
                found.append(Finding(where=where, what=what, mend=mend, severity="warning"))
    return tuple(found)
