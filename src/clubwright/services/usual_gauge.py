"""Which gauge of a ticket reads a quantity, when nobody says: the one of its usual name, if the ticket has it."""

from __future__ import annotations

from clubwright.state.ticket import Ticket

NAMES = {
    "length": "rule",
    "balance_point": "rule",
    "loft": "angle gauge",
    "lie": "angle gauge",
    "bounce": "angle gauge",
    "swing_weight": "swing scale",
    "total_weight": "gram scale",
    "grip_diameter_2in": "caliper",
    "grip_diameter_6in": "caliper",
    "frequency": "frequency meter",
}
"""Quantity to the usual name of its gauge on a ticket; the names are ours."""


def usual_gauge_of(ticket: Ticket, quantity: str) -> str | None:
    """Return the ticket's own gauge for a quantity; None leaves it to the documented defaults for that kind of gauge."""
    name = NAMES.get(quantity)
    return name if name in ticket.gauges else None
