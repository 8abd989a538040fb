"""The readings of a ticket with the gauges that took them, as the belief takes them in."""

from __future__ import annotations

from clubwright.belief.instruments import Instrument
from clubwright.belief.readings import Reading
from clubwright.club.build import FrequencyMeter
from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import FINISHED, STAGES
from clubwright.errors import Finding
from clubwright.notation import parse_difference
from clubwright.state.gauge import ReadingEntry
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields.defaults import PART_GAUGES
from clubwright.ticket.fields.figures import meter_of
from clubwright.ticket.part_paths import old_part_lacking
from clubwright.ticket.part_readings import part_lacking, part_number_path
from clubwright.ticket.rows.reading_entries import half_width_kind
from clubwright.ticket.then import ticket_then


def readings_of(ticket: Ticket) -> tuple[Reading, ...]:
    """Return the ticket's readings in order, each with its gauge; without those that nothing can be held against."""
    return tuple(_reading(ticket, entry) for entry in ticket.readings if not entry_lacks(ticket, entry))


def entry_lacks(ticket: Ticket, entry: ReadingEntry) -> str:
    """Say what of the parts that were on then must be on the ticket before a reading can be used; empty when it can be."""
    return lacking(ticket_then(ticket, entry.before), entry.quantity, entry.stage)


def lacking(ticket: Ticket, quantity: str, stage: str = FINISHED.name) -> str:
    """Say what of the parts must be on the ticket before a quantity can be predicted at a stage; empty when it can be."""
    of_old_parts = old_part_lacking(ticket.job, quantity, old_parts=STAGES[stage].old_parts)
    of_a_part = of_old_parts or part_lacking(ticket, quantity)
    if of_a_part:
        return of_a_part
    known = QUANTITIES.get(quantity)
    needs = _NEEDS_OF_A_PART.get(quantity, ()) if known is None else known.needs
    absent = [f"{ticket.row(table).where} {key}" for table, key in needs if not _is_known(ticket, table, key)]
    return "needs " + " and ".join(absent) if absent else ""


def _is_known(ticket: Ticket, table: str, key: str) -> bool:
    if (table, key) == ("shaft", "stiffness"):
        return ticket.club.stiffness is not None
    return ticket.row(table).entry(key) is not None


def unknowable(ticket: Ticket) -> dict[str, str]:
    """Say which quantities of the club cannot be predicted, each with what is missing for it."""
    found = {key: lacking(ticket, key) for key in QUANTITIES}
    return {key: absent for key, absent in found.items() if absent}


_NO_DEFAULT = {
    "head": ("bore_diameter",),
    "shaft": ("tip_trim", "butt_diameter", "lower_diameter", "tip_diameter"),
    "grip": ("core", "diameter_6in"),
}
_NEEDS_OF_A_PART: dict[str, tuple[tuple[str, str], ...]] = {
    "shaft.stiffness_factor": (("shaft", "stiffness"),),
    **{f"{table}.{key}": ((table, key),) for table, keys in _NO_DEFAULT.items() for key in keys},
}
"""Numbers of a part that no default stands in for, with what they need."""


def unused_findings(ticket: Ticket) -> tuple[Finding, ...]:
    """Return a warning for each reading that nothing on the ticket can be held against."""
    return tuple(
        Finding(
            where=entry.where,
            what=f"the reading of {entry.quantity} is not used: it {why}",
            mend="It stays on the ticket for a person to see." if _off(ticket, entry) else _MEND,
            severity="warning",
        )
        for entry in ticket.readings
        if (why := entry_lacks(ticket, entry))
    )


_MEND = "Write that figure in its own table."


def _off(ticket: Ticket, entry: ReadingEntry) -> bool:
    """True for a reading that rests on parts which come off, or do not: no figure of the ticket mends that."""
    return bool(old_part_lacking(ticket.job, entry.quantity, old_parts=STAGES[entry.stage].old_parts))


def gauge_of(ticket: Ticket, entry: ReadingEntry) -> Instrument:
    """Return the gauge a reading was taken with: the ticket's, else the usual one for that quantity."""
    named = ticket.gauges.get(entry.instrument or "")
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
    kind = half_width_kind(quantity)
    if quantity in QUANTITIES:
        usual = QUANTITIES[quantity].gauge
        texts = (usual.resolution, usual.repeatability, usual.bias)
    else:
        texts = PART_GAUGES[kind]
    resolution, repeatability, bias = (parse_difference(kind, text, where="usual gauges").value for text in texts)
    return Instrument(name="usual gauge", resolution=resolution, repeatability=repeatability, bias=bias)


def _reading(ticket: Ticket, entry: ReadingEntry) -> Reading:
    gauge = gauge_of(ticket, entry)
    if entry.entry.sd is not None:
        # An uncertainty typed behind the value stands in for the gauge's own figures.
        gauge = Instrument(name=gauge.name, resolution=0.0, repeatability=0.0, stated=entry.entry.sd)
    quantity = entry.quantity
    if quantity not in QUANTITIES:
        quantity = part_number_path(ticket_then(ticket, entry.before), quantity)
    return Reading(
        where=entry.where,
        quantity=quantity,
        value=entry.entry.value,
        stage=STAGES[entry.stage],
        fitted=ticket.fitted_counts(entry.weights),
        instrument=gauge,
        repeats=1 if entry.entry.sd is not None else entry.repeats,
        keep=entry.keep,
        then=entry.before,
        meter=meter_read(ticket, entry),
    )


def meters_of(ticket: Ticket) -> tuple[FrequencyMeter, ...]:
    """Return how frequencies were read that were read otherwise than by the ticket's [shop]."""
    found = (meter_read(ticket, entry) for entry in ticket.readings)
    return tuple(meter for meter in found if meter is not None)


def meter_read(ticket: Ticket, entry: ReadingEntry) -> FrequencyMeter | None:
    """Return how a frequency was read where that is not the way of the ticket's [shop]: by its gauge, then by itself."""
    named = ticket.gauges.get(entry.instrument or "")
    held = (named.held if named else {}) | entry.held
    if entry.quantity != "frequency" or not held:
        return None
    of_the_shop = meter_of(ticket.shop)
    own = meter_of(ticket.shop, {key: figure.value for key, figure in held.items()})
    return None if own == of_the_shop else own
