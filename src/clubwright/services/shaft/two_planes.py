"""The two planes a club swings in: what the head makes of their difference, what was recorded, what is left for the shaft.

A record shows two frequencies and not which plane each is of; so what is left is said for both cases. Equations:
docs/theory/frequency.md, "Both planes, and twist"; checked in tests/unit/services/shaft/test_two_planes.py.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

import msgspec

from clubwright.club.planes import Planes, planes_hz
from clubwright.club.stages import FINISHED
from clubwright.errors import Where
from clubwright.notation import render
from clubwright.planning.club_state import ClubState
from clubwright.services.answer.answer import rounded
from clubwright.services.answer.club_answer import ask
from clubwright.services.told.shaft import PlanesAnswer, TwoFrequenciesAnswer
from clubwright.state.particulars import Entry
from clubwright.units import CPM_HZ


class Recorded(msgspec.Struct, frozen=True, kw_only=True):
    """Two close frequencies of one recorded oscillation, in Hz, with the standard uncertainty of their difference."""

    lower_hz: float
    upper_hz: float
    sd_hz: float

    @property
    def apart_hz(self) -> float:
        """How far they lie apart."""
        return self.upper_hz - self.lower_hz


class TwoPlanes(msgspec.Struct, frozen=True, kw_only=True):
    """Both planes of one club.

    Attributes:
        stage: Stage of the build that all of it is of: that of the recording, else finished.
        predicted: With a shaft that is alike all round: the difference is the head's.
        recorded: What was recorded; None when nothing was.
    """

    stage: str
    predicted: Planes
    recorded: Recorded | None

    @property
    def own_hz(self) -> tuple[float, float] | None:
        """What the shaft itself makes, were the face plane the faster one recorded, and were it the slower."""
        if self.recorded is None:
            return None
        apart, head = self.recorded.apart_hz, self.predicted.difference_hz
        return apart - head, -apart - head


def two_planes(club_state: ClubState) -> TwoPlanes:
    """Return both planes of a club, as it was when its last recording of two frequencies was taken, else finished.

    A recording that was set aside, left out or undone, or made before a change that moved it, counts for nothing.

    Raises:
        NotPossible: without a head, a stiffness, or the torsional stiffness of the shaft.
    """
    readings = club_state.ticket.readings
    second: dict[Where, Entry] = {item.where: item.second_plane for item in readings if item.second_plane is not None}
    taken = [item.reading for item in club_state.present if item.taken and item.reading.where in second]
    if not taken:
        return TwoPlanes(stage=FINISHED.name, predicted=planes_hz(club_state.build()), recorded=None)
    reading = taken[-1]
    other, noise = second[reading.where], reading.instrument.noise()
    low, high = sorted((other.value, reading.value))
    recorded = Recorded(lower_hz=low, upper_hz=high, sd_hz=math.hypot(other.sd or noise, noise))
    build, by = club_state.build(reading.stage), reading.read_by(club_state.prior.conventions)
    build = msgspec.structs.replace(build, fitted=tuple(map(float, reading.fitted)), conventions=by)
    return TwoPlanes(stage=reading.stage.name, predicted=planes_hz(build), recorded=recorded)


def planes_of(document: Mapping[str, Any], source: str) -> TwoPlanes:
    """Return both planes of the club of a ticket document.

    Raises:
        InputError: when the ticket cannot be taken, or the planes cannot be told.
    """
    return ask(document, source, two_planes, "shaft")


def planes_part(found: TwoPlanes) -> PlanesAnswer:
    """Return both planes for programs, in SI."""
    recorded, planes = found.recorded, found.predicted
    own = found.own_hz or ()
    return PlanesAnswer(
        difference_hz=rounded(planes.difference_hz),
        face_hz=rounded(planes.face_hz),
        own_hz=tuple(rounded(each) for each in own),
        recorded=None
        if recorded is None
        else TwoFrequenciesAnswer(
            apart_hz=rounded(recorded.apart_hz),
            apart_sd_hz=rounded(recorded.sd_hz),
            lower_hz=rounded(recorded.lower_hz),
            upper_hz=rounded(recorded.upper_hz),
        ),
        stage=found.stage,
        toe_hz=rounded(planes.toe_hz),
    )


def planes_lines(found: TwoPlanes) -> tuple[tuple[str, str], ...]:
    """Say it: a name and a text for each line."""
    planes = found.predicted
    lines = [
        (f"toe up and down, {found.stage}", render("frequency", planes.toe_hz)),
        (
            "face to face, were the shaft alike all round",
            f"{render('frequency', planes.face_hz)}: the head makes {_cpm(planes.difference_hz)}",
        ),
    ]
    recorded, own = found.recorded, found.own_hz
    if recorded is None or own is None:
        return tuple(lines)
    both = f"{render('frequency', recorded.lower_hz)} and {render('frequency', recorded.upper_hz)}"
    lines.append(("recorded", f"{both}, {recorded.apart_hz / CPM_HZ:.2f} ± {recorded.sd_hz / CPM_HZ:.2f} cpm apart"))
    left = " or ".join(f"{_cpm(each)} ({200 * each / planes.face_hz:+.1f} % of stiffness)" for each in own)
    lines.append(("the shaft itself, face against toe", f"{left}, by which plane is the faster"))
    return tuple(lines)


def _cpm(hz: float) -> str:
    return f"{hz / CPM_HZ:+.2f} cpm"
