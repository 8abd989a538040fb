"""The parts that come off a club, each with the figures and words that are known of it."""

from __future__ import annotations

import msgspec

from clubwright.state.particulars import Entry, Part, Particulars


class OldGrip(Part, frozen=True, kw_only=True):
    """The grip that comes off."""

    mass: Entry | None = None
    mass_with_tape: Entry | None = None
    length: Entry | None = None
    cap: Entry | None = None
    cg_from_cap: Entry | None = None


class OldTape(Part, frozen=True, kw_only=True):
    """Tape of one kind that comes off."""

    layers: Entry | None = None
    mass: Entry | None = None
    cg_from_cap: Entry | None = None
    length: Entry | None = None


class OldShaft(Part, frozen=True, kw_only=True):
    """The shaft that comes off."""

    mass: Entry | None = None
    length: Entry | None = None
    balance_from_tip: Entry | None = None


class OldFerrule(Particulars, frozen=True, kw_only=True):
    """The ferrule that comes off."""

    mass: Entry | None = None
    length: Entry | None = None


class CameParts(msgspec.Struct, frozen=True, kw_only=True):
    """All parts that come off; of what was never said the struct is there, and not `given`."""

    grip: OldGrip
    tapes: tuple[OldTape, ...] = ()
    shaft: OldShaft
    ferrule: OldFerrule
