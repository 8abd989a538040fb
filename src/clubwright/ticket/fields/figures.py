"""Small readings of a ticket's figures that the prior needs: usual uncertainties, laid tape, meter, seats."""

from __future__ import annotations

from clubwright.club.build import FrequencyMeter
from clubwright.club.parts import Seat
from clubwright.errors import DocumentPlace, Finding
from clubwright.notation import parse_difference
from clubwright.state.particulars import in_si
from clubwright.state.parts import TapePart
from clubwright.state.shop import ShopFigures
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields.fields import GRIP_JOBS, TAPE, Field

_LAYER = next(field for field in TAPE.fields if field.key == "layer_mass")


def usual_sd(field: Field, value: float) -> float:
    """Return the standard uncertainty of a figure that was typed without one."""
    if field.sd_share is not None:
        return abs(value) * field.sd_share
    if field.sd is None:
        return 0.0
    kind = "diameter" if field.kind == "grip_core" else field.kind
    return parse_difference(kind, field.sd, where="fields").value


LAID_SHARE = 0.1
"""Uncertainty of a mass that follows from the tape's area, as a share (estimate of ours)."""


def laid_mass(row: TapePart, layers: int, layer_sd: float | None = None) -> tuple[float, float] | None:
    """Mass of laid tape with its uncertainty, in kg: from that of one layer, else from width, length and mass per area.

    None when the ticket gives neither. `layer_sd` is the doubt of one layer where it is known what weighed it.
    """
    one = row.layer_mass
    if one is not None:
        sd = layer_sd if layer_sd is not None else one.sd if one.sd is not None else usual_sd(_LAYER, one.value)
        return one.value * layers, sd * layers
    width, length, area = in_si(row.width), in_si(row.length), in_si(row.area_density)
    if width is None or length is None or area is None:
        return None
    mass = width * length * area * layers
    return mass, LAID_SHARE * mass


def no_tape(ticket: Ticket) -> tuple[Finding, ...]:
    """Say that no tape is counted, where a grip goes on and the ticket says nothing of any."""
    if ticket.club.tapes_said or ticket.job not in GRIP_JOBS:
        return ()
    what, mend = "not given: taken as none", "Write [[tape]] for each kind that is laid, or tape = [] where none is."
    return (
        Finding(where=DocumentPlace(TAPE.name, many=True, source=ticket.source), what=what, mend=mend, severity="note"),
    )


def meter_of(shop: ShopFigures) -> FrequencyMeter:
    """How frequencies are read, from the ticket's table [shop]: clamp and test weight; the usual ones where it is silent."""
    usual = FrequencyMeter()
    clamp, mass, into = (shop.value(key) for key in ("clamp", "frequency_test_weight", "frequency_test_insertion"))
    return FrequencyMeter(
        clamp_length_m=usual.clamp_length_m if clamp is None else clamp,
        test_mass_kg=usual.test_mass_kg if mass is None else mass,
        test_insertion_m=usual.test_insertion_m if into is None else into,
    )


def seat_of(text: str) -> Seat:
    """Return a seat by its word."""
    seats: dict[str, Seat] = {"port": "port", "tip": "tip", "butt": "butt", "head": "head"}
    return seats[text]
