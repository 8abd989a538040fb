"""What a step leaves to be written down, for a card filled in with a pencil: the fields of its action, by the register."""

from __future__ import annotations

from collections.abc import Iterator

import msgspec

from clubwright.club.quantities import QUANTITIES
from clubwright.planning.steps.types import Step
from clubwright.services.actions.following import MEASURED_AT, READ_AT
from clubwright.services.actions.register.actions import ACTIONS
from clubwright.services.actions.register.facets import steps_of
from clubwright.services.actions.register.fields import Said, fields_of
from clubwright.services.answer.club_answer import ClubAnswer
from clubwright.state.particulars import whole_number
from clubwright.ticket.fields.fields import SECTIONS
from clubwright.words.say import spoken

_BY_NAME = {section.name: section for section in SECTIONS}
_NO_FIGURE = ("done_at", "clamp")
"""When it was done stands on every card, and what the clamp usually holds is the shop's."""


class Blank(msgspec.Struct, frozen=True, kw_only=True):
    """One place to write.

    Attributes:
        label: What is written there.
        kind: Kind of notation; empty for words.
        known: What the ticket has of it already, as typed; empty where it has nothing.
    """

    label: str
    kind: str = ""
    known: str = ""


def blanks_of(step: Step, worked: ClubAnswer) -> tuple[Blank, ...]:
    """Return what a step leaves to be written down; nothing for one that is only ticked.

    Args:
        step: A step of the plan.
        worked: The ticket, worked.
    """
    if step.key in MEASURED_AT:
        return tuple(_measured(step, worked))
    if step.key in READ_AT:
        return tuple(_read(step, worked))
    if step.key == "tape":
        return tuple(_tapes(worked))
    if step.key == "choose weight":
        return (Blank(label=spoken("sheet", "weights that are on now, by name")),)
    action = next((entry for entry in ACTIONS.values() if step.key in steps_of(entry) and entry.on_a_job), None)
    return () if action is None else tuple(_said(field) for field in fields_of(action.payload) if _is_written(field))


def figure_words(section: str, key: str) -> str:
    """Say which figure of a part is meant."""
    return f"{spoken('section', section)}: {spoken('quantity' if key in QUANTITIES else 'key', key)}"


def _measured(step: Step, worked: ClubAnswer) -> Iterator[Blank]:
    for section, key in MEASURED_AT[step.key]:
        field = _BY_NAME[section].field(key)
        assert field is not None, key  # the list names fields of the ticket file
        label = figure_words(section, key)
        kind = "" if field.kind in ("choice", "text") else field.kind
        yield Blank(label=label, kind=kind, known=worked.club_state.ticket.text(section, key))


def _read(step: Step, worked: ClubAnswer) -> Iterator[Blank]:
    """What is read at a step: each quantity once, at the first of its stages; at the end each target."""
    wanted = [(item.quantity, item.stage) for item in step.expected if item.quantity in QUANTITIES]
    if step.key == "inspect":
        wanted = [(goal.key, "") for goal in worked.club_state.goals]
    first: dict[str, str] = {}
    for quantity, stage in wanted:
        first.setdefault(quantity, stage)
    for quantity, stage in first.items():
        of = QUANTITIES[quantity]
        yield Blank(label=", ".join(filter(None, (spoken("quantity", quantity), spoken("stage", stage)))), kind=of.kind)


def _tapes(worked: ClubAnswer) -> Iterator[Blank]:
    for row in worked.club_state.ticket.tapes:
        layers = whole_number(row.layers, 1)
        known = "" if row.mass is None else row.mass.typed
        together = spoken("sheet", "all layers together")
        yield Blank(label=f"{row.name or 'tape'} x {layers}, {together}", kind="mass", known=known)


def _is_written(field: Said) -> bool:
    """True for a figure, for words that are needed, and for the lot; what the card says already is not asked again."""
    if field.name in _NO_FIGURE or field.kind is not str:
        return False
    return bool(field.notation) or field.needed or field.name == "batch"


def _said(field: Said) -> Blank:
    if field.name in QUANTITIES:
        return Blank(label=spoken("quantity", field.name), kind=field.notation)
    label = "lot on the packs" if field.name == "batch" else field.label
    return Blank(label=spoken("sheet", label), kind=field.notation)
