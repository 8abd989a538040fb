"""Readings that do not fit, as data: how far off each is and what could have gone wrong, likeliest first.

All readings of the club are explained together (`clubwright.belief.causes`), and the causes of one reading are those of all
that leave it within what chance allows. `clubwright.words.misfit` says them.
"""

from __future__ import annotations

from typing import Literal

import msgspec

from clubwright.belief.causes.cause import Cause, Explanation
from clubwright.belief.causes.cause import CauseKind as Kind
from clubwright.belief.readings import Reading
from clubwright.belief.update import INNOVATION_LIMIT, Judged
from clubwright.club.part_paths import TAPES, WEIGHTS, at_path
from clubwright.club.quantities import QUANTITIES
from clubwright.errors import DocumentPlace, Where
from clubwright.planning.club_state import ClubState
from clubwright.state.gauge import ReadingEntry
from clubwright.ticket.part_paths import place_of
from clubwright.ticket.part_readings import figure_of, row_of
from clubwright.ticket.rows.measured import named_gauge

SHOWN = 3
LEAST_CHANCE = 0.01
"""A cause less likely than this is not named beside two likelier ones (estimate of ours)."""

CauseKind = Literal[Kind, "another reading"]


class ReadingSaid(msgspec.Struct, frozen=True, kw_only=True):
    """One reading: of what (a quantity, or a number of a part such as ``head.mass``), as typed, and at which stage."""

    quantity: str
    typed: str
    stage: str


class Beside(msgspec.Struct, frozen=True, kw_only=True):
    """The figure of a part that a further measuring of it stands beside: its place, as typed, and by which gauge."""

    where: DocumentPlace
    typed: str
    gauge: str


class MisfitCause(msgspec.Struct, frozen=True, kw_only=True):
    """One thing that could have gone wrong.

    Attributes:
        kind: What kind of thing; the reading itself, or another one, may be wrong.
        detail: Which stage, weight or gauge; no weight where it is empty.
        reading: Which other reading, or the one of several that a slip of stage or weights is of.
        path: Path of the number of a part, such as ``grip.mass_kg``.
        name: What the weight, or the tape, is called whose number it is.
        change: By how much that number would differ from what was entered, in SI; of layers, how many more are on.
        stands: What was entered of a number that was typed wrong, in SI.
        has_core: Whether the grip has a core, so that another core is as likely as another grip.
        several: Whether it is of several readings at once.
        chance: How likely it is, all readings of the club taken together, from 0 to 1.
        also: What else went wrong at the same time, if one thing does not explain it.
    """

    kind: CauseKind
    detail: str = ""
    reading: ReadingSaid | None = None
    path: str = ""
    name: str = ""
    change: float = 0.0
    stands: float = 0.0
    has_core: bool = False
    several: bool = False
    chance: float = 0.0
    also: MisfitCause | None = None


class Misfit(msgspec.Struct, frozen=True, kw_only=True):
    """One reading that is kept aside.

    Attributes:
        where: Its place.
        fact: Number of its fact; None where it is of a ticket file.
        job: Ticket number.
        reading: What was read.
        notation: Kind of notation of its figures.
        value: What it read, in SI.
        expected, expected_sd: What was expected.
        off_by_sd: How far off it is, in standard deviations.
        beside: The figure that it stands beside, if any.
        left_out: Whether a person decided to leave it out.
        causes: Likeliest first; none for one that is left out.
    """

    where: Where
    fact: int | None
    job: str
    reading: ReadingSaid
    notation: str
    value: float
    expected: float
    expected_sd: float
    off_by_sd: float
    beside: Beside | None = None
    left_out: bool = False
    causes: tuple[MisfitCause, ...] = ()


def misfits_of(club_state: ClubState) -> tuple[Misfit, ...]:
    """Return every reading that is kept aside, with its likeliest causes ranked."""
    found = []
    for item in club_state.learned.set_aside:
        misfit = _misfit(club_state, item)
        if not misfit.left_out:
            ranked = tuple(_causes(club_state, item.reading))
            misfit = msgspec.structs.replace(misfit, causes=ranked)
        found.append(misfit)
    return tuple(found)


def _causes(club_state: ClubState, suspect: Reading) -> list[MisfitCause]:
    ranked = club_state.explained[suspect.where].ranked
    fitting = [item for item in ranked if abs(item.off_by_sd[suspect.where]) <= INNOVATION_LIMIT] or list(ranked)
    shown = [item for place, item in enumerate(fitting[:SHOWN]) if place < 2 or item.chance >= LEAST_CHANCE]
    return [_said_of(club_state, item, suspect) for item in shown]


def _said_of(club_state: ClubState, explanation: Explanation, suspect: Reading) -> MisfitCause:
    first, *rest = (_cause(club_state, cause, suspect) for cause in explanation.causes)
    also = rest[0] if rest else None
    return msgspec.structs.replace(first, chance=explanation.chance, also=also)


def _misfit(club_state: ClubState, item: Judged) -> Misfit:
    entry = _entry(club_state, item.reading.where)
    return Misfit(
        where=item.reading.where,
        fact=entry.fact,
        job=club_state.ticket.id,
        reading=_said(entry),
        notation=notation_of(item.reading.quantity),
        value=item.reading.value,
        expected=item.expected,
        expected_sd=item.expected_sd,
        off_by_sd=item.off_by_sd,
        beside=_beside(club_state, entry),
        left_out=item.reading.keep is False,
    )


def _entry(club_state: ClubState, where: Where) -> ReadingEntry:
    return next(entry for entry in club_state.ticket.readings if entry.where == where)


def _said(entry: ReadingEntry) -> ReadingSaid:
    return ReadingSaid(quantity=entry.quantity, typed=entry.entry.typed, stage=entry.stage)


def _beside(club_state: ClubState, reading: ReadingEntry) -> Beside | None:
    """Name the figure of a part that a further measuring of it stands beside; none where no gauge is known for it."""
    found, row = figure_of(reading.quantity), row_of(club_state.ticket, reading.quantity)
    if found is None or row is None:
        return None
    key = found.field.key
    entry, gauge = row.entry(key), named_gauge(row, key)
    return None if entry is None or not gauge else Beside(where=row.where.at(key), typed=entry.typed, gauge=gauge)


def notation_of(quantity: str) -> str:
    """Return the kind of notation of a quantity, or of a part's number by its path, such as ``grip.cap_m``."""
    if quantity in QUANTITIES:
        return QUANTITIES[quantity].kind
    kind = place_of(quantity).field.kind
    return "diameter" if kind == "grip_core" else kind


def _cause(club_state: ClubState, cause: Cause, suspect: Reading) -> MisfitCause:
    others = [where for where in cause.readings if where != suspect.where]
    said = _said(_entry(club_state, others[0])) if others else None
    several = len(cause.readings) > 1
    if cause.kind == "reading" and said is not None:
        return MisfitCause(kind="another reading", reading=said)
    if cause.kind not in ("figure", "typed", "layer"):
        return MisfitCause(kind=cause.kind, detail=cause.what, reading=said, change=cause.change, several=several)
    place = place_of(cause.what)
    rows = {WEIGHTS: club_state.ticket.weights, TAPES: club_state.ticket.tapes}.get(place.part)
    return MisfitCause(
        kind=cause.kind,
        path=cause.what,
        name="" if rows is None or place.place is None else rows[place.place].name or "",
        change=cause.change,
        stands=float(at_path(club_state.prior.club, cause.what)) if cause.kind == "typed" else 0.0,
        has_core=club_state.ticket.club.grip.core is not None,
    )
