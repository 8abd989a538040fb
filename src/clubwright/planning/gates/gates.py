"""Gates: the irreversible steps (cut, glue, release to play) stay closed until what they need is known.

A gate is the list of its checks (`clubwright.planning.gates.types`). A gate that is closed says every reason at once,
each with the next thing to do; one that is open says what was checked, and nothing that nobody looked at.
"""

from __future__ import annotations

import msgspec

from clubwright.club.length import length_change_from_lie_m, plane_length_change_from_lie_m
from clubwright.errors import InputError, NotPossible
from clubwright.planning.advice.weights import Choice
from clubwright.planning.bending.metals import stays_as_it_is
from clubwright.planning.club_state import ClubState
from clubwright.planning.cut import CUT_JOBS, Cut
from clubwright.planning.gates.fit_checks import hosel_checks
from clubwright.planning.gates.glue_checks import glue_checks
from clubwright.planning.gates.types import Check, CheckKey, Gate, met, unmet
from clubwright.planning.joint.cure import release_time, released
from clubwright.planning.said.phrases import Amount, Phrase, Value, figure, phrase
from clubwright.state.particulars import in_si

__all__ = ["Check", "Gate", "Progress", "bend_first_reasons", "gates_of"]


class Progress(msgspec.Struct, frozen=True, kw_only=True):
    """What the journal knows beyond the ticket.

    Attributes:
        glued: Whether the joint is glued.
        cure: How long the joint has been at which temperature: (seconds, kelvin) in order.
    """

    glued: bool = False
    cure: tuple[tuple[float, float], ...] = ()


def gates_of(club_state: ClubState, cut: Cut | None, best: Choice, progress: Progress) -> tuple[Gate, ...]:
    """Return the gates of a build or re-shaft; other work has none."""
    if club_state.ticket.job not in CUT_JOBS:
        return ()
    return (
        Gate(step="cut", checks=_cut_checks(club_state, cut)),
        Gate(step="glue", checks=glue_checks(club_state, best, glued=progress.glued)),
        Gate(step="release", checks=_release_checks(club_state, progress)),
    )


MEASURED: tuple[tuple[CheckKey, str, str, Phrase, Phrase], ...] = (
    (
        "bore to ground",
        "head",
        "bore_to_ground",
        phrase("gate.no bore to ground"),
        phrase("gate.seat test shaft"),
    ),
    ("bore depth", "head", "bore_depth", phrase("gate.no bore depth"), phrase("gate.write bore depth")),
    ("cap", "grip", "cap", phrase("gate.no cap"), phrase("gate.write cap")),
    ("lie", "head", "lie", phrase("gate.no lie"), phrase("gate.write lie")),
)
"""Measured before a cut: check, table, key, what is wrong without it, and how to mend it."""


def _cut_checks(club_state: ClubState, cut: Cut | None) -> tuple[Check, ...]:
    ticket = club_state.ticket
    found: list[Check] = []
    if cut is None:
        found.append(unmet("target", phrase("gate.no target"), phrase("gate.write target")))
    for key, section, name, what, mend in MEASURED:
        entry = ticket.row(section).entry(name)
        found.append(unmet(key, what, mend) if entry is None else met(key, ("", entry.typed)))
    if cut is not None and cut.short_by_m > 0:
        found.append(
            unmet(
                "shaft", phrase("gate.too short", short=figure("length", cut.short_by_m)), phrase("gate.pull another")
            )
        )
    elif cut is not None and cut.butt_cut_m is not None:
        found.append(met("shaft", (phrase("label.offcut"), figure("length", cut.butt_cut_m))))
    if ticket.taper_trim:
        mend = phrase("gate.correct tip")
        found.append(unmet("taper", phrase("gate.taper"), mend))
    return (*found, *_bend_checks(club_state))


def _bend_checks(club_state: ClubState) -> tuple[Check, ...]:
    """A bend after the cut must not use up half of the length tolerance; checked where a lie is ordered and measured."""
    change = _bend_first_m(club_state)
    if change is None:
        return ()
    bend, length_m, first = change
    figures = (
        (phrase("figure.still to bend"), figure("angle", bend)),
        (phrase("figure.on the length"), figure("length", length_m)),
    )
    if not first:
        return (met("bends", *figures),)
    what = phrase("gate.bend changes", bend=figure("angle", bend), length=figure("length", length_m))
    return (unmet("bends", what, phrase("gate.bend first"), *figures),)


def _bend_first_m(club_state: ClubState) -> tuple[float, float, bool] | None:
    """Return the lie still to be bent, what it does to the length, and whether that is too much after the cut."""
    goal, length = club_state.goal("lie"), club_state.goal("length")
    if goal is None or length is None or club_state.ticket.club.head.lie is None:
        return None
    if stays_as_it_is(club_state.ticket.club.head.metal, club_state.ticket.kind):
        return None
    bend = goal.target - club_state.belief.mean_of("head.lie_rad")
    head = club_state.club.head
    change = float(length_change_from_lie_m(bend, head.lie_rad))
    if club_state.prior.conventions.length_method == "60 degree plane":
        change = float(plane_length_change_from_lie_m(bend, head.lie_rad, head.sole_camber_m, head.sole_contact_m))
    return bend, change, abs(change) > length.half_width / 2 and abs(bend) > goal.half_width


def bend_first_reasons(club_state: ClubState) -> list[Value]:
    """Return why the lie is bent before the cut: a bend after it would use up half of the length tolerance."""
    return [check.reason for check in _bend_checks(club_state) if not check.met]


def _release_checks(club_state: ClubState, progress: Progress) -> tuple[Check, ...]:
    hosel = hosel_checks(club_state.ticket)
    if not progress.glued:
        mend = phrase("gate.close it")
        return (unmet("joint", phrase("gate.not glued"), mend), *hosel)
    return (*_cure_checks(club_state, progress), *hosel)


def _cure_checks(club_state: ClubState, progress: Progress) -> tuple[Check, ...]:
    table = tuple((in_si(row.temperature) or 0.0, in_si(row.time) or 0.0) for row in club_state.ticket.club.release)
    if not table:
        mend = phrase("gate.copy table")
        return (unmet("cure", phrase("gate.no table"), mend),)
    try:
        done = released(table, progress.cure, shaft_material=club_state.ticket.material).released
    except InputError as refused:
        return tuple(unmet("cure", finding.sentence()) for finding in refused.findings)
    asked = _asked(table, progress)
    if done:
        return (met("joint"), met("cure", *asked))
    what = phrase("gate.not cured")
    for at, time in asked:
        what = phrase("gate.not cured asks", time=time, at=at)
    mend = phrase("gate.leave in rack")
    return (unmet("cure", what, mend, *asked),)


def _asked(table: tuple[tuple[float, float], ...], progress: Progress) -> tuple[tuple[Value, Value], ...]:
    """Return the time that the table asks for at the temperature the joint has now; nothing where it has none for it."""
    if not progress.cure:
        return ()
    kelvin = progress.cure[-1][1]
    try:
        found = release_time(table, kelvin)
    except (InputError, NotPossible):
        return ()
    time = Amount("duration", found.time_s, form="whole minutes")
    return ((phrase("figure.at temperature", at=figure("temperature", kelvin)), time),)
