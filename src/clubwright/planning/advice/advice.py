"""What to do next, best first: weights, a trim, another head, other levers, reading again, pulling, bends, tape.

Actions are grouped by the targets they move, since their chances are of different things: first what moves the mass
targets, then bends, then tape; best first within each group. Derivation: docs/theory/advice.md.
"""

from __future__ import annotations

import numpy as np

from clubwright.club.quantities import ALWAYS_SHOWN
from clubwright.planning.advice.another_head import another_head
from clubwright.planning.advice.levers import levers
from clubwright.planning.advice.pull_head import pull_head
from clubwright.planning.advice.read_again import read_again
from clubwright.planning.advice.tray import names_of, same_as
from clubwright.planning.advice.trim_advice import trim_advice
from clubwright.planning.advice.weights import Choice, choices
from clubwright.planning.bending.advice import bend_advice
from clubwright.planning.club_state import ClubState
from clubwright.planning.grip.tape_advice import tape_advice
from clubwright.planning.said.actions import Action, Weights

SHOWN = 5
"""Sets of weights shown; more would be looked at by nobody."""


class Advice(Action, frozen=True, kw_only=True):
    """One action of the advice; `clubwright.words.advice` says it.

    Attributes:
        id: Names it among the actions of its club, as long as the tray stays as it is.
    """

    id: str


def advice_of(club_state: ClubState) -> tuple[Advice, ...]:
    """Return the possible actions, best first within each group."""
    ranked = choices(club_state, most=SHOWN)
    best = ranked[0]
    found = weight_advice(club_state, ranked)
    others: list[Action | None] = [read_again(club_state, best), pull_head(club_state, best)]
    if not club_state.is_closed:
        others += [another_head(club_state, best), trim_advice(club_state)]
    found += [_advice(club_state, action) for action in (*others, *levers(club_state, best)) if action is not None]
    found.sort(key=lambda item: -round(item.chance, 2))
    later = (bend_advice(club_state), tape_advice(club_state))
    return (*found, *(_advice(club_state, action) for action in later if action is not None))


def _advice(club_state: ClubState, action: Action) -> Advice:
    """Return an action that leaves the weights as they are; there is one of each kind at most."""
    return Advice(
        kind=action.kind,
        id=action.kind,
        data=action.data,
        weights=tuple(names_of(club_state.ticket, club_state.fitted_now[0])),
        chance=action.chance,
        irreversible=action.irreversible,
        finished=action.finished,
    )


def shown_keys(club_state: ClubState) -> tuple[str, ...]:
    """Return the quantities every prediction shows: the usual ones and the targets."""
    return club_state.shown({*ALWAYS_SHOWN, *(goal.key for goal in club_state.goals)})


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
                kind="fit" if choice.changed else "leave",
                id=_id(choice),
                data=Weights(
                    moves={
                        key: (float(mean), float(sd))
                        for key, mean, sd in zip(choice.keys, choice.mean, choice.sd, strict=True)
                    },
                    taken_out=not names and bool(club_state.fitted_now.any()),
                    equal=_equal(club_state, choice) if choice.changed else (),
                    looked=choice.looked,
                    left_out=choice.left_out,
                ),
                weights=tuple(names),
                chance=choice.chance,
                irreversible=tip and choice.changed,
                finished=finished,
            )
        )
    return found


def _equal(club_state: ClubState, choice: Choice) -> tuple[tuple[str, ...], ...]:
    """Return the other sets that do the same, where they leave what sits in the tip of a closed joint as it is."""
    ticket, now = club_state.ticket, club_state.fitted_now[0]
    tip = np.array([row.seat == "tip" for row in ticket.weights], dtype=bool)
    found = same_as(ticket, choice.counts)
    if club_state.is_closed:
        found = [counts for counts in found if np.array_equal(counts[tip], now[tip])]
    return tuple(tuple(names_of(ticket, counts)) for counts in found)


def _id(choice: Choice) -> str:
    """Name a set of weights by how many it has of each weight of the tray, in the tray's order."""
    return "fit-" + "-".join(f"{count:g}" for count in choice.counts) if choice.changed else "leave"
