"""What a card's form says of figures of parts and of the gauges that measured them, and what it asks of those."""

from __future__ import annotations

from collections.abc import Sequence

from clubwright.errors import Finding, InputError
from clubwright.services.actions.making.gauge_units import read_in_gauge_unit
from clubwright.services.checks.usual_gauge import is_weighed_again
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields.fields import MEASURED_KINDS, Field, measured_field
from clubwright.ticket.order_paths import place_of
from clubwright.web.sent import Sent, one
from clubwright.web.typed import BORE_FIELDS
from clubwright.web.views.forms import Form, GaugeView
from clubwright.words import on_page

FIELD = "gauge_"
"""Begins the name of the field in which the gauge of one kind of figures is chosen."""

BORE = "head.bore_to_ground"
NOT_SAID = "-"
"""Sent where a person chose that no gauge is said."""


def sent_gauges(sent: Sent) -> dict[str, str]:
    """Return the gauges that were chosen, by kind of figure; an empty name where a person chose none."""
    chosen = {kind: one(sent, FIELD + kind) for kind in MEASURED_KINDS}
    return {kind: "" if name == NOT_SAID else name for kind, name in chosen.items() if name}


def sent_figures(sent: Sent, ticket: Ticket) -> dict[str, dict[str, str]]:
    """Return the figures of parts that are new, by table and key; the same value weighed again is new too."""
    found: dict[str, dict[str, str]] = {}
    bore = _bore_to_ground(sent, ticket)
    for name in (*sent, *((BORE,) if bore else ())):
        place, value = place_of(name), (bore if name == BORE else "") or one(sent, name)
        if place is None or not value:
            continue
        if ticket.text(place.table, place.key) != value or is_weighed_again(ticket, place.table, place.key):
            found.setdefault(place.table, {})[place.key] = value
    return found


def _bore_to_ground(sent: Sent, ticket: Ticket) -> str:
    """Return R - T as it was measured, each in the unit of its gauge; empty where neither was sent."""
    typed, gauge = [one(sent, name) for name in BORE_FIELDS], sent_gauges(sent).get("length")
    if not any(typed):
        return ""
    missing = [letter for letter, text in zip("RT", typed, strict=True) if not text]
    if missing:
        mend = "Type both: what the rule reads with the test shaft in the bore, and how long that shaft is."
        raise InputError([Finding(where="R - T", what=f"{missing[0]} is not there", mend=mend)])
    return " - ".join(read_in_gauge_unit(ticket, BORE, text, gauge) for text in typed)


def gauges_asked(form: Form, ticket: Ticket) -> tuple[GaugeView, ...]:
    """Return what may be chosen on a form of figures; nothing where the ticket has no gauge."""
    names = tuple(ticket.gauges)
    usual: dict[str, list[str]] = {}
    for field in form.fields:
        measured = _measured(field.figure or field.name)
        if measured is not None:
            usual.setdefault(measured.kind, []).append(measured.by if measured.by in names else "")
    return tuple(
        GaugeView(kind=kind, label=on_page(f"measured {kind}"), usual=_usual(usual[kind]), names=names)
        for kind in MEASURED_KINDS
        if kind in usual and names
    )


def _measured(path: str) -> Field | None:
    """Return the figure of a part that stands at a path; None for whatever else a form asks."""
    place = place_of(path)
    return None if place is None else measured_field(place.table, place.key)


def _usual(names: Sequence[str]) -> str:
    """Say which gauge is taken for the figures of one kind when nothing is chosen; of some of them none may be usual."""
    known = on_page("or").join(dict.fromkeys(filter(None, names)))
    return known if all(names) or not known else on_page("where usual", gauge=known)
