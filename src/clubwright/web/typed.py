"""The numbers of a form as canonical text, by the names of its fields: made where the form comes in, before it is read."""

from __future__ import annotations

from collections.abc import Mapping

from clubwright.notation import Typist, canonical
from clubwright.services.actions.register.actions import ACTIONS
from clubwright.services.actions.register.fields import OF_THE_PATH, OF_THE_QUANTITY, OF_THE_SECTION, fields_of
from clubwright.services.actions.typed_in import kind_of_figure, typed_at, typed_reading
from clubwright.ticket.field_names import read_line_name

_NOT_BY_NAME = ("", OF_THE_QUANTITY, OF_THE_SECTION, OF_THE_PATH)
_KINDS = {
    field.page: field.notation
    for action in ACTIONS.values()
    for field in fields_of(action.payload)
    if field.notation not in _NOT_BY_NAME
}
"""Fields of actions that are named by what they ask for, and their kinds of notation."""

_READINGS = ("value", "confirmed")
BORE_FIELDS = ("bore_reading", "test_shaft")
"""R, what the rule reads with a test shaft in the bore, and T, how long that shaft is: R - T is bore to ground."""

TAPE_FIELD = "tape:"
"""Begins the name of the field in which the mass of a tape is typed."""


def canonical_form(sent: Mapping[str, list[str]], typist: Typist) -> dict[str, list[str]]:
    """Return what a form sent with its numbers as canonical text; words, names and keys are left as they are."""
    quantity = next(iter(sent.get("quantity", ())), "")
    return {name: [_typed(name, text, quantity, typist) for text in texts] for name, texts in sent.items()}


def _typed(name: str, text: str, quantity: str, typist: Typist) -> str:
    if name in _READINGS:
        return typed_reading(quantity, text, typist)
    if name in BORE_FIELDS:
        return canonical(text, typist, "length")
    if name in _KINDS or name.startswith(TAPE_FIELD):
        return canonical(text, typist, _KINDS.get(name, "mass"))
    section, key, row = read_line_name(name)
    if row is not None:
        kind = kind_of_figure(section, key)
        return text if kind is None else canonical(text, typist, kind)
    return typed_at(name, text, typist)
