"""Advice in words: the action in a few of them, and one line that says why; and a tip trim that is looked at."""

from __future__ import annotations

from typing import NamedTuple

from clubwright.notation import UnitsShown
from clubwright.planning.advice.trim_planner import TrimOption
from clubwright.planning.cautions import cautions
from clubwright.planning.said.actions import Action, Pull, Weights
from clubwright.planning.said.advice import advice_phrases, figures_of, trim_figures, trim_phrase
from clubwright.planning.said.phrases import Listed, phrase
from clubwright.words.say import say


class AdviceWords(NamedTuple):
    """What to do, in a few words, and why, in one line."""

    do: str
    why: str


def say_advice(item: Action, style: UnitsShown | None) -> AdviceWords:
    """Say one action."""
    do, why = advice_phrases(item)
    if isinstance(item.data, Pull):  # what heats a joint says what it may do to whoever heats it
        careful = cautions("heat removal", shaft_material=item.data.shaft_material, head_metal=item.data.head_metal)
        why = phrase("advice.cautions", why=why, cautions=Listed(careful, "semicolon"))
    return AdviceWords(say(do, style), say(why, style))


def say_offer(item: Action, style: UnitsShown | None) -> AdviceWords:
    """Say one action where it is plain that figures are those of the finished club: of weights only the figures."""
    do, why = say_advice(item, style)
    if isinstance(item.data, Weights) and item.data.moves:
        why = say(figures_of(item.data), style)
    return AdviceWords(do, why)


def say_trim(option: TrimOption, style: UnitsShown | None) -> str:
    """Say the trim of one option for the bench: ``trim 1/2 in off the tip``."""
    return say(trim_phrase(option.tip_trim_m), style)


def say_trimmed(option: TrimOption, style: UnitsShown | None) -> str:
    """Say what the club finished so would read."""
    return say(trim_figures(option.finished), style)
