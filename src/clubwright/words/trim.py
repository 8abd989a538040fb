"""A tip trim in words."""

from __future__ import annotations

from clubwright.notation import UnitsShown
from clubwright.planning.advice.trim_planner import TrimOption
from clubwright.planning.said.advice import trim_figures, trim_phrase
from clubwright.words.say import say


def say_trim(option: TrimOption, style: UnitsShown | None) -> str:
    """Say the trim of one option for the bench: ``trim 1/2 in off the tip``."""
    return say(trim_phrase(option.tip_trim_m), style)


def say_trimmed(option: TrimOption, style: UnitsShown | None) -> str:
    """Say what the club finished so would read."""
    return say(trim_figures(option.finished), style)
