"""The figures of the ticket that a formula takes: as typed, or as the program takes them where nobody said."""

from __future__ import annotations

from collections.abc import Iterable

from clubwright.services.why.formulas.formulas import Formula
from clubwright.services.why.told import WhyFigure
from clubwright.state.particulars import Particulars
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields.defaults import default_for

ROWS = {"tape": "tapes", "weight": "weights"}


def inputs_of(ticket: Ticket, formulas: Iterable[Formula]) -> tuple[WhyFigure, ...]:
    """Return what some formulas take from a ticket, each figure once, in their order."""
    wanted = dict.fromkeys(place for formula in formulas for place in formula.inputs)
    return tuple(figure for section, key in wanted for figure in _figures(ticket, section, key))


def _figures(ticket: Ticket, section: str, key: str) -> list[WhyFigure]:
    if section == "target":
        entry = ticket.targets.get(key)
        return [] if entry is None else [WhyFigure(name=f"[target] {key}", text=entry.typed)]
    if section == "adhesive.release":
        return [
            WhyFigure(name=f"[adhesive.release] {place} {name}", text=entry.typed)
            for place, row in enumerate(ticket.club.release, start=1)
            for name, entry in row.numbers.items()
        ]
    if section == "shop" and key == "decision_rule":
        return [WhyFigure(name="[shop] decision_rule", text=ticket.rule)]
    if not key:
        rows: tuple[Particulars, ...] = getattr(ticket, ROWS[section])
        return [
            WhyFigure(name=f"[{section}] {place} {name}", text=entry.typed)
            for place, row in enumerate(rows, start=1)
            for name, entry in row.numbers.items()
        ]
    row = ticket.row(section)
    entry, word, default = row.entry(key), row.word(key), default_for(f"{section}.{key}", ticket.kind)
    if entry is not None or word:
        text = word if entry is None else entry.typed
    elif default is None:
        text = "not on the ticket"
    else:
        text = f"{default.text}, taken: the ticket does not say ({default.standing})"
    return [WhyFigure(name=f"[{section}] {key}", text=text)]
