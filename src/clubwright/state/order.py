"""What is ordered: whose club, which club, what work, and what the finished club shall read."""

from __future__ import annotations

import msgspec

from clubwright.club.quantities import TARGETS
from clubwright.state.particulars import Entry, Particulars


class Player(Particulars, frozen=True, kw_only=True):
    """Whose club it is."""

    name: str | None = None


class ByQuantity(Particulars, frozen=True, kw_only=True):
    """Figures by quantity: of those that the register (`clubwright.club.quantities`) lets a ticket ask for.

    Attributes:
        figures: By key of the quantity; without those that nobody said.
    """

    figures: dict[str, Entry] = msgspec.field(default_factory=dict)

    @property
    def numbers(self) -> dict[str, Entry]:
        """The figures that are known, in the order of the register."""
        return {key: self.figures[key] for key in TARGETS if key in self.figures}

    def entry(self, key: str) -> Entry | None:
        """Return the figure of a quantity; None when it is not known."""
        return self.figures.get(key)


class Targets(ByQuantity, frozen=True, kw_only=True):
    """What the finished club shall read."""

    length_method: str | None = None

    @property
    def length(self) -> Entry | None:
        """The length, which the cut aims at."""
        return self.figures.get("length")


class Tolerances(ByQuantity, frozen=True, kw_only=True):
    """By how much each reading may be off its target, as half-widths."""


class Base(ByQuantity, frozen=True, kw_only=True):
    """What a target such as ``1/2 flat`` is counted from."""


class Order(Particulars, frozen=True, kw_only=True):
    """One order.

    Attributes:
        id: Number of its ticket.
        player: Whose club.
        label: What the club is called.
        kind: Kind of club.
        hand: Which hand it is for.
        job: The work asked for; a build where nobody said.
        priority: How soon.
        promised: For when, as said.
        asked: The words it was asked in.
        club: Ticket of an earlier job on the same club.
        again_of: Ticket of the club that this one makes again.
        note: Anything else.
        invented: ``yes`` where all of it is made up.
        targets: What the finished club shall read.
        tolerances: How closely.
        base: What relative targets were counted from.
    """

    id: str = ""
    player: Player
    label: str | None = None
    kind: str = ""
    hand: str = ""
    job: str | None = None
    priority: str | None = None
    promised: str | None = None
    asked: str | None = None
    club: str | None = None
    again_of: str | None = None
    note: str | None = None
    invented: str | None = None
    targets: Targets
    tolerances: Tolerances
    base: Base


class OrderWords(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """What an order says in words, as typed: for lists of many, where no figure is read; empty where it does not say it.

    What is called as in `Order` is the same; `player` is the player's name.
    """

    id: str = ""
    player: str = ""
    label: str = ""
    kind: str = ""
    hand: str = ""
    job: str = ""
    priority: str = ""
    promised: str = ""
    asked: str = ""
    club: str = ""
    again_of: str = ""
    note: str = ""
    invented: str = ""
