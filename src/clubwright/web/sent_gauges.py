"""What a card's form says of the gauges that measured its figures, and what it asks of them."""

from __future__ import annotations

from clubwright.services.usual_gauge import USUAL_OF_A_PART
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields import MEASURED_KINDS, measured_kind
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
