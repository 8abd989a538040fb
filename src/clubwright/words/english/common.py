"""Phrases that stand in several places."""

from __future__ import annotations

from clubwright.words.language import Counted, Template

PHRASES: dict[str, Template] = {
    "step waits": "Not open yet: {why}.",
    "why and chance": "{why}; chance {chance}",
    "expected": "{figure}; 95 % from {low} to {high}",
    "no weight": "no weight",
    "nothing": "nothing",
    "several pieces": "{count} x {name}",
    "reads": "{what} {amount}",
    "angle ends": "{angle} {amount}",
    "bend amount": "{size} {way} ({signed})",
    "under a quarter of a degree": "under 1/4 deg",
    "push upright": "move the grip end away from the player, toward the toe side",
    "push flat": "move the grip end toward the player, away from the toe side",
    "push weak": "move the grip end toward the target: to the {side} as a {hand}-handed player sees it at address",
    "push strong": "move the grip end away from the target: to the {side} as a {hand}-handed player sees it at address",
    "count.layers": Counted("1 wrap", "{count} wraps"),
    "count.pulls": Counted("1 pull", "{count} pulls"),
    "bend.pulls": Counted("one pull", "{count} pulls, measured after each"),
    "check.figure": "{label} {figure}",
}
