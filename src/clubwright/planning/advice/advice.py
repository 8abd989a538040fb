"""What to do next, best first: weights, a tip trim, another head, reading again, bends, tape.

Actions are grouped by the targets they move, since their chances are of different things: first what moves the mass
targets, then bends, then tape; best first within each group. Derivation: docs/theory/advice.md.
"""

from __future__ import annotations

import msgspec
import numpy as np

from clubwright.club.quantities import QUANTITIES
from clubwright.notation import render
from clubwright.planning.advice.another_head import another_head
from clubwright.planning.advice.read_again import read_again
from clubwright.planning.advice.tray import names_of
from clubwright.planning.advice.trim_advice import trim_advice
from clubwright.planning.advice.weights import Choice, choices
from clubwright.planning.bending.advice import bend_advice
from clubwright.planning.club_state import ClubState
from clubwright.planning.grip.tape_advice import tape_advice

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


def advice_of(club_state: ClubState) -> tuple[Advice, ...]:
    """Return the possible actions, best first within each group."""
    ranked = choices(club_state, most=SHOWN)
    found = weight_advice(club_state, ranked)
    best = ranked[0]
    for extra in (read_again(club_state, best), another_head(club_state, best)):
        if extra is not None:
            do, why, chance, finished = extra
            item = Advice(
                do=do,
                weights=tuple(names_of(club_state.ticket, club_state.fitted_now[0])),
                why=why,
                chance=chance,
                irreversible=False,
                finished=finished,
            )
            found.append(item)
    now = tuple(names_of(club_state.ticket, club_state.fitted_now[0]))
    trim = trim_advice(club_state)
    if trim is not None:
        do, why, chance, finished = trim
        found.append(Advice(do=do, weights=now, why=why, chance=chance, irreversible=True, finished=finished))
    found.sort(key=lambda item: -round(item.chance, 2))
    for do, why, chance, irreversible, finished in [*bend_advice(club_state), *tape_advice(club_state)]:
        found.append(Advice(do=do, weights=now, why=why, chance=chance, irreversible=irreversible, finished=finished))
    return tuple(found)


def shown_keys(club_state: ClubState) -> tuple[str, ...]:
    """Return the quantities every prediction shows: the usual ones and the targets."""
    wanted = {goal.key for goal in club_state.goals} | set(ALWAYS)
    return tuple(key for key in QUANTITIES if key in wanted and club_state.can_predict(key))


def weight_advice(club_state: ClubState, ranked: list[Choice]) -> list[Advice]:
    """Turn ranked sets of weights into advice, in that order."""
    keys = shown_keys(club_state)
    prediction = club_state.predict(keys, fitted=np.array([choice.counts for choice in ranked]))
    spread = prediction.sd()
    found = []
    for place, choice in enumerate(ranked):
        names = names_of(club_state.ticket, choice.counts)
        finished = {
            key: (float(prediction.mean[place, column]), float(spread[place, column]))
            for column, key in enumerate(keys)
        }
        tip = any(club_state.ticket.weights[club_state.ticket.weight_place(name)].seat == "tip" for name in names)
        found.append(
            Advice(
                do=_verb(names, choice, club_state),
                weights=tuple(names),
                why=_why(choice),
                chance=choice.chance,
                irreversible=tip and choice.changed,
                finished=finished,
            )
        )
    return found


def _verb(names: list[str], choice: Choice, club_state: ClubState) -> str:
    if not choice.changed:
        return "leave as it is"
    if not names:
        return "take the weights out" if club_state.fitted_now.any() else "fit nothing"
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
