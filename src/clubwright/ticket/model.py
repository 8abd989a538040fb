"""A ticket as read: every number in SI with the text it was typed as, and where it stands in the file."""

from __future__ import annotations

from typing import cast

import msgspec

from clubwright.club.beam.stiffness import StiffnessProfile
from clubwright.club.parts import Hand, Kind
from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import AS_IT_CAME, BARE_SHAFT


class Entry(msgspec.Struct, frozen=True, kw_only=True):
    """One number of the file.

    Attributes:
        where: Its place, such as ``[head] mass``.
        typed: As typed.
        value: In SI.
        sd: Standard uncertainty typed behind it, in SI, or None.
        echo: What was understood, in words.
    """

    where: str
    typed: str
    value: float
    sd: float | None
    echo: str


class Row(msgspec.Struct, frozen=True, kw_only=True):
    """One table of the file: its numbers and its words."""

    where: str
    numbers: dict[str, Entry] = {}
    words: dict[str, str] = {}

    def value(self, key: str) -> float | None:
        """Return a number in SI, or None when the file does not give it."""
        entry = self.numbers.get(key)
        return None if entry is None else entry.value

    def count(self, key: str, otherwise: int) -> int:
        """Return a whole number, or a stated one when the file does not give it."""
        entry = self.numbers.get(key)
        return otherwise if entry is None else round(entry.value)


class ReadingEntry(msgspec.Struct, frozen=True, kw_only=True):
    """One reading of the file, its value understood by the quantity it is of.

    `before` is the place of the first change of the club after it; None for the club as it is now. `job` is the earlier job
    on this club that it was read in; empty for this job.
    """

    where: str
    quantity: str
    entry: Entry
    stage: str
    weights: tuple[str, ...]
    instrument: str | None
    repeats: int
    keep: bool | None
    fact: int | None
    second_plane: Entry | None = None
    before: int | None = None
    job: str = ""


class InstrumentEntry(msgspec.Struct, frozen=True, kw_only=True):
    """A gauge of the file: three figures in SI of what it reads."""

    name: str
    resolution: float
    repeatability: float
    bias: float


class ChangeEntry(msgspec.Struct, frozen=True, kw_only=True):
    """What one change of the club made different, as it was before it.

    Attributes:
        where: Its place in the file.
        name: What readings from before it call it.
        rows: Tables of the parts it changed, by the part's own table.
        tapes: All tape that was on; None where the change left it alone.
        not_known: Figures that it changed and that nobody knew before, such as ``head.lie``.
        stiffness: That of another shaft, when the file gives it.
        came: Whether its parts are those that the club came in with.
    """

    where: str
    name: str
    rows: dict[str, Row] = {}
    tapes: tuple[Row, ...] | None = None
    not_known: tuple[str, ...] = ()
    stiffness: StiffnessProfile | None = None
    came: bool = False

    def is_another(self, part: str) -> bool:
        """True where the table is that of another part; head and shaft may also be the same one as it was."""
        row = self.rows.get(part)
        return row is not None and (part not in ("head", "shaft") or row.words.get("another") == "yes")


class Ticket(msgspec.Struct, frozen=True, kw_only=True):
    """One club: what is wanted, the parts in hand, what was read.

    `source` names the file, for findings; `stiffness` is that of the raw shaft, when the file gives it; `tapes_said` is
    false where it says nothing of tape, not even that there is none.
    """

    rows: dict[str, Row]
    source: str = "ticket"
    tapes: tuple[Row, ...] = ()
    weights: tuple[Row, ...] = ()
    old_tapes: tuple[Row, ...] = ()
    release: tuple[Row, ...] = ()
    changes: tuple[ChangeEntry, ...] = ()
    readings: tuple[ReadingEntry, ...] = ()
    instruments: dict[str, InstrumentEntry] = {}
    stiffness: StiffnessProfile | None = None
    tapes_said: bool = True

    def row(self, section: str) -> Row:
        """Return a table of the file, empty when it is not there."""
        return self.rows.get(section) or Row(where=f"{self.source} [{section}]")

    def has(self, section: str) -> bool:
        """True when the file has that table."""
        return section in self.rows

    @property
    def id(self) -> str:
        """The ticket's number."""
        return self.row("ticket").words["id"]

    @property
    def kind(self) -> Kind:
        """Kind of club."""
        return cast("Kind", self.row("ticket").words["kind"])

    @property
    def invented(self) -> bool:
        """True when the ticket says that all of it is made up."""
        return self.row("ticket").words.get("invented") == "yes"

    @property
    def hand(self) -> Hand:
        """Hand the club is for."""
        return cast("Hand", self.row("ticket").words["hand"])

    @property
    def job(self) -> str:
        """The work asked for."""
        return self.row("ticket").words.get("job", "build")

    @property
    def material(self) -> str:
        """Shaft material; steel when the ticket does not say, except graphite for woods."""
        said = self.row("shaft").words.get("material")
        return said or ("graphite" if self.kind in ("driver", "fairway", "hybrid") else "steel")

    @property
    def length_method(self) -> str:
        """How the length is measured."""
        return self.row("target").words.get("length_method", "axis to ground")

    @property
    def fits_ferrule(self) -> bool:
        """True when a ferrule is fitted: always, but for a putter or a sleeve whose ticket lists none, or one of 0 g."""
        if self.row("ferrule").value("mass") == 0.0:
            return False
        return self.has("ferrule") or not (self.kind == "putter" or self.has("adapter"))

    @property
    def taper_trim(self) -> bool:
        """True when the ticket asks to trim a taper tip, which is never done."""
        row = self.row("shaft")
        return row.words.get("tip") == "taper" and (row.value("tip_trim") or 0.0) > 0

    @property
    def is_cut(self) -> bool:
        """True when the shaft has its length: measured after the cut, read with the head on, or a club that came so."""
        if self.job not in ("build", "reshaft") or "cut_length" in self.row("shaft").numbers:
            return True
        before = (BARE_SHAFT.name, AS_IT_CAME.name)  # the shaft by itself, and the one that came off
        now = (reading for reading in self.readings if reading.before is None and not reading.job)
        return any(reading.stage not in before and reading.quantity in QUANTITIES for reading in now)

    @property
    def read_as_it_came(self) -> bool:
        """True when the club was read with the parts that it came in with."""
        return any(reading.stage == AS_IT_CAME.name for reading in self.readings)

    @property
    def targets(self) -> dict[str, Entry]:
        """The targets, by quantity."""
        return self.row("target").numbers

    @property
    def rule(self) -> str:
        """How a reading proves a tolerance."""
        return self.row("shop").words.get("decision_rule", "guard 2u")

    def weight_place(self, name: str) -> int:
        """Return the place of a weight in the tray by its name; ValueError when there is none."""
        return [row.words["name"] for row in self.weights].index(name)

    def fitted_counts(self, names: tuple[str, ...]) -> tuple[float, ...]:
        """Count how many of each weight of the tray a list of names fits."""
        counts = [0.0] * len(self.weights)
        for name in names:
            counts[self.weight_place(name)] += 1
        return tuple(counts)

    @property
    def fitted_now(self) -> tuple[float, ...]:
        """Count the weights fitted now: what the tray says, else what the last reading had on."""
        if any("fitted" in row.numbers for row in self.weights):
            return tuple(float(row.count("fitted", 0)) for row in self.weights)
        if self.readings:
            return self.fitted_counts(self.readings[-1].weights)
        return (0.0,) * len(self.weights)
