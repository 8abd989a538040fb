"""Small readings of a ticket's figures that the prior needs: usual uncertainties, laid tape, seats."""

from __future__ import annotations

from clubwright.club.parts import Seat
from clubwright.notation import parse_difference
from clubwright.ticket.fields import Field
from clubwright.ticket.model import Row


def usual_sd(field: Field, value: float) -> float:
    """Return the standard uncertainty of a figure that was typed without one."""
    if field.sd_share is not None:
        return abs(value) * field.sd_share
    if field.sd is None:
        return 0.0
    kind = "diameter" if field.kind == "grip_core" else field.kind
    return parse_difference(kind, field.sd, where="fields").value


def laid_mass(row: Row, layers: int) -> float | None:
    """Mass of laid tape from width, length and mass per area, when the ticket gives all three."""
    width, length, area = row.value("width"), row.value("length"), row.value("area_density")
    if width is None or length is None or area is None:
        return None
    return width * length * area * layers


def seat_of(text: str) -> Seat:
    """Return a seat by its word."""
    seats: dict[str, Seat] = {"port": "port", "tip": "tip", "butt": "butt", "head": "head"}
    return seats[text]
