"""The shortest history that still breaks the same law: halves and ever smaller parts are left out, then what befalls it.

This is the minimising delta debugging of Zeller and Hildebrandt (Simplifying and Isolating Failure-Inducing Input, IEEE
Transactions on Software Engineering 28(2), 2002), on a list of actions.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

import msgspec
from hands import Action, History

MOST_PLAYS = 400
"""So often a history is played to shorten it; what is shortest by then is good enough."""


class _Tries:
    """Whether a list of actions still breaks the law, asked a limited number of times."""

    def __init__(self, history: History, breaks: Callable[[History], bool], most: int) -> None:
        self._history, self._breaks, self.left = history, breaks, most

    def __call__(self, actions: tuple[Action, ...]) -> bool:
        if self.left == 0:
            return False
        self.left -= 1
        return self._breaks(msgspec.structs.replace(self._history, actions=actions))


def shortest(history: History, breaks: Callable[[History], bool], most_plays: int = MOST_PLAYS) -> History:
    """Return a shorter history that still breaks the law, from which nothing can be left out (within so many plays)."""
    tries = _Tries(history, breaks, most_plays)
    actions = _fewest(history.actions, tries)
    actions = _plainest(actions, tries)
    return msgspec.structs.replace(history, actions=_fewest(actions, tries))


def _fewest(actions: tuple[Action, ...], tries: _Tries) -> tuple[Action, ...]:
    parts = 2
    while len(actions) > 1 and tries.left:
        size = -(-len(actions) // parts)
        for start in range(0, len(actions), size):
            rest = actions[:start] + actions[start + size :]
            if tries(rest):
                actions, parts = rest, max(parts - 1, 2)
                break
        else:
            if size == 1:
                break
            parts = min(2 * parts, len(actions))
    return actions


def _plainest(actions: tuple[Action, ...], tries: _Tries) -> tuple[Action, ...]:
    for number in range(len(actions)):
        for plainer in _plainer(actions[number]):
            rest = (*actions[:number], plainer(actions[number]), *actions[number + 1 :])
            if rest != actions and tries(rest):
                actions = rest
    return actions


def _plainer(action: Action) -> Iterator[Callable[[Action], Action]]:
    """Yield ways to make an action plainer: nobody in between, no second tap, enough room, no time that passes."""
    plain = Action(do=action.do, key=action.key)
    for field in ("meanwhile", "second_tap", "room", "cut", "wait_min"):
        yield lambda found, field=field: msgspec.structs.replace(found, **{field: getattr(plain, field)})  # type: ignore[misc]
    if action.cut is not None:
        cut = msgspec.structs.replace(action.cut, again=False, resend=False)
        yield lambda found: msgspec.structs.replace(found, cut=None if found.cut is None else cut)
