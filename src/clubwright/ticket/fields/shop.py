"""The settings of a workshop (`shop.toml`), table by table: the fields of the ticket file that a shop may say once.

Which fields these are stands in the one list (`clubwright.ticket.fields.fields`, ``shop=True``); here they are gathered.
What a ticket has one of, and a shop several (adhesives, tapes, gauges), goes by its name: ``[adhesive.NAME]``.
"""

from __future__ import annotations

import msgspec

from clubwright.ticket.fields.fields import ADHESIVE, GRIP, INSTRUMENT, RELEASE, SHOP, TAPE, TOLERANCE, Field, Section
from clubwright.ticket.fields.minutes import MINUTES
from clubwright.ticket.fields.printer import PRINTER
from clubwright.ticket.fields.units import UNITS

FROM_SHOP = "from_shop"
"""Table of a ticket that says what of it was taken from the shop's settings; the program writes it, nobody else."""

USUAL = Section(
    name="usual",
    meaning="what is taken when the ticket names none",
    fields=(
        Field(
            key="adhesive",
            kind="text",
            meaning="adhesive of every joint that is glued here, by its name below",
            example="two-part",
        ),
        Field(
            key="tape",
            kind="text",
            meaning="tape under every grip that is put on here, one layer, by its name below",
            example="double-sided",
        ),
    ),
)


def _of_shop(section: Section, meaning: str, *, named: bool = False) -> Section:
    kept = tuple(field for field in section.fields if field.shop)
    return msgspec.structs.replace(section, meaning=meaning, fields=kept, many=False, named=named)


ADHESIVES = _of_shop(ADHESIVE, "an adhesive by name, from its data sheet and the bench's own habit", named=True)
TAPES = _of_shop(TAPE, "a tape by name", named=True)
TOLERANCES = _of_shop(TOLERANCE, "the shop's usual half-widths")
GRIPS = _of_shop(GRIP, "what the shop found out about its grips")
GAUGES = _of_shop(INSTRUMENT, "a gauge by name, in the notation of what it reads", named=True)
BENCH = _of_shop(SHOP, "saw, frequency meter, and how readings are judged")

SINGLE: tuple[Section, ...] = (TOLERANCES, GRIPS, BENCH)
"""Tables that a shop and a ticket have one of each."""

OF_THE_BENCH: tuple[Section, ...] = (MINUTES, UNITS, PRINTER)
"""Tables that are of the bench alone: no ticket has them, and nothing of them is laid into one."""

SHOP_SECTIONS: tuple[Section, ...] = (
    USUAL,
    ADHESIVES,
    RELEASE,
    TAPES,
    TOLERANCES,
    GRIPS,
    GAUGES,
    BENCH,
    MINUTES,
    UNITS,
    PRINTER,
)
"""Every table of `shop.toml`, in the order in which its page describes them."""
