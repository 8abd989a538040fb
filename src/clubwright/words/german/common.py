"""Phrases that stand in several places."""

from __future__ import annotations

from clubwright.words.language import Counted, Template

PHRASES: dict[str, Template] = {
    "step waits": "Noch nicht offen: {why}.",
    "why and chance": "{why}; Chance {chance}",
    "expected": "{figure}; 95 % von {low} bis {high}",
    "no weight": "kein Gewicht",
    "nothing": "nichts",
    "several pieces": "{count} x {name}",
    "reads": "{what} {amount}",
    "angle ends": "{angle} {amount}",
    "bend amount": "{size} {way} ({signed})",
    "under a quarter of a degree": "unter 1/4 deg",
    "push upright": "das Griffende vom Spieler weg bewegen, zur Spitze des Schlägerkopfs hin",
    "push flat": "das Griffende zum Spieler hin bewegen, weg von der Spitze des Schlägerkopfs",
    "push weak": "das Griffende zum Ziel hin bewegen: nach {side}, wie es ein {hand} Spieler beim Ansprechen sieht",
    "push strong": "das Griffende vom Ziel weg bewegen: nach {side}, wie es ein {hand} Spieler beim Ansprechen sieht",
    "count.layers": Counted("1 Lage", "{count} Lagen"),
    "count.pulls": Counted("1 Zug", "{count} Züge"),
    "bend.pulls": Counted("ein Zug", "{count} Züge, nach jedem gemessen"),
    "check.figure": "{label} {figure}",
}
