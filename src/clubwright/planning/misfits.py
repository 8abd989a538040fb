"""Readings that do not fit, as data: how far off each is and what could have gone wrong, likeliest first.

`clubwright.belief.explain` ranks the causes; `clubwright.words.misfit` says them.
"""

from __future__ import annotations

from typing import Literal

import msgspec

from clubwright.belief.explain import Cause, causes
from clubwright.belief.update import Judged
from clubwright.club.part_paths import WEIGHTS
from clubwright.club.quantities import QUANTITIES
from clubwright.errors import DocumentPlace, Where
from clubwright.planning.club_state import ClubState
from clubwright.state.gauge import ReadingEntry
from clubwright.ticket.part_paths import place_of
from clubwright.ticket.part_readings import figure_of, row_of
from clubwright.ticket.rows.measured import named_gauge

SHOWN = 3
EXPLAINS = 0.75
"""A cause that leaves more than this share of the misfit's chi-square explains nothing (estimate of ours)."""

CauseKind = Literal["stage", "weights", "earlier reading", "gauge", "part"]
_KINDS: dict[str, CauseKind] = {
    "stage": "stage",
    "weights": "weights",
    "earlier reading": "earlier reading",
    "gauge": "gauge",
}


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
        kind: Another stage, other weights, an earlier reading, the gauge, or a number of a part.
        detail: Which stage, weight or gauge; no weight where it is empty.
        earlier: Which earlier reading.
        path: Path of the number of a part, such as ``grip.mass_kg``.
        name: What the weight is called whose number it is.
        change: By how much that number would differ from what was entered, in SI.
        has_core: Whether the grip has a core, so that another core is as likely as another grip.
    """

    kind: CauseKind
    detail: str = ""
    earlier: ReadingSaid | None = None
    path: str = ""
    name: str = ""
    change: float = 0.0
    has_core: bool = False


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
    taken = [item.reading for item in club_state.learned.judged if item.taken]
    found = []
    for item in club_state.learned.set_aside:
        misfit = _misfit(club_state, item)
        if not misfit.left_out:
            prior, suspect = club_state.prior, item.reading
            earlier = [other for other in taken if other is not suspect]
            ranked = causes(prior.belief, prior.club, prior.conventions, earlier, suspect, most=SHOWN)
            ranked = [cause for cause in ranked if cause.left_over < EXPLAINS * item.off_by_sd**2] or ranked[:1]
            misfit = msgspec.structs.replace(misfit, causes=tuple(_cause(club_state, cause) for cause in ranked))
        found.append(misfit)
    return tuple(found)


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


def _cause(club_state: ClubState, cause: Cause) -> MisfitCause:
    kind = _KINDS.get(cause.unknown, "part")
    if kind == "earlier reading":
        return MisfitCause(kind=kind, earlier=_said(_entry(club_state, cause.detail)))
    if kind != "part":
        return MisfitCause(kind=kind, detail=str(cause.detail))
    place = place_of(cause.unknown)
    weight = place.place if place.part == WEIGHTS else None
    return MisfitCause(
        kind=kind,
        path=cause.unknown,
        name="" if weight is None else club_state.ticket.weights[weight].name,
        change=cause.change,
        has_core=club_state.ticket.club.grip.core is not None,
    )
