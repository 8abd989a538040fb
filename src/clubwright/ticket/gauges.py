"""The readings of a ticket with the gauges that took them, as the belief takes them in."""

from __future__ import annotations

from clubwright.belief.instruments import Instrument
from clubwright.belief.readings import Reading
from clubwright.club.stages import STAGES
from clubwright.notation import parse_difference
from clubwright.ticket.defaults import GAUGES, PART_GAUGES
from clubwright.ticket.model import ReadingEntry, Ticket
from clubwright.ticket.reading_entries import half_width_kind, part_number_path


def readings_of(ticket: Ticket) -> tuple[Reading, ...]:
    """Return the ticket's readings in order, each with its gauge."""
    return tuple(_reading(ticket, entry) for entry in ticket.readings)


def gauge_of(ticket: Ticket, entry: ReadingEntry) -> Instrument:
    """Return the gauge a reading was taken with: the ticket's, else the usual one for that quantity."""
    named = ticket.instruments.get(entry.instrument or "")
    if named is None:
        return usual_gauge(entry.quantity)
    return Instrument(
        name=named.name,
        resolution=named.resolution,
        repeatability=named.repeatability,
        bias=named.bias,
    )


def usual_gauge(quantity: str) -> Instrument:
    """Return the gauge taken for a quantity when a reading names none (estimates of ours)."""
    if quantity in GAUGES:
        kind, *texts = GAUGES[quantity]
    else:
        kind = half_width_kind(quantity)
        texts = list(PART_GAUGES.get(kind, PART_GAUGES["mass"]))
        kind = kind if kind in PART_GAUGES else "mass"
    resolution, repeatability, bias = (parse_difference(kind, text, where="usual gauges").value for text in texts)
    return Instrument(name="usual gauge", resolution=resolution, repeatability=repeatability, bias=bias)


def _reading(ticket: Ticket, entry: ReadingEntry) -> Reading:
    gauge = gauge_of(ticket, entry)
    if entry.entry.sd is not None:
        # An uncertainty typed behind the value stands in for the gauge's own figures.
        gauge = Instrument(name=gauge.name, resolution=0.0, repeatability=entry.entry.sd, bias=0.0)
    quantity = entry.quantity if entry.quantity in GAUGES else part_number_path(entry.quantity)
    return Reading(
        where=entry.where,
        quantity=quantity,
        value=entry.entry.value,
        stage=STAGES[entry.stage],
        fitted=ticket.fitted_counts(entry.weights),
        instrument=gauge,
        repeats=1 if entry.entry.sd is not None else entry.repeats,
        keep=entry.keep,
    )
