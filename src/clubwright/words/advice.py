"""Advice in words: the action in a few of them, and one line that says why; and a tip trim that is looked at."""

from __future__ import annotations

from typing import NamedTuple

from clubwright.club.quantities import QUANTITIES
from clubwright.notation import UnitsShown
from clubwright.planning.advice.trim_planner import TrimOption
from clubwright.planning.advice.unreached import Unreached
from clubwright.planning.cautions import cautions
from clubwright.planning.said.actions import Action, Pull, Weights
from clubwright.planning.said.advice import advice_phrases, figures_of, trim_figures, trim_phrase
from clubwright.planning.said.phrases import Amount, Listed, percent, phrase, quantity
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


def say_unreached(unreached: Unreached, style: UnitsShown | None) -> str:
    """Say what no set of weights reaches: one target, or two that are in conflict."""
    amounts = {key: Amount(QUANTITIES[key].kind, *unreached.ends[key]) for key in unreached.targets}
    chance = percent(unreached.chance)
    one, other = unreached.targets[0], unreached.targets[-1]
    if one == other:
        said = phrase("advice.unreached one", what=quantity(one), chance=chance, ends=amounts[one])
    else:
        said = phrase(
            "advice.unreached pair",
            one=quantity(one),
            other=quantity(other),
            chance=chance,
            one_ends=amounts[one],
            other_ends=amounts[other],
        )
    return say(said, style)


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
