"""Which field of the ticket file each unknown of a part is, and what a part is called: old parts beside new ones.

An unknown's path names the part as the club holds it (``grip.mass_kg``, ``tapes.0.mass_kg``, ``came.grip.mass_kg``); the
ticket file has a table for each part (``[grip]``, ``[[tape]]``, ``[old_grip]``).
"""

from __future__ import annotations

from typing import NamedTuple

from clubwright.club.parts import NEVER_MEASURED
from clubwright.ticket.fields import (
    ADAPTER,
    ADHESIVE,
    FERRULE,
    GRIP,
    HEAD,
    OLD_FERRULE,
    OLD_GRIP,
    OLD_SHAFT,
    OLD_TAPE,
    SHAFT,
    TAPE,
    WEIGHT,
    Field,
    Section,
)

OLD = "came."
EARLIER = "earlier."

CHANGED_FIGURES: dict[str, tuple[str, Section, str]] = {
    "length_m": ("shaft", SHAFT, "cut_length"),
    "tip_trim_m": ("shaft", SHAFT, "tip_trim"),
    "loft_rad": ("head", HEAD, "loft"),
    "lie_rad": ("head", HEAD, "lie"),
    "bounce_rad": ("head", HEAD, "bounce"),
}
"""Figures of a part that a change made different and that are kept by themselves (`clubwright.club.parts.Earlier`)."""

SECTION_OF_PART: dict[str, Section] = {
    "head": HEAD,
    "shaft": SHAFT,
    "grip": GRIP,
    "ferrule": FERRULE,
    "adhesive": ADHESIVE,
    "adapter": ADAPTER,
    "tapes": TAPE,
    "weights": WEIGHT,
    "came.grip": OLD_GRIP,
    "came.tapes": OLD_TAPE,
    "came.shaft": OLD_SHAFT,
    "came.ferrule": OLD_FERRULE,
    "came.adhesive": ADHESIVE,
}
"""What the old adhesive left in the joint has no table: nobody can weigh it."""

OLD_TABLES = tuple(
    section.name for part, section in SECTION_OF_PART.items() if part.startswith(OLD) and part != "came.adhesive"
)
"""Tables of the parts that one club came in with: never of another club."""

READABLE: dict[str, str] = {
    section.name: part
    for part, section in SECTION_OF_PART.items()
    if not section.many and part not in ("adapter", "came.adhesive", "came.ferrule")
}
"""Tables of which a single number may be read (``grip.mass``), with the part that each is of."""

REPLACED: dict[str, tuple[str, ...]] = {
    "regrip": ("grip", "tapes"),
    "reshaft": ("grip", "tapes", "shaft", "ferrule", "adhesive"),
}
"""The parts that come off a club in each job; none in a job that is not listed."""


class PartPlace(NamedTuple):
    """Where an unknown is: its part, which one of several, its field in the ticket file, before which change it was so."""

    part: str
    place: int | None
    field: Field
    then: int | None = None

    @property
    def words(self) -> str:
        """What the part is called: ``grip``, ``old tape``, ``weight``, ``grip before change 1``."""
        return words_of(self.part) + ("" if self.then is None else f" before change {self.then + 1}")


def words_of(part: str) -> str:
    """Return what a part is called, such as ``old tape`` for ``came.tapes``."""
    name = {"tapes": "tape", "weights": "weight"}.get(part.removeprefix(OLD), part.removeprefix(OLD))
    return f"old {name}" if part.startswith(OLD) else name


def place_of(path: str) -> PartPlace:
    """Return where the unknown of that path is, such as ``came.tapes.0.mass_kg`` or ``earlier.0.length_m``."""
    if path.startswith(EARLIER):
        _, then, rest = path.split(".", 2)
        if rest in CHANGED_FIGURES:
            part, section, key = CHANGED_FIGURES[rest]
            changed = section.field(key)
            assert changed is not None, key  # of the list above
            return PartPlace(part, None, changed, int(then))
        return place_of(rest)._replace(then=int(then))
    *names, number = path.split(".")
    place = int(names.pop()) if names[-1].isdigit() else None
    part = ".".join(names)
    # a part that came in and that the record knows has all figures of one that is on
    sections = (SECTION_OF_PART[part], SECTION_OF_PART[part.removeprefix(OLD)])
    field = next(field for section in sections for field in section.fields if field.number == number)
    return PartPlace(part, place, field)


def old_part_lacking(job: str, quantity: str, *, old_parts: bool) -> str:
    """Say why a quantity or a number of a part cannot be predicted of the parts that come off; empty when it can be.

    Args:
        job: The work asked for.
        quantity: Key of a quantity, or a number of a part such as ``old_grip.mass``.
        old_parts: Whether it is read while the old parts are on.
    """
    replaced = REPLACED.get(job, ())
    part = READABLE.get(quantity.partition(".")[0], "")
    if part.startswith(OLD) and part.removeprefix(OLD) not in replaced:
        return f"is of a part that does not come off in this kind of work ({job})"
    never = NEVER_MEASURED.get(quantity)
    if old_parts and never in replaced:
        return f"rests on the old {never}, of which that is not measured"
    return ""
