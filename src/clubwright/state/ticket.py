"""A ticket as read: what is ordered, the club as it is known, the gauges and the shop's figures it goes by."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, cast

import msgspec

from clubwright.club.parts import Hand, Kind
from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import AS_IT_CAME, BARE_SHAFT
from clubwright.state.club import ChangeEntry, KnownClub
from clubwright.state.gauge import Gauge, ReadingEntry
from clubwright.state.order import Order
from clubwright.state.particulars import Entry, Particulars, in_si, whole_number
from clubwright.state.parts import TapePart, WeightPart
from clubwright.state.shop import ShopFigures

_AT: dict[str, Callable[[Ticket], Particulars]] = {
    "ticket": lambda ticket: ticket.order,
    "target": lambda ticket: ticket.order.targets,
    "tolerance": lambda ticket: ticket.order.tolerances,
    "head": lambda ticket: ticket.club.head,
    "adapter": lambda ticket: ticket.club.adapter,
    "shaft": lambda ticket: ticket.club.shaft,
    "grip": lambda ticket: ticket.club.grip,
    "ferrule": lambda ticket: ticket.club.ferrule,
    "shim": lambda ticket: ticket.club.shim,
    "adhesive": lambda ticket: ticket.club.adhesive,
    "old_grip": lambda ticket: ticket.club.came.grip,
    "old_shaft": lambda ticket: ticket.club.came.shaft,
    "old_ferrule": lambda ticket: ticket.club.came.ferrule,
    "shop": lambda ticket: ticket.shop,
}
"""Where the ticket has what each single table of a ticket file says."""


class Ticket(msgspec.Struct, frozen=True, kw_only=True):
    """One job as it stands: its order, its club, and what it is worked and measured with.

    Attributes:
        source: Names the file or the record it came from, for findings.
        order: What is wanted, of whom, by when.
        club: The club as it is known.
        gauges: The gauges that its readings name, by that name.
        shop: What the workshop goes by.
        from_shop: What of all this was laid in from the shop's settings, as the record wrote it down; the exporter writes
            it again, and nothing is computed from it.
    """

    source: str = "ticket"
    order: Order
    club: KnownClub
    gauges: dict[str, Gauge] = {}
    shop: ShopFigures
    from_shop: dict[str, Any] = {}

    def row(self, section: str) -> Particulars:
        """Return what one single table of a ticket file says, for what is driven by the register of fields."""
        return _AT[section](self)

    def text(self, section: str, key: str) -> str:
        """Return what stands in one field of a single table as it was typed; empty while it is not known, or no field."""
        row = self.row(section) if section in _AT else None
        entry = None if row is None else row.entry(key)
        return "" if row is None else row.word(key) if entry is None else entry.typed

    def tables(self) -> dict[str, Particulars]:
        """Return every single table that was given, by its name in a ticket file."""
        found = {section: find(self) for section, find in _AT.items()}
        return {section: row for section, row in found.items() if row.given}

    @property
    def tapes(self) -> tuple[TapePart, ...]:
        """The tape under the grip."""
        return self.club.tapes

    @property
    def weights(self) -> tuple[WeightPart, ...]:
        """The tray."""
        return self.club.weights

    @property
    def readings(self) -> tuple[ReadingEntry, ...]:
        """What was read of the club."""
        return self.club.readings

    @property
    def changes(self) -> tuple[ChangeEntry, ...]:
        """How the club changed since it was first read."""
        return self.club.changes

    @property
    def id(self) -> str:
        """The ticket's number."""
        return self.order.id

    @property
    def kind(self) -> Kind:
        """Kind of club."""
        return cast("Kind", self.order.kind)

    @property
    def invented(self) -> bool:
        """True when the ticket says that all of it is made up."""
        return self.order.invented == "yes"

    @property
    def hand(self) -> Hand:
        """Hand the club is for."""
        return cast("Hand", self.order.hand)

    @property
    def job(self) -> str:
        """The work asked for."""
        return self.order.job or "build"

    @property
    def material(self) -> str:
        """Shaft material; steel when the ticket does not say, except graphite for woods."""
        said = self.club.shaft.material
        return said or ("graphite" if self.kind in ("driver", "fairway", "hybrid") else "steel")

    @property
    def length_method(self) -> str:
        """How the length is measured."""
        return self.order.targets.length_method or "axis to ground"

    @property
    def fits_ferrule(self) -> bool:
        """True when a ferrule is fitted: always, but for a putter or a sleeve whose ticket lists none, or one of 0 g."""
        ferrule = self.club.ferrule
        if in_si(ferrule.mass) == 0.0:
            return False
        return ferrule.given or not (self.kind == "putter" or self.club.adapter.given)

    @property
    def taper_trim(self) -> bool:
        """True when the ticket asks to trim a taper tip, which is never done."""
        shaft = self.club.shaft
        return shaft.tip == "taper" and (in_si(shaft.tip_trim) or 0.0) > 0

    @property
    def is_cut(self) -> bool:
        """True when the shaft has its length: measured after the cut, read with the head on, or a club that came so."""
        if self.job not in ("build", "reshaft") or self.club.shaft.cut_length is not None:
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
        return self.order.targets.numbers

    @property
    def rule(self) -> str:
        """How a reading proves a tolerance."""
        return self.shop.decision_rule or "guard 2u"

    def weight_place(self, name: str) -> int:
        """Return the place of a weight in the tray by its name; ValueError when there is none."""
        return [weight.name for weight in self.weights].index(name)

    def fitted_counts(self, names: tuple[str, ...]) -> tuple[float, ...]:
        """Count how many of each weight of the tray a list of names fits."""
        counts = [0.0] * len(self.weights)
        for name in names:
            counts[self.weight_place(name)] += 1
        return tuple(counts)

    @property
    def fitted_now(self) -> tuple[float, ...]:
        """Count the weights fitted now: what the tray says, else what the last reading had on."""
        if any(weight.fitted is not None for weight in self.weights):
            return tuple(float(whole_number(weight.fitted, 0)) for weight in self.weights)
        if self.readings:
            return self.fitted_counts(self.readings[-1].weights)
        return (0.0,) * len(self.weights)
