"""A gauge, and one reading taken with it."""

from __future__ import annotations

import msgspec

from clubwright.errors import DocumentPlace
from clubwright.state.particulars import Entry


class Gauge(msgspec.Struct, frozen=True, kw_only=True):
    """A gauge: three figures in SI of what it reads.

    Attributes:
        name: What readings call it.
        resolution: Smallest step that it shows.
        repeatability: Standard deviation of its readings of one thing.
        bias: Standard uncertainty of what it shows too much, always.
        typed: The same figures as typed, by key, those that were given.
        held: Of a frequency meter how it holds a club (`clubwright.ticket.fields.fields.METER_FIELDS`).
    """

    name: str
    resolution: float
    repeatability: float
    bias: float
    typed: dict[str, str] = {}
    held: dict[str, Entry] = {}


class ReadingEntry(msgspec.Struct, frozen=True, kw_only=True):
    """One reading, its value understood by the quantity it is of.

    `before` is the place of the first change of the club after it; None for the club as it is now. `job` is the earlier job
    on this club that it was read in; empty for this job. `held` says how the meter held the club, where the reading says.
    """

    where: DocumentPlace
    quantity: str
    entry: Entry
    stage: str
    weights: tuple[str, ...]
    instrument: str | None
    repeats: int
    keep: bool | None
    fact: int | None
    second_plane: Entry | None = None
    held: dict[str, Entry] = {}
    before: int | None = None
    job: str = ""
