"""Two more irons of the demo's player, begun before: the same shaft trimmed and cut, and their frequency read dry."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import msgspec

from clubwright.services.actions import bench
from clubwright.services.record.session import Session


class Begun(msgspec.Struct, frozen=True, kw_only=True):
    """One iron that was begun: what its ticket says otherwise than the first one's, and what was done on it."""

    tables: Mapping[str, Mapping[str, str]]
    tip_trim: str
    cut_length: str
    frequency: str

    @property
    def id(self) -> str:
        """Ticket number."""
        return self.tables["ticket"]["id"]


BEGUN = (
    Begun(
        tables={
            "ticket": {"id": "T-0106", "label": "6 iron", "asked": "6 iron, 37 1/2, 29 and 61.5, D2, logo down"},
            "target": {"length": "37 1/2 in", "loft": "29 deg", "lie": "61.5 deg", "frequency": "325 cpm"},
            "head": {"name": "Redstart 6", "mass": "261.4 g", "loft": "29.2 deg", "lie": "62 deg", "hand": "right"},
            "shaft": {"mass": "126.9 g", "tip_trim": "2 in"},
        },
        tip_trim="2 in",
        cut_length="36.25 in",
        frequency="328.6 cpm",
    ),
    Begun(
        tables={
            "ticket": {"id": "T-0108", "label": "8 iron", "asked": "8 iron, 36 1/2, 37 and 62.5, D2, logo down"},
            "target": {"length": "36 1/2 in", "loft": "37 deg", "lie": "62.5 deg", "frequency": "335 cpm"},
            "head": {"name": "Redstart 8", "mass": "277.4 g", "loft": "37.1 deg", "lie": "63 deg", "hand": "right"},
            "shaft": {"mass": "126.2 g", "tip_trim": "3 in"},
        },
        tip_trim="3 in",
        cut_length="35.25 in",
        frequency="338.1 cpm",
    ),
)
"""Invented, as all of the demo."""


def begin_set(session: Session, first: Mapping[str, Any], source: str) -> None:
    """Take the tickets of the other irons, and do what was done on them.

    Args:
        session: Who and where.
        first: The document of the iron whose tables they share.
        source: Where that came from.
    """
    for club in BEGUN:
        changed = {name: {**first[name], **content} for name, content in club.tables.items()}
        bench.take_ticket(session, {**first, **changed}, source)
        for step in ("pull", "weigh", "head check", "bore to ground"):
            bench.do_step(session, club.id, step)
        bench.trim_shaft(session, club.id, "tip", club.tip_trim)
        for step in ("tip prep", "ferrule", "dry fit"):
            bench.do_step(session, club.id, step)
        bench.sign_gate(session, club.id, "cut")
        bench.cut_shaft(session, club.id, club.cut_length)
        bench.note_reading(session, club.id, "frequency", club.frequency, stage="dry, no grip", weights=[])
