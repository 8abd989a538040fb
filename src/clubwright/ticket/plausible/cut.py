"""What cannot be, or is odd, about a cut shaft that was weighed and balanced: heavier than the raw one, or grown."""

from __future__ import annotations

from collections.abc import Iterator

from clubwright.errors import Finding
from clubwright.notation import render
from clubwright.state.particulars import in_si
from clubwright.state.ticket import Ticket
from clubwright.ticket.priors.shaft_weighed import RAW, sources_of

SLACK_M = 1e-3
SLACK_KG = 0.5e-3
"""Two measurements of one thing may contradict each other by this much (estimates of ours)."""

BALANCE = (0.4, 0.65)
"""A cut shaft balances between these shares of its length from its tip; outside is odd (estimate of ours)."""


def cut_shaft(ticket: Ticket) -> Iterator[Finding]:
    """Yield what is wrong with the figures of a shaft as cut, held against those from before the cut."""
    row = ticket.club.shaft
    mass, cut_mass, cut = in_si(row.mass), row.cut_mass, in_si(row.cut_length)
    raw, balance = in_si(row.raw_length), in_si(row.cut_balance_from_tip)
    is_raw = sources_of(ticket).mass.share == RAW
    if mass is not None and cut_mass is not None and is_raw and cut_mass.value > mass + SLACK_KG:
        what = f'"{cut_mass.typed}" is more than the raw shaft of {render("mass", mass)}'
        yield Finding(where=row.where.at("cut_mass"), what=what, mend="Weigh it again, and see which figure is which.")
    for key in ("cut_mass_length", "cut_balance_length"):
        entry = row.entry(key)
        if entry is None:
            continue
        length = entry.value
        if raw is not None and length > raw + SLACK_M:
            what = f'"{entry.typed}" is longer than the raw shaft of {render("length", raw)}'
            yield Finding(where=row.where.at(key), what=what, mend="Measure it again.")
        if cut is not None and cut > length + SLACK_M:
            what = f'"{entry.typed}" is shorter than the shaft is now, {render("length", cut)}'
            mend = "Nothing grows: measure it again."
            yield Finding(where=row.where.at(key), what=what, mend=mend, severity="warning")
    at = in_si(row.cut_balance_length) or cut
    if balance is None or at is None:
        return
    where = row.where.at("cut_balance_from_tip")
    if balance >= at:
        yield Finding(where=where, what="the balance point lies outside the shaft", mend="Measure it from the tip.")
    elif not BALANCE[0] < balance / at < BALANCE[1]:
        what = f"the balance point at {balance / at:.0%} of the shaft from its tip is unusual"
        yield Finding(where=where, what=what, mend="Measure it from the tip as it is now.", severity="warning")
