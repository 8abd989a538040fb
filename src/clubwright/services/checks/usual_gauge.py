"""Which gauge of a ticket reads a quantity or a figure, when nobody says: that of its usual name, if there is one."""

from __future__ import annotations

from collections.abc import Iterable

from clubwright.club.quantities import QUANTITIES
from clubwright.errors import Finding
from clubwright.journal.facts import PartChanged
from clubwright.journal.reducers.measured import gauges_of
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields.fields import measured_kind
from clubwright.ticket.rows.measured import named_gauge

USUAL_OF_A_PART = {"mass": "gram scale"}
"""Kind of figure of a part to the usual name of its gauge, where it is read straight off it; at others a person says it."""


def usual_gauges_of(ticket: Ticket, section: str, keys: Iterable[str]) -> dict[str, str]:
    """Return the ticket's own gauge for each figure of a part that has a usual one; the others have none.

    Args:
        ticket: The ticket.
        section: Table of the part.
        keys: Of the figures that are measured.
    """
    return {
        key: name
        for key in keys
        if (name := USUAL_OF_A_PART.get(measured_kind(section, key) or "")) and name in ticket.gauges
    }


def usual_gauge_of(ticket: Ticket, quantity: str) -> str | None:
    """Return the ticket's own gauge for a quantity; None leaves it to the documented defaults for that kind of gauge."""
    name = QUANTITIES[quantity].gauge.name if quantity in QUANTITIES else None
    return name if name in ticket.gauges else None


def is_weighed_again(ticket: Ticket, section: str, key: str) -> bool:
    """True for a figure that a gauge measured, or usually measures: the same value again is one more weighing."""
    known = bool(named_gauge(ticket.row(section), key)) if section in ticket.tables() else False
    return known or bool(usual_gauges_of(ticket, section, [key]))


def gauge_findings(what: PartChanged) -> list[Finding]:
    """Return what is wrong with the gauges of a change of a part, whatever gauges the ticket has."""
    return [
        Finding(
            where=f"[{what.section}] gauges {key}",
            what="a gauge of nothing that was measured",
            mend="Name a gauge for a mass, a length, a diameter or an angle of a part, with its value.",
        )
        for key in gauges_of(what)
        if not what.values.get(key) or measured_kind(what.section, key) is None
    ]
