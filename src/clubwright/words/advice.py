"""Advice in words: the action in a few of them, and one line that says why."""

from __future__ import annotations

from typing import NamedTuple

from clubwright.notation import UnitsShown
from clubwright.planning.said.actions import Action, Weights
from clubwright.planning.said.advice import advice_phrases, figures_of
from clubwright.words.say import say


class AdviceWords(NamedTuple):
    """What to do, in a few words, and why, in one line."""

    do: str
    why: str


def say_advice(item: Action, style: UnitsShown | None) -> AdviceWords:
    """Say one action."""
    do, why = advice_phrases(item)
    return AdviceWords(say(do, style), say(why, style))


def say_offer(item: Action, style: UnitsShown | None) -> AdviceWords:
    """Say one action where it is plain that figures are those of the finished club: of weights only the figures."""
    do, why = say_advice(item, style)
    if isinstance(item.data, Weights) and item.data.moves:
        why = say(figures_of(item.data), style)
    return AdviceWords(do, why)
