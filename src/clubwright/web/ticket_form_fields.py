"""Which fields the form of a ticket has: the usual ones, those that come up where needed, and the names of its parts."""

from __future__ import annotations

from clubwright.ticket.fields.fields import SECTIONS, WHICH_PART

BY_NAME = {section.name: section for section in SECTIONS}


def _except(name: str, *keys: str) -> tuple[str, ...]:
    return tuple(field.key for field in BY_NAME[name].fields if field.key not in (*keys, "gauges"))


SHOWN: dict[str, tuple[str, ...]] = {
    "ticket": ("id", "player", "label", "kind", "hand", "job", "priority", "promised", "note"),
    "target": tuple(field.key for field in BY_NAME["target"].fields),
    "base": tuple(field.key for field in BY_NAME["base"].fields),
    "tolerance": tuple(field.key for field in BY_NAME["tolerance"].fields),
    "head": _except(
        "head", "hand", "own_inertia", "sole_camber", "sole_contact", "bent_loft", "bent_lie", "bore_reamed", "hosel"
    ),
    "shaft": _except("shaft", "cut_length", "stiffness", "tip_trimmed", "cut_mass_length", "cut_balance_length"),
    "grip": (
        "name",
        *WHICH_PART,
        "core",
        "core_taper",
        "shape",
        "logo",
        "mass",
        "length",
        "cap",
        "cg_from_cap",
        "diameter_2in",
        "diameter_6in",
    ),
    "tape": _except("tape"),
    "ferrule": ("mass", "length", *WHICH_PART),
    "adhesive": (
        "name",
        "ratio",
        "basis",
        "density_a",
        "density_b",
        "in_joint",
        "per_joint",
        "joints",
        "pot_life",
        "bond_line_min",
        "bond_line_max",
        "scale_error",
        "temperature",
    ),
    "adhesive.release": ("temperature", "time"),
    "weight": _except("weight", "fitted"),
    "adapter": _except("adapter"),
    "shim": (),
    "old_grip": (),
    "old_tape": (),
    "old_shaft": (),
    "old_ferrule": (),
    "shop": (),
}
"""What the form asks for by itself. Any other field of these tables comes up where a finding is about it, or where it is
filled in; what is in none of them is carried along unseen (`rest`)."""

_APART = ("table", "gauges")
"""Kinds that are tables of their own: carried along, not typed into one field."""

KEYS: dict[str, tuple[str, ...]] = {
    name: tuple(
        dict.fromkeys(
            (
                *usual,
                *(field.key for field in BY_NAME[name].fields if field.kind not in _APART and field.key != "asked"),
            )
        )
    )
    for name, usual in SHOWN.items()
}
"""Every field that the form can show, the usual ones first."""

LISTS = {"tape": 8, "adhesive.release": 10, "weight": 30, "old_tape": 8}
"""Lists of the form, and how many lines it takes of each; a longer one is brought as a file, and carried along unseen."""

TITLES = {
    "ticket": ("Ticket", "whose club, which club, how soon"),
    "target": ("Targets", "what the finished club shall read; leave out what nobody asked for"),
    "base": ("Base", "what a target such as +1/4 in, 1/2 flat or 1 strong is counted from"),
    "tolerance": ("Tolerance", "half-widths; the shop's own where left out"),
    "head": ("Head", "as measured; leave out what is not in hand yet"),
    "shaft": ("Shaft", "as measured; leave out what is not in hand yet"),
    "grip": ("Grip", "as measured; leave out what is not in hand yet"),
    "tape": ("Tape", "one line for each kind"),
    "ferrule": ("Ferrule", "0 g when none is fitted"),
    "adhesive": ("Adhesive", "from its own data sheet"),
    "adhesive.release": ("Cure times", "the rows of the adhesive's data sheet"),
    "weight": ("Weights", "the loose weights in the tray, one line for each kind"),
    "adapter": ("Sleeve", "of a wood, with its screw, when not weighed with the head"),
    "shim": ("Shim", "between tip and bore"),
    "old_grip": ("Old grip", "that the club came in with"),
    "old_tape": ("Old tape", "that the club came in with, one line for each kind"),
    "old_shaft": ("Old shaft", "that the club came in with, as it was cut"),
    "old_ferrule": ("Old ferrule", "that the club came in with"),
    "shop": ("Workshop", "what holds for this ticket instead of the shop's settings"),
}
