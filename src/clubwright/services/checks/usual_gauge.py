"""Which gauge of a ticket reads a quantity or a figure, when nobody says: that of its usual name, if there is one."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

import msgspec

from clubwright.club.quantities import QUANTITIES
from clubwright.errors import DocumentPlace, Finding
from clubwright.journal.facts import PartChanged, ShaftCut, TapeLaid, What
from clubwright.journal.reducers.measured import gauges_of
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields.fields import SHAFT, TAPE, measured_field, measured_kind
from clubwright.ticket.part_readings import OF_THE_CUT_SHAFT, figure_of
from clubwright.ticket.rows.measured import named_gauge


def usual_gauges_of(ticket: Ticket, section: str, keys: Iterable[str]) -> dict[str, str]:
    """Return the ticket's own gauge for each figure of a part that has a usual one; the others have none.

    Args:
        ticket: The ticket.
        section: Table of the part.
        keys: Of the figures that are measured.
    """
    fields = {key: field for key in keys if (field := measured_field(section, key)) is not None}
    return {key: field.by for key, field in fields.items() if field.by in ticket.gauges}


GaugeSaid = str | Mapping[str, str] | None
"""The gauge that a person named for all figures, or by their kind; an empty name is none, and nothing is the usual ones."""


def measured_by(ticket: Ticket | None, section: str, keys: Iterable[str], said: GaugeSaid) -> dict[str, str]:
    """Return what measured each of some figures of a part; those of which nothing says it are left out.

    Args:
        ticket: Whose usual gauges count where nobody says another; None where it is not known yet.
        section: Table of the part.
        keys: Of the figures.
        said: What a person named.
    """
    kinds = {key: kind for key in keys if (kind := measured_kind(section, key)) is not None}
    usual = {} if ticket is None else usual_gauges_of(ticket, section, kinds)
    found = {}
    for key, kind in kinds.items():
        named = said if isinstance(said, str) or said is None else said.get(kind)
        found[key] = usual.get(key, "") if named is None else named
    return {key: name for key, name in found.items() if name}


def by_kind(mass: str | None, length: str | None) -> dict[str, str]:
    """Return the gauges that a person named for masses and for lengths."""
    return {kind: name for kind, name in (("mass", mass), ("length", length)) if name is not None}


def gauge_text(measured: Mapping[str, str], said: GaugeSaid) -> str:
    """Say in the trail which gauges a person named; the usual ones are not said."""
    named = (said,) if isinstance(said, str) else (said or {}).values()
    by = ", ".join(name for name in dict.fromkeys(measured.values()) if name in named)
    return f" ({by})" if by else ""


def without_gauges(what: What) -> What:
    """Return a fact as it was sent where no gauge was named for all of it: the usual ones go by the ticket of then."""
    gauged = isinstance(what, PartChanged | ShaftCut | TapeLaid)
    return msgspec.structs.replace(what, gauges=msgspec.UNSET) if gauged else what


def usual_gauge_of(ticket: Ticket, quantity: str) -> str | None:
    """Return the ticket's own gauge for a quantity, or a figure of a part; None leaves it to the documented defaults."""
    of_a_part = figure_of(quantity)
    if of_a_part is not None:
        name: str | None = of_a_part.field.by
    else:
        name = QUANTITIES[quantity].gauge.name if quantity in QUANTITIES else None
    return name if name in ticket.gauges else None


def is_weighed_again(ticket: Ticket, section: str, key: str) -> bool:
    """True for a figure that a gauge measured, or usually measures: the same value again is one more weighing."""
    known = bool(named_gauge(ticket.row(section), key)) if section in ticket.tables() else False
    return known or bool(usual_gauges_of(ticket, section, [key]))


def gauge_findings(what: PartChanged | ShaftCut | TapeLaid) -> list[Finding]:
    """Return what is wrong with the gauges that a fact names for figures of a part, whatever gauges the ticket has."""
    section, values = _figures(what)
    return [
        Finding(
            where=DocumentPlace(section, ("gauges", key)),
            what="a gauge of nothing that was measured",
            mend="Name a gauge for a mass, a length, a diameter or an angle of a part, with its value.",
        )
        for key in gauges_of(what)
        if not values.get(key) or measured_kind(section, key) is None
    ]


def _figures(what: PartChanged | ShaftCut | TapeLaid) -> tuple[str, dict[str, str]]:
    """Return the table and the figures that a fact says were measured."""
    if isinstance(what, PartChanged):
        return what.section, what.values
    if isinstance(what, TapeLaid):
        return TAPE.name, {"mass": what.mass}
    return SHAFT.name, {key: text for key in OF_THE_CUT_SHAFT if isinstance(text := getattr(what, key), str)}
