"""A figure typed without its unit is in the unit that its gauge shows: completed at the door, before anything is kept.

A gauge shows the unit in which its resolution stands on the ticket or among the shop's settings. A figure that can be read
without a unit, or whose gauge is not known, stays as it is typed, and is refused as ever where more than one unit would do.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

import msgspec

from clubwright.club.quantities import QUANTITIES
from clubwright.notation import is_bare, with_unit_like
from clubwright.services.actions.register.fields import OF_THE_PATH, OF_THE_QUANTITY, OF_THE_SECTION, Said, fields_of
from clubwright.services.checks.usual_gauge import usual_gauge_of
from clubwright.state.ticket import Ticket
from clubwright.ticket.field_names import read_field_name
from clubwright.ticket.fields.fields import measured_kind
from clubwright.ticket.order_paths import place_of
from clubwright.ticket.part_readings import part_kind

Payload = TypeVar("Payload", bound=msgspec.Struct)

USUAL = {"mass": "gram scale", "length": "rule"}
"""Gauge of a figure that an action asks for by itself, by its kind of notation (`clubwright.ticket.fields`)."""


def read_in_gauge_unit(ticket: Ticket, quantity: str, text: str, gauge: str | None) -> str:
    """Return a reading with the unit of its gauge where it was typed without one.

    Args:
        ticket: Whose gauges they are.
        quantity: Key in the register of quantities, or a number of a part.
        text: As typed.
        gauge: Name of the gauge; the usual one for the quantity when it is empty or None.
    """
    kind = QUANTITIES[quantity].kind if quantity in QUANTITIES else part_kind(quantity)
    return _shown(ticket, text, kind, gauge or usual_gauge_of(ticket, quantity) or USUAL.get(kind or ""))


def figure_in_gauge_unit(ticket: Ticket, name: str, kind: str, text: str, gauge: str | None) -> str:
    """Return a figure of a card with the unit of its gauge where it was typed without one, as the door will take it.

    Args:
        ticket: Whose gauges they are.
        name: Path of a part's figure, such as ``head.mass``; else the name of a field of an action, such as ``cut_length``.
        kind: Its kind of notation.
        text: As typed.
        gauge: Name of the gauge, where a person chose one.
    """
    place = place_of(name)
    if place is not None:
        return _of_part(ticket, place.table, place.key, text, gauge)
    return _shown(ticket, text, kind, gauge or USUAL.get(kind))


def in_gauge_units(payload: Payload, ticket: Callable[[], Ticket | None]) -> Payload:
    """Return what is given with an action with the units of its gauges where figures were typed without one.

    Args:
        payload: The register's struct of the action.
        ticket: Gives the job's ticket, None while there is none; asked only where a figure is bare.
    """
    fields = [field for field in fields_of(type(payload)) if field.notation and _is_bare(getattr(payload, field.name))]
    found = ticket() if fields else None
    if found is None:
        return payload
    return msgspec.structs.replace(payload, **{field.name: _completed(payload, field, found) for field in fields})


def _is_bare(value: str | dict[str, str] | None) -> bool:
    texts = value.values() if isinstance(value, dict) else (value or "",)
    return any(map(is_bare, texts))


def _completed(payload: Any, field: Said, ticket: Ticket) -> Any:
    value = getattr(payload, field.name)
    match field.notation:
        case notation if notation == OF_THE_QUANTITY:
            return read_in_gauge_unit(ticket, payload.quantity, value, payload.instrument)
        case notation if notation == OF_THE_SECTION:
            named = getattr(payload, "gauge", None)
            return {key: _of_part(ticket, payload.section, key, text, named) for key, text in value.items()}
        case notation if notation == OF_THE_PATH:
            gauges = getattr(payload, "gauges", {})
            return {path: _at(ticket, path, text, gauges) for path, text in value.items()}
        case notation:
            named = getattr(payload, f"{notation}_gauge", None) or getattr(payload, "gauge", None)
            return _shown(ticket, value, notation, named or USUAL.get(notation))


def _at(ticket: Ticket, path: str, text: str, gauges: dict[str, str]) -> str:
    section, key, _ = read_field_name(path)
    return _of_part(ticket, section, key, text, gauges.get(measured_kind(section, key) or ""))


def _of_part(ticket: Ticket, section: str, key: str, text: str, named: str | None) -> str:
    kind = measured_kind(section, key)
    return text if kind is None else _shown(ticket, text, kind, named or usual_gauge_of(ticket, f"{section}.{key}"))


def _shown(ticket: Ticket, text: str, kind: str | None, gauge: str | None) -> str:
    found = None if gauge is None else ticket.gauges.get(gauge)
    return text if kind is None or found is None else with_unit_like(text, found.typed.get("resolution", ""), kind)
