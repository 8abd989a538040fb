"""What to do next, best first: weights, a tip trim, another head, reading again, bends, tape.

Actions are grouped by the targets they move, since their chances are of different things: first what moves the mass
targets, then bends, then tape; best first within each group. Derivation: docs/theory/advice.md.
"""

from __future__ import annotations

import msgspec
import numpy as np

from clubwright.club.quantities import QUANTITIES
from clubwright.notation import render
from clubwright.planning.another_head import another_head
from clubwright.planning.bend_advice import bend_advice
from clubwright.planning.read_again import read_again
from clubwright.planning.situation import Situation
from clubwright.planning.tape_advice import tape_advice
from clubwright.planning.tray import names_of
from clubwright.planning.trim_advice import trim_advice
from clubwright.planning.weights import Choice, choices

SHOWN = 5
"""Sets of weights shown; more would be looked at by nobody."""

ALWAYS = ("length", "swing_weight", "total_weight", "balance_point", "moi")


class Advice(msgspec.Struct, frozen=True, kw_only=True):
    """One action.

    Attributes:
        do: The action in a few words.
        weights: Names of the weights on the club after it, a name for each piece.
        why: One line.
        chance: Chance that the targets it moves end within tolerance.
        irreversible: Whether it cannot be taken back.
        finished: What the finished club would read, quantity to (mean, sd) in SI.
    """

    do: str
    weights: tuple[str, ...]
    why: str
    chance: float
    irreversible: bool
    finished: dict[str, tuple[float, float]]


def advice_of(situation: Situation) -> tuple[Advice, ...]:
    """Return the possible actions, best first within each group."""
    ranked = choices(situation, most=SHOWN)
    found = weight_advice(situation, ranked)
    best = ranked[0]
    for extra in (read_again(situation, best), another_head(situation, best)):
        if extra is not None:
            do, why, chance, finished = extra
            item = Advice(
                do=do,
                weights=tuple(names_of(situation.ticket, situation.fitted_now[0])),
                why=why,
                chance=chance,
                irreversible=False,
                finished=finished,
            )
            found.append(item)
    now = tuple(names_of(situation.ticket, situation.fitted_now[0]))
    trim = trim_advice(situation)
    if trim is not None:
        do, why, chance, finished = trim
        found.append(Advice(do=do, weights=now, why=why, chance=chance, irreversible=True, finished=finished))
    found.sort(key=lambda item: -round(item.chance, 2))
    for do, why, chance, irreversible, finished in [*bend_advice(situation), *tape_advice(situation)]:
        found.append(Advice(do=do, weights=now, why=why, chance=chance, irreversible=irreversible, finished=finished))
    return tuple(found)


def shown_keys(situation: Situation) -> tuple[str, ...]:
    """Return the quantities every prediction shows: the usual ones and the targets."""
    wanted = {goal.key for goal in situation.goals} | set(ALWAYS)
    return tuple(key for key in QUANTITIES if key in wanted and situation.can_predict(key))


def weight_advice(situation: Situation, ranked: list[Choice]) -> list[Advice]:
    """Turn ranked sets of weights into advice, in that order."""
    keys = shown_keys(situation)
    prediction = situation.predict(keys, fitted=np.array([choice.counts for choice in ranked]))
    spread = prediction.sd()
    found = []
    for place, choice in enumerate(ranked):
        names = names_of(situation.ticket, choice.counts)
        finished = {
            key: (float(prediction.mean[place, column]), float(spread[place, column]))
            for column, key in enumerate(keys)
        }
        tip = any(situation.ticket.weights[situation.ticket.weight_place(name)].seat == "tip" for name in names)
        found.append(
            Advice(
                do=_verb(names, choice, situation),
                weights=tuple(names),
                why=_why(choice),
                chance=choice.chance,
                irreversible=tip and choice.changed,
                finished=finished,
            )
        )
    return found


def _verb(names: list[str], choice: Choice, situation: Situation) -> str:
    if not choice.changed:
        return "leave as it is"
    if not names:
        return "take the weights out" if situation.fitted_now.any() else "fit nothing"
    counted = {name: names.count(name) for name in dict.fromkeys(names)}
    return "fit " + " + ".join(name if count == 1 else f"{count} x {name}" for name, count in counted.items())


def _why(choice: Choice) -> str:
    if not choice.keys:
        return "the ticket sets no target that a weight would move"
    parts = [
        f"{QUANTITIES[key].name} {render(QUANTITIES[key].kind, float(mean), float(sd))}"
        for key, mean, sd in zip(choice.keys, choice.mean, choice.sd, strict=True)
    ]
    return "finished: " + ", ".join(parts)
