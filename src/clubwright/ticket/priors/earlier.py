"""What is believed of the club as it was before each of its changes: the figures that a change made different.

Each is an unknown of its own: the shaft's length before it was cut anew, the lie before a bend, the grip that was on. All
else is the same then and now. Derivation: docs/theory/belief.md.
"""

from __future__ import annotations

from typing import Any, Protocol

import msgspec

from clubwright.belief.gaussian import Gaussian
from clubwright.club.build import Conventions
from clubwright.club.part_paths import earlier_path
from clubwright.club.parts import Adhesive, Club, Earlier, Ferrule, Grip, Head, Shaft, Tape
from clubwright.club.quantities import ANGLES
from clubwright.notation import parse
from clubwright.state.club import ChangeEntry
from clubwright.state.particulars import Particulars, in_si
from clubwright.state.parts import TapePart
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields.defaults import default_for
from clubwright.ticket.fields.fields import ADHESIVE, FERRULE, GRIP, HEAD, SHAFT, Section
from clubwright.ticket.fields.figures import usual_sd
from clubwright.ticket.priors.shaft import UNCUT_SD_M, cut_prior
from clubwright.ticket.rows.measured import Gauged
from clubwright.ticket.then import ticket_then

OF_THE_HEAD = {**{key: f"{key}_rad" for key in ANGLES}, "bore_diameter": "bore_diameter_m"}
LENGTHS = {"cut_length": "length_m", "tip_trim": "tip_trim_m"}


class EarlierMaker(Protocol):
    """What gathers the figures of parts: `clubwright.ticket.priors.prior`."""

    ticket: Ticket
    figures: dict[str, tuple[float, float]]
    joints: list[Gaussian]
    gauged: Gauged

    def part(
        self, section: Section, row: Particulars, path: str, default_name: str, leave: tuple[str, ...] = ()
    ) -> dict[str, Any]:
        """Return a part's numbers, each given or assumed."""
        ...  # pragma: no cover - says a shape, is never run

    def tape(self, row: TapePart, place: int) -> Tape:
        """Return all layers of one kind of tape."""
        ...  # pragma: no cover - says a shape, is never run

    def shaft(self, club: Club, conventions: Conventions) -> Shaft:
        """Return the shaft."""
        ...  # pragma: no cover - says a shape, is never run

    def like(self, ticket: Ticket) -> EarlierMaker:
        """Return a fresh one for another ticket."""
        ...  # pragma: no cover - says a shape, is never run


def earlier_of(maker: EarlierMaker, club: Club, conventions: Conventions) -> tuple[Earlier, ...]:
    """Return what each change of the club made different, the figures from before it kept as unknowns."""
    return tuple(_earlier(maker, place, change, club, conventions) for place, change in enumerate(maker.ticket.changes))


def _earlier(maker: EarlierMaker, place: int, change: ChangeEntry, club: Club, conventions: Conventions) -> Earlier:
    if change.came:
        return Earlier(came=True)
    then = maker.like(ticket_then(maker.ticket, place))
    found = _others(then, change, club, conventions)
    if change.tapes is not None:
        found["tapes"] = _tapes(then, change.tapes, ticket_then(maker.ticket, place + 1).tapes)
    maker.figures |= {earlier_path(place, name): figure for name, figure in then.figures.items()}
    maker.gauged.take(then.gauged, place)
    maker.joints += [_renamed(joint, place) for joint in then.joints]
    for part, section, names in (("shaft", SHAFT, LENGTHS), ("head", HEAD, OF_THE_HEAD)):
        if part in change.rows and not change.is_another(part):
            for key, name in names.items():
                figure = _figure(maker.ticket, section, change, key)
                if figure is not None:
                    found[name], maker.figures[earlier_path(place, name)] = figure[0], figure
    if ("shaft", "cut_length") in change.not_known:
        length, sd, _ = cut_prior(maker.ticket, club, conventions, 0.0, UNCUT_SD_M)
        found["length_m"], maker.figures[earlier_path(place, "length_m")] = length, (length, max(sd, UNCUT_SD_M))
    off = None if change.shaft is None else in_si(change.shaft.butt_off)
    return Earlier(**found, off_butt_m=off)


def _others(then: EarlierMaker, change: ChangeEntry, club: Club, conventions: Conventions) -> dict[str, Any]:
    """Make the other parts that were on, of the ticket as it was then."""
    found: dict[str, Any] = {}
    for name, section, kind in (
        ("head", HEAD, Head),
        ("grip", GRIP, Grip),
        ("ferrule", FERRULE, Ferrule),
        ("adhesive", ADHESIVE, Adhesive),
    ):
        if change.is_another(name):
            found[name] = kind(**then.part(section, change.rows[name], name, name))
    if change.is_another("shaft"):
        on = {name: found[name] for name in ("head", "grip") if name in found}
        found["shaft"] = then.shaft(msgspec.structs.replace(club, **on), conventions)
    return found


def _tapes(then: EarlierMaker, rows: tuple[TapePart, ...], after: tuple[TapePart, ...]) -> tuple[Tape | int, ...]:
    """Make the tapes that were on; one that the change left as it was is the same one."""
    left = {_typed(row): place for place, row in enumerate(after)}
    return tuple(left[_typed(row)] if _typed(row) in left else then.tape(row, place) for place, row in enumerate(rows))


def _typed(row: Particulars) -> tuple[tuple[str, str], ...]:
    return (*sorted(row.words.items()), *sorted((key, entry.typed) for key, entry in row.numbers.items()))


def _figure(ticket: Ticket, section: Section, change: ChangeEntry, key: str) -> tuple[float, float] | None:
    """Return a figure as it was: typed, or the default where it changed and nobody knew it; None where it is the same."""
    entry, field = change.rows[section.name].entry(key), section.field(key)
    assert field is not None, key  # of the list above
    if entry is not None:
        return entry.value, entry.sd if entry.sd is not None else usual_sd(field, entry.value)
    default = default_for(f"{section.name}.{key}", ticket.kind)
    if (section.name, key) not in change.not_known or default is None:
        return None
    understood = parse(field.kind, default.text, where="defaults")
    return understood.value, understood.sd or 0.0


def _renamed(joint: Gaussian, place: int) -> Gaussian:
    return msgspec.structs.replace(joint, names=tuple(earlier_path(place, name) for name in joint.names))
