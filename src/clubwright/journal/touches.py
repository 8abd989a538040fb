"""What a fact touches beside its own job: the gauge that was read, the lot, the person, the parts and the player it names.

A fact decides nothing about what it touches: two benches that read different clubs on one gauge never refuse each other. But
it can be asked the other way round, which clubs a gauge has read (`clubwright.services.record.job_index`).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, Literal, get_args

from clubwright.journal.facts import (
    AdhesiveMixed,
    Fact,
    MixTaken,
    OrderChanged,
    PartChanged,
    ReadingTaken,
    ShaftCut,
    TapeLaid,
    TicketTaken,
)
from clubwright.journal.reducers.measured import gauges_of
from clubwright.journal.reducers.order_changes import part_changes

TouchKind = Literal["gauge", "lot", "part", "person", "player"]
TOUCH_KINDS: tuple[TouchKind, ...] = get_args(TouchKind)
PARTS = ("head", "shaft", "grip", "ferrule")
"""Tables of a ticket that name a part."""

Touched = tuple[TouchKind, str]


def touches_of(fact: Fact) -> frozenset[Touched]:
    """Return what a fact touches: its kind, and its name as typed, without outer spaces."""
    found = {
        ("person", fact.by.strip()),
        *((kind, text.strip()) for kind, text in _said(fact) if isinstance(text, str)),
    }
    return frozenset((kind, name) for kind, name in found if name)


def touch_word(name: str) -> str:
    """Return a name as it is compared: small letters, no outer spaces."""
    return name.strip().casefold()


def _said(fact: Fact) -> Iterator[tuple[TouchKind, Any]]:
    what = fact.what
    if isinstance(what, ReadingTaken):
        yield "gauge", what.instrument
    elif isinstance(what, AdhesiveMixed | MixTaken):
        yield "lot", what.batch
    elif isinstance(what, PartChanged):
        yield from _named({what.section: what.values})
        yield from (("gauge", name) for name in gauges_of(what).values())
    elif isinstance(what, ShaftCut | TapeLaid):
        yield from (("gauge", name) for name in gauges_of(what).values())
    elif isinstance(what, OrderChanged):
        for change in part_changes(what):
            yield from _named({change.section: change.values})
    elif isinstance(what, TicketTaken):
        yield from _named(what.document)


def _named(document: Mapping[str, Any]) -> Iterator[tuple[TouchKind, Any]]:
    for section, key, kind in (("ticket", "player", "player"), *((part, "name", "part") for part in PARTS)):
        table = document.get(section)
        if isinstance(table, Mapping):
            yield kind, table.get(key)  # type: ignore[misc]
