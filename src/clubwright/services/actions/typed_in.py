"""What a person typed in, as canonical text: each figure by the kind of notation of the field that it stands in."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar

import msgspec

from clubwright.club.quantities import QUANTITIES
from clubwright.notation import CANONICAL, Typist, canonical
from clubwright.services.actions.register.fields import OF_THE_PATH, OF_THE_QUANTITY, OF_THE_SECTION, Said, fields_of
from clubwright.ticket.fields.fields import INSTRUMENT, SECTIONS
from clubwright.ticket.order_paths import RELEASE as RELEASE_LINE
from clubwright.ticket.order_paths import place_of
from clubwright.ticket.part_readings import part_kind

_SECTIONS = {section.name: section for section in SECTIONS}
Payload = TypeVar("Payload", bound=msgspec.Struct)
_NO_NUMBERS = ("text", "choice", "key", "gauges")


def kind_of_figure(section: str, key: str) -> str | None:
    """Return the kind of notation of a figure of a ticket; None for words, and for what is no field.

    Args:
        section: Name of its table; of a gauge ``instrument``.
        key: Of the figure.
    """
    if section == INSTRUMENT.name:
        return ""  # in the notation of whatever it reads
    known = _SECTIONS.get(section)
    field = None if known is None else known.field(key)
    return None if field is None or field.kind in _NO_NUMBERS else field.kind


def typed_figures(section: str, values: Mapping[str, str], typist: Typist) -> dict[str, str]:
    """Return figures of one table as canonical text; words are left as they are."""
    kinds = {key: kind_of_figure(section, key) for key in values}
    return {
        key: text if (kind := kinds[key]) is None else canonical(text, typist, kind) for key, text in values.items()
    }


def typed_order(values: Mapping[str, str], typist: Typist) -> dict[str, str]:
    """Return figures by their paths, such as ``target.length``, as canonical text; words are left as they are."""
    return {path: typed_at(path, text, typist) for path, text in values.items()}


def typed_at(path: str, text: str, typist: Typist) -> str:
    """Return a figure at a path of an order as canonical text."""
    place = place_of(path)
    kind = "" if path == RELEASE_LINE else None if place is None else kind_of_figure(place.table, place.key)
    return text if kind is None else canonical(text, typist, kind)


def typed_reading(quantity: str, text: str, typist: Typist) -> str:
    """Return a reading of a quantity, or of a number of a part, as canonical text."""
    kind = QUANTITIES[quantity].kind if quantity in QUANTITIES else part_kind(quantity)
    return canonical(text, typist, kind or "")


def typed_payload(payload: Payload, typist: Typist) -> Payload:
    """Return what is given with an action with its figures as canonical text, by what the register says of its fields."""
    if typist == CANONICAL:
        return payload
    fields = (field for field in fields_of(type(payload)) if field.notation and getattr(payload, field.name))
    return msgspec.structs.replace(payload, **{field.name: _typed(payload, field, typist) for field in fields})


def _typed(payload: Any, field: Said, typist: Typist) -> Any:
    value = getattr(payload, field.name)
    if field.notation == OF_THE_QUANTITY:
        return typed_reading(payload.quantity, value, typist)
    if field.notation == OF_THE_SECTION:
        return typed_figures(payload.section, value, typist)
    if field.notation == OF_THE_PATH:
        return typed_order(value, typist)
    return canonical(value, typist, field.notation)
