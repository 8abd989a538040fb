"""Irons of one invented player with a stiffness on their tickets, before any cut: made from the example ticket."""

from __future__ import annotations

from typing import Any

from clubwright.club.stages import STAGES
from clubwright.importers.ticket_file import parse_ticket
from clubwright.planning.club_state import club_state_of
from clubwright.services.shaft.what_if import OtherShaft
from clubwright.ticket.read import read_shaft, read_ticket
from repository import ROOT

EXAMPLE = ROOT / "examples" / "iron.toml"
IRON = "X-1007"
DRY = "dry, no grip"


def iron(number: str = IRON, label: str = "7 iron", length: str = "37 in", head: str = "268.3 g") -> dict[str, Any]:
    """The example's 7 iron, or another of the set by its number, label, length and head; nothing trimmed or read yet."""
    document = parse_ticket(EXAMPLE.read_text(encoding="utf-8"), EXAMPLE.name)
    del document["reading"], document["shaft"]["tip_trimmed"]
    document["ticket"] |= {"id": number, "label": label}
    document["target"]["length"] = length
    document["head"]["mass"] = head
    return document


def irons() -> list[dict[str, Any]]:
    """Four irons of one set."""
    return [
        iron("X-1005", "5 iron", "38 in", "254 g"),
        iron("X-1006", "6 iron", "37 1/2 in", "261 g"),
        iron(),
        iron("X-1009", "9 iron", "36 in", "283 g"),
    ]


def without_stiffness(number: str = "X-1010") -> dict[str, Any]:
    """An iron whose ticket does not say how stiff its shaft is, and orders no frequency."""
    document = iron(number, "iron, stiffness unknown")
    for section, key in (("shaft", "stiffness"), ("shaft", "stiffness_factor"), ("target", "frequency")):
        del document[section][key]
    del document["tolerance"]["frequency"]
    return document


def dry_hz(document: dict[str, Any]) -> float:
    """Return what the dry club reads when its shaft is just as stiff as its profile."""
    ticket, findings = read_ticket(document, "ticket")
    assert ticket is not None, findings
    return float(club_state_of(ticket).predict(["frequency"], STAGES[DRY]).mean[0, 0])


def shaft_of(table: dict[str, Any], name: str, instruments: dict[str, Any] | None = None) -> OtherShaft:
    """Return the shaft of another ticket, as its file is read: its table, and the gauges of that ticket."""
    known, findings = read_shaft({"shaft": table, "instrument": instruments or {}}, "other.toml")
    return OtherShaft(name=name, known=known, findings=findings)
