"""Sealed facts for the tests of the journal, chained for each site."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from clubwright.journal.chain import GENESIS, seal
from clubwright.journal.facts import Fact, TicketTaken, What

DOCUMENT: dict[str, Any] = {
    "ticket": {"id": "T-1", "kind": "wedge", "hand": "right"},
    "head": {"mass": "296.4 g", "loft": "54.5 deg", "lie": "64 deg", "bounce": "10 deg"},
    "shaft": {"raw_length": "37 in", "mass": "125.2 g", "tip_trim": "1/2 in"},
    "grip": {"mass": "49.6 g", "cap": "1/8 in"},
    "tape": [{"name": "base", "layers": "1", "mass": "1.6 g", "cg_from_cap": "5.1 in"}],
    "weight": [
        {"name": "port 6", "mass": "6.05 g", "seat": "port", "count": "2"},
        {"name": "port 8", "mass": "8.0 g", "seat": "port"},
    ],
    "instrument": {"bench scale": {"resolution": "1/4 pt"}},
}
TICKET = TicketTaken(job="T-1", document=DOCUMENT, source="t.toml")


def chained(payloads: Iterable[What], *, site: str = "van", minutes: Iterable[int] | None = None) -> list[Fact]:
    """Seal payloads as one site's facts 1, 2, 3 ..., a minute apart or at the minutes given."""
    facts: list[Fact] = []
    times = iter(minutes) if minutes is not None else None
    for number, what in enumerate(payloads, start=1):
        minute = number if times is None else next(times)
        facts.append(
            seal(
                what,
                site=site,
                sequence=number,
                at=f"2026-03-02T{8 + minute // 60:02d}:{minute % 60:02d}:00.000Z",
                by="Ann",
                typed=f"action {number}",
                key=f"{site}-{number}",
                previous_hash=facts[-1].hash if facts else GENESIS,
            )
        )
    return facts
