"""A tip trim in the words of the bench."""

from __future__ import annotations

from clubwright.club.quantities import QUANTITIES
from clubwright.notation import render
from clubwright.planning.advice.trim_planner import TrimOption


def trim_text(option: TrimOption) -> str:
    """Say the trim of one option for the bench: ``trim 1/2 in off the tip``."""
    off = render("length", option.tip_trim_m) if option.tip_trim_m > 0 else "nothing"
    return f"trim {off} off the tip"


def told(option: TrimOption) -> str:
    """Say what the club finished so would read."""
    return ", ".join(
        f"{QUANTITIES[key].name} {render(QUANTITIES[key].kind, *option.finished[key])}"
        for key in ("frequency", "swing_weight")
    )
