"""A club as it is known: its parts, what was laid and fitted, what came off, how it changed, what was read."""

from __future__ import annotations

import msgspec

from clubwright.club.beam.stiffness import StiffnessProfile
from clubwright.errors import DocumentPlace
from clubwright.state.gauge import Gauge, ReadingEntry
from clubwright.state.old_parts import CameParts
from clubwright.state.particulars import Particulars
from clubwright.state.parts import (
    AdapterPart,
    AdhesivePart,
    FerrulePart,
    GripPart,
    HeadBefore,
    HeadPart,
    ReleaseRow,
    ShaftBefore,
    ShaftPart,
    ShimPart,
    TapePart,
    WeightPart,
)


class ChangeEntry(msgspec.Struct, frozen=True, kw_only=True):
    """What one change of the club made different, as it was before it.

    Attributes:
        where: Its place in the file.
        name: What readings from before it call it.
        head: The head before it: another one, or the same with other angles; None where it left the head alone.
        shaft: The shaft before it, likewise.
        grip: Another grip that was on; ferrule and adhesive likewise.
        tapes: All tape that was on; None where the change left it alone.
        not_known: Figures that it changed and that nobody knew before, by part and key.
        stiffness: That of another shaft, when it is known.
        came: Whether its parts are those that the club came in with.
    """

    where: DocumentPlace
    name: str
    head: HeadBefore | None = None
    shaft: ShaftBefore | None = None
    grip: GripPart | None = None
    ferrule: FerrulePart | None = None
    adhesive: AdhesivePart | None = None
    tapes: tuple[TapePart, ...] | None = None
    not_known: tuple[tuple[str, str], ...] = ()
    stiffness: StiffnessProfile | None = None
    came: bool = False

    @property
    def rows(self) -> dict[str, Particulars]:
        """The single parts that it changed, by the part's own table."""
        found = {part: getattr(self, part) for part in ("head", "shaft", "grip", "ferrule", "adhesive")}
        return {part: row for part, row in found.items() if row is not None}

    def is_another(self, part: str) -> bool:
        """True where the table is that of another part; head and shaft may also be the same one as it was."""
        row = self.rows.get(part)
        return row is not None and (not isinstance(row, HeadBefore | ShaftBefore) or row.another == "yes")


class KnownClub(msgspec.Struct, frozen=True, kw_only=True):
    """One club as it is known; of what was never said the struct is there, and not `given`.

    Attributes:
        head: Its head; shaft, grip, ferrule, adhesive, adapter (the sleeve) and shim likewise.
        tapes: The tape under the grip, the lowest layer first.
        tapes_said: False where nothing was said of tape, not even that there is none.
        weights: The tray.
        release: Release times of the adhesive's sheet.
        came: The parts that come off.
        stiffness: That of the raw shaft, when it is known.
        changes: How it changed since it was first read, the first change first.
        readings: What was read of it, the first reading first.
    """

    head: HeadPart
    shaft: ShaftPart
    grip: GripPart
    ferrule: FerrulePart
    adhesive: AdhesivePart
    adapter: AdapterPart
    shim: ShimPart
    tapes: tuple[TapePart, ...] = ()
    tapes_said: bool = True
    weights: tuple[WeightPart, ...] = ()
    release: tuple[ReleaseRow, ...] = ()
    came: CameParts
    stiffness: StiffnessProfile | None = None
    changes: tuple[ChangeEntry, ...] = ()
    readings: tuple[ReadingEntry, ...] = ()


class KnownShaft(msgspec.Struct, frozen=True, kw_only=True):
    """A shaft by itself as it is known, whichever club it is on.

    Attributes:
        part: Its figures and words.
        stiffness: That of the raw shaft, when it is known.
        gauges: Those that measured it, by name.
    """

    part: ShaftPart
    stiffness: StiffnessProfile | None = None
    gauges: dict[str, Gauge] = {}
