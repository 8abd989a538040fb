"""Which defaults are worth a word: those on which something that is wanted or read depends."""

from __future__ import annotations

from clubwright.club.quantities import QUANTITIES
from clubwright.state.ticket import Ticket
from clubwright.ticket.field_names import read_field_name
from clubwright.ticket.part_paths import OLD_TABLES

_INERTIA_ONLY = frozenset({"head.cg_off_axis", "head.own_inertia"})
_PLANE_ONLY = frozenset({"head.sole_camber", "head.sole_contact"})
_QUIET = frozenset({"grip.length", "tape.length", "grip.build_up_blend", "grip.diameter_2in", "ferrule.length"})
_OLD_JOINT = "old_adhesive"
_OLD = (*OLD_TABLES, _OLD_JOINT)
_QUIET_OLD = frozenset({"old_grip.length", "old_tape.length", "old_ferrule.length", "old_adhesive.in_joint"})


def is_announced(name: str, ticket: Ticket) -> bool:
    """True when the default of a number such as ``head.mass`` is said in a finding."""
    wanted = {*ticket.targets, *(reading.quantity for reading in ticket.readings)}
    if name == "grip.core_taper" and "grip_diameter_6in" not in wanted:
        return False
    if name in _QUIET or (name in _PLANE_ONLY and ticket.length_method == "axis to ground"):
        return False
    if read_field_name(name).section in _OLD:
        return name not in _QUIET_OLD and ticket.read_as_it_came
    return name not in _INERTIA_ONLY or any(QUANTITIES[key].of_inertia for key in wanted if key in QUANTITIES)


def how_to_mend(name: str) -> str:
    """Say what to do about a default: the old joint's adhesive has no table, for nobody weighs it apart."""
    if read_field_name(name).section == _OLD_JOINT:
        return "A reading of the club as it came narrows it."
    return "Measure it and write it in; a reading of the whole club narrows it too."
