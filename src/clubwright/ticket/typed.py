"""From tables as read to the typed structs of `state`: one struct for each table of a ticket file."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, TypeVar

from clubwright.state.club import KnownClub
from clubwright.state.gauge import Gauge
from clubwright.state.old_parts import CameParts, OldFerrule, OldGrip, OldShaft, OldTape
from clubwright.state.order import Base, Order, Player, Targets, Tolerances
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
from clubwright.ticket.fields import TICKET
from clubwright.ticket.rows import Row

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
    return kind(where=row.where, **_said(row))


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

    def one(section: str) -> Any:
        row = rows.get(section)
        kind = KINDS[section]
        return kind(where=f"{source} [{section}]", given=False) if row is None else typed(kind, row)

    return Ticket(
        source=source,
        order=_order(rows.get("ticket"), source, **{name: one(name) for name in ("target", "tolerance", "base")}),
        club=KnownClub(
            **{part: one(part) for part in PARTS},
            came=CameParts(**{part: one(f"old_{part}") for part in CAME}, tapes=old_tapes),
            **club,
        ),
        gauges=dict(gauges or {}),
        shop=one("shop"),
    )


def order_of(document: Mapping[str, Any], source: str) -> Order:
    """Return an order with nothing but its own words, for a list of many: no figure is read, and nothing is refused.

    Args:
        document: Of a ticket that was taken in.
        source: Names it.
    """
    said = document.get(TICKET.name)
    texts = said if isinstance(said, Mapping) else {}
    words = {field.key: text for field in TICKET.fields if isinstance(text := texts.get(field.key), str)}
    row = Row(where=f"{source} [{TICKET.name}]", words=words)
    empty: dict[str, Any] = {
        name: KINDS[name](where=f"{source} [{name}]", given=False) for name in ("target", "tolerance", "base")
    }
    return _order(row, source, **empty)


def _order(row: Row | None, source: str, *, target: Targets, tolerance: Tolerances, base: Base) -> Order:
    said = {} if row is None else _said(row)
    where = f"{source} [ticket]" if row is None else row.where
    player = Player(where=f"{where} player", given="player" in said, name=said.pop("player", None))
    tables: dict[str, Any] = {"targets": target, "tolerances": tolerance, "base": base}
    return Order(where=where, given=row is not None, player=player, **tables, **said)


def _said(row: Row) -> dict[str, Any]:
    stiffness = {} if row.stiffness is None else {"stiffness": row.stiffness}
    return {**row.numbers, **row.words, **stiffness}
