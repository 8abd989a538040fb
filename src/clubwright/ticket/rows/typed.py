"""From tables as read to the typed structs of `state`: one struct for each table of a ticket file."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, TypeVar

from clubwright.errors import DocumentPlace
from clubwright.state.club import KnownClub
from clubwright.state.gauge import Gauge
from clubwright.state.old_parts import CameParts, OldFerrule, OldGrip, OldShaft, OldTape
from clubwright.state.order import Base, ByQuantity, Order, OrderWords, Player, Targets, Tolerances
from clubwright.state.particulars import Particulars
from clubwright.state.parts import (
    AdapterPart,
    AdhesivePart,
    FerrulePart,
    GripPart,
    HeadBefore,
    HeadPart,
    ReleaseRow,
    ShaftBefore,
    ShaftPart,
    ShimPart,
    TapePart,
    WeightPart,
)
from clubwright.state.shop import ShopFigures
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields.fields import SECTIONS, TICKET
from clubwright.ticket.rows.rows import Row, stiffness_typed

KINDS: dict[str, type[Particulars]] = {
    "base": Base,
    "target": Targets,
    "tolerance": Tolerances,
    "head": HeadPart,
    "adapter": AdapterPart,
    "shaft": ShaftPart,
    "grip": GripPart,
    "tape": TapePart,
    "ferrule": FerrulePart,
    "shim": ShimPart,
    "adhesive": AdhesivePart,
    "adhesive.release": ReleaseRow,
    "weight": WeightPart,
    "old_grip": OldGrip,
    "old_tape": OldTape,
    "old_shaft": OldShaft,
    "old_ferrule": OldFerrule,
    "shop": ShopFigures,
    "change.head": HeadBefore,
    "change.shaft": ShaftBefore,
    "change.grip": GripPart,
    "change.tape": TapePart,
    "change.ferrule": FerrulePart,
    "change.adhesive": AdhesivePart,
}
"""The struct of each table of a ticket file, but for ``[ticket]`` (an order), readings, gauges and changes."""

PARTS = ("head", "shaft", "grip", "ferrule", "adhesive", "adapter", "shim")
CAME = ("grip", "shaft", "ferrule")

Kind = TypeVar("Kind", bound=Particulars)


def typed(kind: type[Kind], row: Row) -> Kind:
    """Return the struct of one table as read."""
    said: dict[str, Any] = {"figures": row.numbers, **row.words} if issubclass(kind, ByQuantity) else _said(row)
    return kind(where=row.where, **said)


def typed_list(kind: type[Kind], rows: Sequence[Row]) -> tuple[Kind, ...]:
    """Return the structs of a list of tables."""
    return tuple(typed(kind, row) for row in rows)


def ticket_from(
    rows: Mapping[str, Row],
    source: str,
    *,
    gauges: Mapping[str, Gauge] | None = None,
    old_tapes: tuple[OldTape, ...] = (),
    **club: Any,
) -> Ticket:
    """Return a ticket of the single tables that were read, and of what else is known of its club.

    Args:
        rows: By name; what is not among them was not given.
        source: Names the file, for findings.
        gauges: By name.
        old_tapes: The tape that comes off.
        club: The lists of `clubwright.state.club.KnownClub`, and the stiffness.
    """
    ordered = {name: _one(rows, source, name) for name in ("target", "tolerance", "base")}
    return Ticket(
        source=source,
        order=_order(rows.get("ticket"), source, **ordered),
        club=_club(rows, source, old_tapes, **club),
        gauges=dict(gauges or {}),
        shop=_one(rows, source, "shop"),
    )


def _one(rows: Mapping[str, Row], source: str, section: str) -> Any:
    row, kind = rows.get(section), KINDS[section]
    return kind(where=DocumentPlace(section, source=source), given=False) if row is None else typed(kind, row)


def _club(rows: Mapping[str, Row], source: str, old_tapes: tuple[OldTape, ...] = (), **club: Any) -> KnownClub:
    came = {part: _one(rows, source, f"old_{part}") for part in CAME}
    parts = {part: _one(rows, source, part) for part in PARTS}
    return KnownClub(**parts, came=CameParts(**came, tapes=old_tapes), **club)


def order_of(document: Mapping[str, Any]) -> OrderWords:
    """Return what an order says in words, for a list of many: no figure is read, and nothing is refused.

    Args:
        document: Of a ticket, taken in or not.
    """
    said = document.get(TICKET.name)
    texts = said if isinstance(said, Mapping) else {}
    known = ((key, texts.get(key)) for key in OrderWords.__struct_fields__)
    return OrderWords(**{key: text for key, text in known if isinstance(text, str)})


def parts_of(document: Mapping[str, Any], source: str) -> KnownClub:
    """Return a club of whose parts only the words are read, and of the shaft what is typed of its stiffness, likewise.

    Args:
        document: Of a ticket that was taken in.
        source: Names it.
    """
    rows = {}
    for section in SECTIONS:
        content = document.get(section.name)
        if section.name in PARTS and isinstance(content, Mapping):
            keys = [field.key for field in section.fields if field.kind in ("text", "choice", "key")]
            words = {key: text for key in keys if isinstance(text := content.get(key), str)}
            typed_stiffness = stiffness_typed(content.get("stiffness"))
            rows[section.name] = Row(
                where=DocumentPlace(section.name, source=source), words=words, stiffness=typed_stiffness
            )
    return _club(rows, source)


def _order(row: Row | None, source: str, *, target: Targets, tolerance: Tolerances, base: Base) -> Order:
    said = {} if row is None else _said(row)
    where = DocumentPlace(TICKET.name, source=source) if row is None else row.where
    player = Player(where=where.at("player"), given="player" in said, name=said.pop("player", None))
    tables: dict[str, Any] = {"targets": target, "tolerances": tolerance, "base": base}
    return Order(where=where, given=row is not None, player=player, **tables, **said)


def _said(row: Row) -> dict[str, Any]:
    stiffness = {} if row.stiffness is None else {"stiffness": row.stiffness}
    gauges = {"gauges": row.gauges} if row.gauges else {}
    return {**row.numbers, **row.words, **stiffness, **gauges}
