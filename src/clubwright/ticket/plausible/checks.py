"""What cannot be, or is odd, about figures that are each well written: a cap longer than its grip, a lie of 10 degrees.

An error is something no bench can have in hand. A warning is something that may be but is far more often a slip. The usual
ranges are estimates of ours, wide on purpose, except where a source stands beside them.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from itertools import pairwise

from clubwright.club.bounds import Bounds
from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import STAGES
from clubwright.errors import DocumentPlace, Finding
from clubwright.notation import render
from clubwright.state.particulars import in_si, whole_number
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields.fields import CUT_JOBS
from clubwright.ticket.plausible.cut import cut_shaft
from clubwright.ticket.plausible.old import old_parts
from clubwright.ticket.plausible.ports import ports_to_fill
from clubwright.ticket.plausible.ranges import BY_KIND, PARTS
from clubwright.ticket.ticket_number import wrong_number

SLACK_M = 1e-3
"""Lengths that were measured apart may contradict each other by this much."""

MENDS = "Check the unit and the digits, and measure it again."


def plausible(ticket: Ticket) -> tuple[Finding, ...]:
    """Return what is impossible (error) or odd (warning) about a ticket, all at once; the ticket may be incomplete."""
    checks: tuple[Callable[[Ticket], Iterator[Finding]], ...] = (
        _ranges,
        lambda ticket: wrong_number(ticket.order.where.at("id"), ticket.order.id),
        _shaft,
        cut_shaft,
        _grip,
        _head_and_target,
        _adhesive,
        _tray,
        ports_to_fill,
        _readings,
        old_parts,
    )
    return tuple(finding for check in checks for finding in check(ticket))


def _error(where: DocumentPlace, what: str, mend: str = MENDS) -> Finding:
    return Finding(where=where, what=what, mend=mend)


def _warning(where: DocumentPlace, what: str, mend: str = MENDS) -> Finding:
    return Finding(where=where, what=what, mend=mend, severity="warning")


def _ranges(ticket: Ticket) -> Iterator[Finding]:
    kind = ticket.order.kind
    rows = [
        *ticket.tables().items(),
        *(("tape", row) for row in ticket.tapes),
        *(("weight", row) for row in ticket.weights),
        *(("old_tape", row) for row in ticket.club.came.tapes),
        *((part, row) for change in ticket.changes for part, row in change.rows.items()),
        *(("tape", row) for change in ticket.changes for row in change.tapes or ()),
    ]
    for section, row in rows:
        for key, entry in row.numbers.items():
            bounds = PARTS.get(f"{section}.{key}")
            if bounds is None and section in ("head", "target"):
                bounds = BY_KIND.get(key, {}).get(kind)
            if bounds is not None:
                yield from _within(entry.where, entry.typed, entry.value, bounds)
    for held in (*(gauge.held for gauge in ticket.gauges.values()), *(reading.held for reading in ticket.readings)):
        for key, entry in held.items():
            yield from _within(entry.where, entry.typed, entry.value, PARTS[f"shop.{key}"])


def _within(where: DocumentPlace, typed: str, value: float, bounds: Bounds) -> Iterator[Finding]:
    if not bounds.least <= value <= bounds.most or (value == bounds.least and not bounds.least_itself):
        yield _error(where, f'"{typed}" cannot be: {bounds.why}')
    elif not bounds.low <= value <= bounds.high:
        yield _warning(where, f'"{typed}" is unusual: {bounds.why}')


def _shaft(ticket: Ticket) -> Iterator[Finding]:
    row = ticket.club.shaft
    raw, trim = in_si(row.raw_length), in_si(row.tip_trim) or 0.0
    if row.tip == "taper" and trim > 0:
        mend = 'Trim a taper tip at the butt only, or write tip = "parallel".'
        yield _warning(
            row.where.at("tip_trim"),
            "a taper tip is made to fit the bore: nothing is cut off it, and this is not used",
            mend,
        )
    if raw is None:
        return
    if trim >= raw:
        yield _error(row.where.at("tip_trim"), f"nothing is left of a shaft of {render('length', raw)}")
        return
    trim = 0.0 if ticket.taper_trim else trim
    balance, mass = in_si(row.balance_from_tip), in_si(row.mass)
    if balance is not None and not 0 < balance < raw:
        yield _error(row.where.at("balance_from_tip"), "the balance point lies outside the shaft")
    elif balance is not None and not 0.4 < balance / raw < 0.65:
        what = f"the balance point at {balance / raw:.0%} of the shaft from its tip is unusual"
        yield _warning(row.where.at("balance_from_tip"), what, "Measure it raw, before any trim, from the tip.")
    cut = in_si(row.cut_length)
    if cut is not None and cut > raw - trim + SLACK_M:
        what = f"a shaft of {render('length', raw)} cannot be cut to {render('length', cut)}"
        yield _error(
            row.where.at("cut_length"), f"{what} after a tip trim of {render('length', trim)}" if trim else what
        )
    if mass is not None and mass > 0:
        yield from _offcuts(ticket, mass, raw, trim, cut)


def _offcuts(ticket: Ticket, mass: float, raw: float, trim: float, cut: float | None) -> Iterator[Finding]:
    row = ticket.club.shaft
    wanted = in_si(ticket.order.targets.length)
    if wanted is not None:
        wanted -= (in_si(ticket.club.head.bore_to_ground) or 0.0) + (in_si(ticket.club.grip.cap) or 0.0)
    length = cut if cut is not None else wanted
    butt, tip = in_si(row.butt_density) or 0.0, in_si(row.tip_density) or 0.0
    off = tip * trim + (0.0 if length is None else butt * max(raw - trim - length, 0.0))
    if off >= mass:
        what = f"the offcuts would weigh {render('mass', off)}, the whole shaft {render('mass', mass)}"
        key = "tip_density" if tip * trim >= mass else "butt_density"
        yield _error(row.where.at(key), what, "Weigh an offcut, and divide by its length.")
    for key, density in (("butt_density", butt), ("tip_density", tip)):
        if density > 0 and not 0.3 < density * raw / mass < 3:
            what = (
                f"{render('linear_density', density)} where the whole shaft has {render('linear_density', mass / raw)}"
            )
            yield _warning(row.where.at(key), what, "Weigh an offcut, and divide by its length.")


def _grip(ticket: Ticket) -> Iterator[Finding]:
    row = ticket.club.grip
    length, cap, cg = in_si(row.length), in_si(row.cap), in_si(row.cg_from_cap)
    if length is not None and cap is not None and cap >= length:
        yield _error(row.where.at("cap"), f"the cap is thicker than the grip of {render('length', length)} is long")
    if length is not None and cg is not None and not 0 < cg < length:
        yield _error(row.where.at("cg_from_cap"), "the centre of gravity lies outside the grip")
    core, outside = in_si(row.core), in_si(row.diameter_2in)
    if core is not None and outside is not None and outside <= core:
        yield _error(row.where.at("diameter_2in"), f"a grip of core {render('diameter', core)} is thicker than that")
    for tape in ticket.tapes:
        place = in_si(tape.cg_from_cap)
        if place is not None and length is not None and place > length:
            mend = "Tape lies under the grip: measure from the outer face of the cap."
            yield _warning(tape.where.at("cg_from_cap"), "the tape's centre lies below the end of the grip", mend)


def _head_and_target(ticket: Ticket) -> Iterator[Finding]:
    head, target = ticket.club.head, ticket.order.targets
    bore, depth = in_si(head.bore_to_ground), in_si(head.bore_depth)
    if bore is not None and depth is not None and bore + depth > 0.15:
        what = f"bottom of the bore and its depth put the hosel's top {render('length', bore + depth)} above the ground"
        yield _error(head.where.at("bore_depth"), what)
    length, balance, whole = (target.value(key) for key in ("length", "balance_point", "total_weight"))
    if length is not None and balance is not None and balance >= length:
        yield _error(target.where.at("balance_point"), "the balance point lies beyond the club's end")
    parts = sum(in_si(part.mass) or 0.0 for part in (head, ticket.club.grip))
    if whole is not None and parts >= whole:
        what = f"head and grip alone weigh {render('mass', parts)}"
        yield _warning(target.where.at("total_weight"), what, "Check the target, or pull lighter parts.")
    raw = in_si(ticket.club.shaft.raw_length)
    if ticket.job in CUT_JOBS and length is not None and raw is not None and length - (bore or 0.0) > 2 * raw:
        yield _warning(target.where.at("length"), f"a shaft of {render('length', raw)} is nowhere near that")


def _adhesive(ticket: Ticket) -> Iterator[Finding]:
    row = ticket.club.adhesive
    thin, thick = in_si(row.bond_line_min), in_si(row.bond_line_max)
    if thin is not None and thick is not None and thin >= thick:
        what = f"the thickest bond line is no thicker than the thinnest, {render('length', thin)}"
        yield _error(row.where.at("bond_line_max"), what, "Copy both again from the adhesive's data sheet.")
    if row.ratio is not None and row.basis is None:
        mend = 'Read it on the data sheet, and write basis = "weight" or "volume".'
        yield _warning(row.where.at("basis"), "a ratio means nothing without its basis", mend)
    elif row.ratio is not None and row.basis == "volume":
        for key in ("density_a", "density_b"):
            if row.entry(key) is None:
                what = "a ratio by volume cannot be weighed out without both densities"
                yield _warning(row.where.at(key), what, "Read it on the adhesive's data sheet.")
    sheet = ((in_si(r.temperature) or 0.0, in_si(r.time) or 0.0, r.where) for r in ticket.club.release)
    rows = sorted(sheet, key=lambda r: r[:2])
    for (colder, longer, _), (warmer, shorter, where) in pairwise(rows):
        if warmer == colder or shorter > longer:
            yield _warning(
                where.at("time"), "a warmer row releases no sooner than a colder one", "Copy the sheet again."
            )


def _tray(ticket: Ticket) -> Iterator[Finding]:
    depth = in_si(ticket.club.head.bore_depth)
    for row in ticket.weights:
        have, fitted = whole_number(row.count, 1), whole_number(row.fitted, 0)
        if fitted > have:
            yield _error(
                row.where.at("fitted"), f"{fitted} are fitted, the tray has {have}", "Correct fitted or count."
            )
        lift = in_si(row.lifts_shaft)
        if lift is not None and lift > 0 and (row.seat or "tip") != "tip":
            mend = 'Leave lifts_shaft out, or set seat = "tip".'
            yield _error(row.where.at("lifts_shaft"), "only a tip weight holds the shaft off the bottom", mend)
        elif lift is not None and depth is not None and lift >= depth:
            yield _error(row.where.at("lifts_shaft"), f"no shaft is left in a bore {render('length', depth)} deep")
    if ticket.weights:
        counts = {row.name: whole_number(row.fitted, 0) for row in ticket.weights}
        yield from _crowded(ticket, counts, ticket.weights[0].where.one(None).at("fitted"))


def _readings(ticket: Ticket) -> Iterator[Finding]:
    stock = {row.name: whole_number(row.count, 1) for row in ticket.weights}
    for reading in ticket.readings:
        counts = Counter(reading.weights)
        for name, count in counts.items():
            if count > stock.get(name, count):
                what = f'"{name}" is named {count} times, the tray has {stock[name]}'
                yield _error(reading.where.at("weights"), what, "Correct the names or count.")
        if reading.before is None:  # another head may have had more ports
            yield from _crowded(ticket, counts, reading.where.at("weights"))
        quantity = QUANTITIES.get(reading.quantity)
        if quantity is None:
            continue
        for part in sorted(quantity.parts - STAGES[reading.stage].parts):
            what = f'there is no {part} on at the stage "{reading.stage}"'
            yield _error(reading.where.at("stage"), what, "Write the stage it was read at.")
        if quantity.positive and reading.entry.value <= 0:
            yield _error(reading.where.at("value"), f'"{reading.entry.typed}" is no {reading.quantity} of anything')


def _crowded(ticket: Ticket, counts: Mapping[str, int], where: DocumentPlace) -> Iterator[Finding]:
    """More weights at one seat than it has room for."""
    used: Counter[str] = Counter()
    for row in ticket.weights:
        used[row.seat] += counts.get(row.name, 0)
    ports = ticket.club.head.ports
    room = {"tip": 1, "butt": 1} | ({} if ports is None else {"port": round(ports.value)})
    for seat, most in room.items():
        if used[seat] > most:
            what = f"{used[seat]} weights at the {seat}, where {most} can sit"
            yield _error(where, what, "Correct what is fitted, or what the tray calls its seat.")
