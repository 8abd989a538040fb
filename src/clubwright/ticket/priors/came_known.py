"""Parts that come off a club whose last job the record has: known as well as when they went on.

What is measured of them once they are off (`[old_grip]` and its like) comes on top.
"""

from __future__ import annotations

import math
from typing import Any

import msgspec

from clubwright.club.build import Conventions
from clubwright.club.part_paths import TAPES, came_path, path_of
from clubwright.club.parts import Adhesive, Came, Club, Ferrule, Grip
from clubwright.state.old_parts import OldTape
from clubwright.state.parts import TapePart
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields.fields import ADHESIVE, FERRULE, GRIP
from clubwright.ticket.priors.earlier import EarlierMaker
from clubwright.ticket.then import ticket_then

OLD_KEYS: dict[str, dict[str, str]] = {
    "grip": {key: key for key in ("mass", "length", "cap", "cg_from_cap")},
    "shaft": {"mass": "cut_mass", "length": "cut_length", "balance_from_tip": "cut_balance_from_tip"},
    "ferrule": {"mass": "mass", "length": "length"},
}
"""Part to the keys of its old table and what each is while it is on."""


def came_known(maker: EarlierMaker, place: int, club: Club, conventions: Conventions, together_sd_kg: float) -> Came:
    """Return the parts that come off, as the job before left them.

    Args:
        maker: What gathers the figures.
        place: The change that has those parts.
        club: The club with the parts that are new.
        conventions: Definitions in use.
        together_sd_kg: Doubt of grip and tape weighed together, where none is typed.
    """
    change = maker.ticket.changes[place]
    then = maker.like(_measured_since(ticket_then(maker.ticket, place), maker.ticket))
    found: dict[str, Any] = {}
    for name, section, kind in (("grip", GRIP, Grip), ("ferrule", FERRULE, Ferrule), ("adhesive", ADHESIVE, Adhesive)):
        if name in change.rows:
            found[name] = kind(**then.part(section, then.ticket.row(name), name, name))
    if "ferrule" in found and not then.ticket.fits_ferrule:
        found["ferrule"] = Ferrule(mass_kg=0.0)
    if change.tapes is not None:
        found["tapes"] = tuple(then.tape(row, number) for number, row in enumerate(then.ticket.tapes))
    if "shaft" in change.rows:
        on = {"grip": found["grip"]} if "grip" in found else {}
        found["shaft"] = then.shaft(msgspec.structs.replace(club, **on), conventions)
    both = maker.ticket.club.came.grip.mass_with_tape
    if both is not None and maker.ticket.club.came.grip.mass is None and "grip" in found:
        tapes = [then.figures[path_of(TAPES, number, "mass_kg")] for number in range(len(found["tapes"]))]
        mass = both.value - sum(mean for mean, _ in tapes)
        then.figures["grip.mass_kg"] = (mass, math.hypot(both.sd or together_sd_kg, *(sd for _, sd in tapes)))
        found["grip"] = msgspec.structs.replace(found["grip"], mass_kg=mass)
    maker.figures |= {came_path(name): figure for name, figure in then.figures.items()}
    maker.joints += [msgspec.structs.replace(joint, names=tuple(map(came_path, joint.names))) for joint in then.joints]
    return Came(**found)


def _measured_since(then: Ticket, now: Ticket) -> Ticket:
    """Put what was measured of the old parts since they came off over what was known of them."""
    parts: dict[str, Any] = {}
    for part, keys in OLD_KEYS.items():
        measured = {keys[key]: entry for key, entry in now.row(f"old_{part}").numbers.items() if key in keys}
        parts[part] = msgspec.structs.replace(then.row(part), given=True, **measured)
    old = tuple(_as_it_was_on(tape) for tape in now.club.came.tapes)
    return msgspec.structs.replace(then, club=msgspec.structs.replace(then.club, tapes=old or then.tapes, **parts))


def _as_it_was_on(tape: OldTape) -> TapePart:
    return TapePart(
        where=tape.where,
        name=tape.name,
        layers=tape.layers,
        mass=tape.mass,
        cg_from_cap=tape.cg_from_cap,
        length=tape.length,
    )
