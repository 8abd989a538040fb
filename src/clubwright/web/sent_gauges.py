"""What a card's form says of figures of parts and of the gauges that measured them, and what it asks of those."""

from __future__ import annotations

from clubwright.services.checks.usual_gauge import USUAL_OF_A_PART, is_weighed_again
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields.fields import MEASURED_KINDS, measured_kind
from clubwright.web.sent import Sent, one
from clubwright.web.views.forms import Form, GaugeView

FIELD = "gauge_"
"""Begins the name of the field in which the gauge of one kind of figures is chosen."""

NOT_SAID = "-"
"""Sent where a person chose that no gauge is said."""

_LABELS = {"mass": "weighed on", "length": "lengths by", "diameter": "diameters by", "angle": "angles by"}


def sent_gauges(sent: Sent) -> dict[str, str]:
    """Return the gauges that were chosen, by kind of figure; an empty name where a person chose none."""
    chosen = {kind: one(sent, FIELD + kind) for kind in MEASURED_KINDS}
    return {kind: "" if name == NOT_SAID else name for kind, name in chosen.items() if name}


def sent_figures(sent: Sent, ticket: Ticket) -> dict[str, dict[str, str]]:
    """Return the figures of parts that are new, by table and key; the same value weighed again is new too."""
    found: dict[str, dict[str, str]] = {}
    for name in sent:
        section, dot, key = name.partition(".")
        value = one(sent, name)
        if dot and value and (ticket.text(section, key) != value or is_weighed_again(ticket, section, key)):
            found.setdefault(section, {})[key] = value
    return found


def gauges_asked(form: Form, ticket: Ticket) -> tuple[GaugeView, ...]:
    """Return what may be chosen on a form of figures; nothing where the ticket has no gauge."""
    kinds = {measured_kind(*field.name.split(".", 1)) for field in form.fields if "." in field.name}
    names = tuple(ticket.gauges)
    return tuple(
        GaugeView(
            kind=kind,
            label=_LABELS[kind],
            usual=usual if (usual := USUAL_OF_A_PART.get(kind, "")) in names else "",
            names=names,
        )
        for kind in MEASURED_KINDS
        if kind in kinds and names
    )
