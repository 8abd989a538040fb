"""Which field of the ticket file each unknown of a part is, and what a part is called in words: old parts beside new ones.

A part is called by its path (`clubwright.club.part_paths`); the ticket file has a table for each (``[grip]``, ``[[tape]]``,
``[old_grip]``), and the register of fields says of which part it is.
"""

from __future__ import annotations

from typing import NamedTuple

from clubwright.club.part_paths import (
    TAPES,
    WEIGHTS,
    came_path,
    is_came,
    read_path,
    without_came,
)
from clubwright.club.quantities import NEVER_MEASURED
from clubwright.ticket.fields.fields import ADHESIVE, CHANGED, HEAD, SECTIONS, SHAFT, Field, Section
from clubwright.ticket.order_paths import table_of

CHANGED_FIGURES: dict[str, tuple[str, Section, str]] = {
    "length_m": ("shaft", SHAFT, "cut_length"),
    "tip_trim_m": ("shaft", SHAFT, "tip_trim"),
    "loft_rad": ("head", HEAD, "loft"),
    "lie_rad": ("head", HEAD, "lie"),
    "bounce_rad": ("head", HEAD, "bounce"),
    "bore_diameter_m": ("head", HEAD, "bore_diameter"),
}
"""Figures of a part that a change made different and that are kept by themselves (`clubwright.club.parts.Earlier`)."""

SECTION_OF_PART: dict[str, Section] = {section.part: section for section in SECTIONS if section.part}
SECTION_OF_PART |= {came_path(ADHESIVE.part): ADHESIVE}
"""What the old adhesive left in the joint has no table: nobody can weigh it."""

PART_OF_CHANGED: dict[str, str] = {table: section.part for table, section in CHANGED.items()}
"""Tables of the parts that a change may keep, and the part that each is of."""

OLD_TABLES = tuple(section.name for part, section in SECTION_OF_PART.items() if is_came(part) and section != ADHESIVE)
"""Tables of the parts that one club came in with: never of another club."""

READABLE: dict[str, str] = {
    section.name: part
    for part, section in SECTION_OF_PART.items()
    if part not in map(came_path, ("adhesive", "ferrule", TAPES))
}
"""Tables of which a single number may be read (``grip.mass``), with the part that each is of."""

REPLACED: dict[str, tuple[str, ...]] = {
    "regrip": ("grip", TAPES),
    "reshaft": ("grip", TAPES, "shaft", "ferrule", "adhesive"),
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
    name = {TAPES: "tape", WEIGHTS: "weight"}.get(without_came(part), without_came(part))
    return f"old {name}" if is_came(part) else name


def place_of(path: str) -> PartPlace:
    """Return where the unknown or figure of that path is, such as ``came.tapes.0.mass_kg`` or ``earlier.0.length_m``."""
    then, part, place, number = read_path(path)
    if then is not None and not part and number in CHANGED_FIGURES:
        part, section, key = CHANGED_FIGURES[number]
        changed = section.field(key)
        assert changed is not None, key  # of the list above
        return PartPlace(part, None, changed, then)
    # a part that came in and that the record knows has all figures of one that is on
    sections = (SECTION_OF_PART[part], SECTION_OF_PART[without_came(part)])
    field = next(field for section in sections for field in section.fields if number in (field.number, field.figure))
    return PartPlace(part, place, field, then)


def old_part_lacking(job: str, quantity: str, *, old_parts: bool) -> str:
    """Say why a quantity or a number of a part cannot be predicted of the parts that come off; empty when it can be.

    Args:
        job: The work asked for.
        quantity: Key of a quantity, or a number of a part such as ``old_grip.mass``.
        old_parts: Whether it is read while the old parts are on.
    """
    replaced = REPLACED.get(job, ())
    part = READABLE.get(table_of(quantity)[0], "")
    if is_came(part) and without_came(part) not in replaced:
        return f"is of a part that does not come off in this kind of work ({job})"
    never = NEVER_MEASURED.get(quantity)
    if old_parts and never in replaced:
        return f"rests on the old {never}, of which that is not measured"
    return ""
