"""Small readings of a ticket's figures that the prior needs: usual uncertainties, laid tape, meter, seats."""

from __future__ import annotations

from collections.abc import Mapping

from clubwright.club.build import FrequencyMeter
from clubwright.club.parts import Seat
from clubwright.club.stages import BARE_SHAFT
from clubwright.errors import DocumentPlace, Finding
from clubwright.notation import parse_difference
from clubwright.state.particulars import in_si
from clubwright.state.parts import TapePart
from clubwright.state.shop import ShopFigures
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields.defaults import default_for
from clubwright.ticket.fields.fields import GRIP_JOBS, METER_FIELDS, SHOP, TAPE, Field
from clubwright.units import STANDARD_GRAVITY_M_S2

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


def no_tape(ticket: Ticket, *, every: bool = False) -> tuple[Finding, ...]:
    """Say that no tape is counted where the ticket says nothing of any and a grip goes on; with `every` at any work."""
    if ticket.club.tapes_said or (ticket.job not in GRIP_JOBS and not every):
        return ()
    what, mend = "not given: taken as none", "Write [[tape]] for each kind that is laid, or tape = [] where none is."
    return (
        Finding(where=DocumentPlace(TAPE.name, many=True, source=ticket.source), what=what, mend=mend, severity="note"),
    )


GIVE_N_M = STANDARD_GRAVITY_M_S2
"""Moment by which the give of a clamp is told: 1 kg hung 1 m out from it."""


def meter_of(shop: ShopFigures, held: Mapping[str, float] | None = None) -> FrequencyMeter:
    """How frequencies are read: the usual way, but for what the table [shop] says, and but for `held`.

    Args:
        shop: Of the ticket.
        held: In SI by key, how a meter, or one reading, holds a club otherwise (`METER_FIELDS`).
    """
    usual = FrequencyMeter()
    said = {field.key: value for field in METER_FIELDS if (value := shop.value(field.key)) is not None} | dict(
        held or {}
    )
    return FrequencyMeter(
        clamp_length_m=said.get("clamp", usual.clamp_length_m),
        clamp_compliance_rad_n_m=said.get("clamp_give", 0.0) / GIVE_N_M,
        test_mass_kg=said.get("frequency_test_weight", usual.test_mass_kg),
        test_insertion_m=said.get("frequency_test_insertion", usual.test_insertion_m),
    )


def meter_taken(ticket: Ticket) -> tuple[Finding, ...]:
    """Say what is taken for the frequency meter, where a frequency is ordered or read and nothing says how."""
    wanted: set[str] = set(_CLUB_HELD) if "frequency" in ticket.targets and ticket.club.stiffness else set()
    for reading in ticket.readings:
        if reading.quantity == "frequency" and ticket.club.stiffness:
            gauge = ticket.gauges.get(reading.instrument or "")
            said = {*reading.held, *(gauge.held if gauge else ())}
            wanted |= {*_CLUB_HELD, *(_SHAFT_LOADED if reading.stage == BARE_SHAFT.name else ())} - said
    found = []
    for field in METER_FIELDS:
        default = default_for(f"{SHOP.name}.{field.key}", ticket.kind)
        if default is not None and field.key in wanted and ticket.shop.entry(field.key) is None:
            what = f"not given: taken as {default.text} ({default.standing})"
            mend = "Write it there, in the gauge or in the reading: another clamp or weight reads another frequency."
            found.append(Finding(where=ticket.shop.where.at(field.key), what=what, mend=mend, severity="note"))
    return tuple(found)


_CLUB_HELD = ("clamp", "clamp_give")
_SHAFT_LOADED = ("frequency_test_weight", "frequency_test_insertion")


def seat_of(text: str) -> Seat:
    """Return a seat by its word."""
    seats: dict[str, Seat] = {"port": "port", "tip": "tip", "butt": "butt", "head": "head"}
    return seats[text]
