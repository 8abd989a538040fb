"""Take the readings of a ticket into the belief, and explain those that do not fit: all readings of the club together.

A reading that lies further off than chance usually throws it is kept aside only where all readings together say that
something went wrong. Derivation: docs/theory/causes.md.
"""

from __future__ import annotations

from clubwright.belief.causes.cause import Known
from clubwright.belief.causes.explain import Told, explain
from clubwright.belief.unknowns import is_of_a_gauge
from clubwright.belief.update import Learned, learn
from clubwright.club.part_paths import at_path, came_path, path_of, steps_of, without_earlier
from clubwright.errors import Where
from clubwright.state.particulars import Particulars, whole_number
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields.fields import ADHESIVE
from clubwright.ticket.gauges import readings_of
from clubwright.ticket.part_paths import SECTION_OF_PART, place_of
from clubwright.ticket.priors.prior import Prior
from clubwright.ticket.rows.measured import named_gauge

CHANCE = 0.1
"""From so likely on that nothing went wrong, a reading that lies far off stays in: chance throws one in a thousand so far,
and errors that the parts have in common throw more (estimate of ours; what it does: benchmarks/causes.py)."""


def learned_of(ticket: Ticket, prior: Prior) -> tuple[Learned, dict[Where, Told]]:
    """Return the belief after the readings of a ticket, and what explains each that is kept aside and not left out.

    Raises:
        NotPossible: when readings a person decided to keep contradict the parts.
    """
    readings = readings_of(ticket)
    counting = [item for item in readings if item.keep is not False]
    told: dict[Where, Told] = {}
    by_chance: set[Where] = set()
    while True:
        learned = learn(prior.belief, prior.club, prior.conventions, readings, by_chance=by_chance)
        aside = [item.reading.where for item in learned.set_aside if item.reading.keep is None]
        if new := [where for where in aside if where not in told]:
            told |= explain(prior.belief, prior.club, prior.conventions, counting, new, known_of(ticket, prior))
        chance = {where for where in aside if told[where].nothing >= CHANCE}
        if not chance:
            return learned, {where: told[where] for where in aside}
        by_chance |= chance


def known_of(ticket: Ticket, prior: Prior) -> Known:
    """Say which numbers of the parts are defaults, and which a named gauge weighed or measured."""
    assumed, weighed = set(), set()
    for name in prior.belief.names:
        if is_of_a_gauge(name) or without_earlier(name)[0] is not None:
            continue
        found, row = place_of(name), _row_of(ticket, name)
        key, table = found.field.key, SECTION_OF_PART[found.part].name
        if row is None or (row.entry(key) is None and f"{table}.{key}" in prior.assumed):
            assumed.add(name)
        elif named_gauge(row, key):
            weighed.add(name)
    layers = tuple(whole_number(row.layers, 1) for row in ticket.tapes)
    return Known(assumed=frozenset(assumed), weighed=frozenset(weighed), layers=layers)


def _row_of(ticket: Ticket, name: str) -> Particulars | None:
    """Return the part that a number is of, as the ticket has it.

    None for an old tape that nobody wrote down, and for the old adhesive, which has no table.
    """
    if place_of(name).part == came_path(ADHESIVE.part):
        return None
    try:
        row: Particulars = at_path(ticket.club, path_of(*steps_of(name)[:-1]))
    except IndexError:
        return None
    return row
