"""Three ways to choose the weight: the trade's rules of thumb, exact statics without belief, and the program itself."""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np

from clubwright.planning.advice.weights import choices
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.ticket.read import read_ticket
from virtual.drawing import Case, read_scale, reading_entry
from virtual.mechanics import weighed

GRAMS_A_POINT = 2.0
ADHESIVE_POINTS = 0.5
"""What the trade's rules allow: 2 g at the head for a point, about half a point for the adhesive."""

MOST_SWAPS = 5


class Chosen(NamedTuple):
    """Place of the weight in the tray (None: no weight), and the chance promised for it, if any."""

    fitted: int | None
    chance: float
    sd: float


def by_rule(case: Case, reading: float, stage: str, fitted: int | None) -> Chosen:
    """Work by the rules of thumb: what is missing, at 2 g a point, nearest printed weight."""
    allowed = ADHESIVE_POINTS if stage != "finished" else 0.0
    grams = 0.0 if fitted is None else case.labels_g[fitted]
    wanted = grams + (case.target - reading - allowed) * GRAMS_A_POINT
    options = [0.0, *case.labels_g]
    best = min(range(len(options)), key=lambda place: abs(options[place] - wanted))
    return Chosen(best - 1 if best else None, np.nan, np.nan)


def by_statics(case: Case, reading: float, stage: str, fitted: int | None) -> Chosen:
    """Work by exact lever arms of the numbers as measured; what the scale shows more or less is carried over whole."""
    offset = reading - weighed(case.nominal, stage, fitted)[1]
    options: list[int | None] = [None, *range(len(case.labels_g))]
    best = min(options, key=lambda one: abs(weighed(case.nominal, "finished", one)[1] + offset - case.target))
    return Chosen(best, np.nan, np.nan)


def by_belief(document: dict[str, Any]) -> Chosen:
    """Work by the program: read the ticket, work out where the club stands, take the first of its choices.

    A reading that the program sets aside is decided on, as it asks: the clubmaker, who knows that the gauge is sound,
    keeps it.
    """
    club_state = _club_state(document)
    if asked := club_state.learned.set_aside:
        places = {id(item) for item in asked}
        kept = [
            {**entry, "keep": "yes"} if id(item) in places else entry
            for entry, item in zip(document["reading"], club_state.learned.judged, strict=True)
        ]
        club_state = _club_state({**document, "reading": kept})
    best = choices(club_state)[0]
    fitted = np.flatnonzero(best.counts)
    sd = float(best.sd[best.keys.index("swing_weight")])
    return Chosen(int(fitted[0]) if fitted.size else None, best.chance, sd)


def _club_state(document: dict[str, Any]) -> ClubState:
    ticket, findings = read_ticket(document)
    assert ticket is not None, findings
    return club_state_of(ticket)


def right(case: Case, fitted: int | None) -> bool:
    """True when the true finished club lies within every tolerance."""
    mass, points = weighed(case.truth, "finished", fitted)
    inside = abs(points - case.target) <= case.bench.tolerance_pt
    if case.target_kg is not None and case.bench.total_weight_g is not None:
        inside = inside and abs(mass - case.target_kg) <= case.bench.total_weight_g / 1e3
    return inside


class Reworked(NamedTuple):
    """How often a finished club went back to the tray, and whether it was truly right when it was let go."""

    swaps: int
    right: bool


def rework_by_hand(case: Case, method: Any, first: Chosen, random: np.random.Generator) -> Reworked:
    """Read the finished club, swap while the scale says it is out, and let it go when it reads right."""
    fitted = first.fitted
    for swaps in range(MOST_SWAPS):
        reading = read_scale(case, "finished", fitted, case.bench.readings, random)
        again = method(case, reading, "finished", fitted).fitted
        if abs(reading - case.target) <= case.bench.tolerance_pt or again == fitted:
            return Reworked(swaps, right(case, fitted))
        fitted = again
    return Reworked(MOST_SWAPS, right(case, fitted))


def rework_by_belief(case: Case, first: Chosen, random: np.random.Generator) -> Reworked:
    """Do the same with the program, which keeps every reading taken; the scale's word ends the work here too."""
    fitted, document = first.fitted, case.document
    for swaps in range(MOST_SWAPS):
        reading = read_scale(case, "finished", fitted, case.bench.readings, random)
        if abs(reading - case.target) <= case.bench.tolerance_pt:
            return Reworked(swaps, right(case, fitted))
        more = [*document["reading"], reading_entry(reading, "finished", fitted, case.bench.readings)]
        document = {**document, "reading": more}
        again = by_belief(document).fitted
        if again == fitted:
            return Reworked(swaps, right(case, fitted))
        fitted = again
    return Reworked(MOST_SWAPS, right(case, fitted))
