"""What is believed of every part and every gauge: mean and standard uncertainty, in SI and in trade notation."""

from __future__ import annotations

import math

from clubwright.belief.unknowns import BIAS, EVERY_MASS, read_of_a_gauge
from clubwright.club.part_paths import at_path
from clubwright.club.quantities import QUANTITIES
from clubwright.notation import render
from clubwright.planning.club_state import ClubState
from clubwright.services.answer.answer import rounded
from clubwright.services.told.job import UnknownAnswer
from clubwright.state.particulars import Part
from clubwright.ticket.part_paths import place_of
from clubwright.ticket.rows.reading_entries import half_width_kind
from clubwright.words import spoken

_RENDERED_AS = {"grip_core": "diameter", "lie": "angle"}


def belief_part(club_state: ClubState) -> tuple[UnknownAnswer, ...]:
    """Return every unknown: its path as ``name``, what it is in words, mean and sd in SI, and both in trade notation."""
    belief = club_state.belief
    variances = belief.covariance.diagonal()
    found = []
    for name, mean, variance in zip(belief.names, belief.mean, variances, strict=True):
        sd = math.sqrt(max(float(variance), 0.0))
        kind, words = told(club_state, name)
        text = render(kind, float(mean), sd)
        mean_si, sd_si = rounded(float(mean)), rounded(sd)
        found.append(UnknownAnswer(name=name, what=words, mean=mean_si, sd=sd_si, text=text))
    return tuple(found)


def told(club_state: ClubState, name: str) -> tuple[str, str]:
    """Return the kind of notation of an unknown, and what it is in words."""
    own = read_of_a_gauge(name)
    if own is not None and own.kind == BIAS:
        _, gauge, quantity = own
        if quantity == EVERY_MASS and name in club_state.prior.belief.names:
            return half_width_kind(quantity), f"{gauge}: reads every weight too high by"
        if quantity not in QUANTITIES:
            kind, words = told(club_state, quantity)
            return kind, f"{gauge}: too high by, {words}"
        return half_width_kind(quantity), f"{gauge}: reads {spoken('key', quantity)} too high by"
    if own is not None:
        kind, words = told(club_state, own.figure)
        return kind, f"{own.gauge}: rounds up, each time, {words}"
    found = place_of(name)
    part, place, field = found.part, found.place, found.field
    words = found.words
    if place is not None and found.then is None:
        rows: tuple[Part, ...] = at_path(club_state.ticket.club, part)
        named = [row.name or f"{part} {number}" for number, row in enumerate(rows, start=1)]
        words = named[place] if named else words  # old tape that no ticket lists is one unknown, without a name
    return _RENDERED_AS.get(field.kind, field.kind), f"{words}: {spoken('key', field.key)}"
