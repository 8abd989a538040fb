"""Laws of the undo: an undone action is as if it had never been, however many facts it wrote, and comes back whole."""

from __future__ import annotations

from typing import Any

import msgspec
from hypothesis import given
from hypothesis import strategies as st
from test_property_journal import ACTIONS, J, bare

from clubwright.journal.chain import GENESIS, seal
from clubwright.journal.facts import Fact, Undone, What
from clubwright.journal.reducers.fold import fold
from clubwright.journal.standing import void_places
from journal_facts import TICKET

Action = list[What]


def sealed(actions: list[Action]) -> list[Fact]:
    """The facts of one bench, each action with a key of its own."""
    facts: list[Fact] = []
    for number, action in enumerate(actions):
        for at, what in enumerate(action, start=1):
            facts.append(
                seal(
                    what,
                    site="van",
                    sequence=len(facts) + 1,
                    at=f"2026-03-02T08:{number:02d}:00.000Z",
                    by="Ann",
                    typed="",
                    key=f"key-{number}" if at == 1 else f"key-{number}#{at}",
                    previous_hash=facts[-1].hash if facts else GENESIS,
                )
            )
    return facts


def without(facts: list[Fact], *keys: str) -> list[Fact]:
    return [fact for fact in facts if fact.action[1] not in keys]


@given(st.lists(st.lists(ACTIONS, min_size=1, max_size=3), min_size=1, max_size=5), st.data())
def test_an_undone_action_was_never_there_and_comes_back_whole(done: list[Action], data: st.DataObject) -> None:
    chosen = data.draw(st.integers(1, len(done)))
    actions: list[Action] = [[TICKET], *done]
    facts = sealed(actions)
    of_it = [fact for fact in facts if fact.action[1] == f"key-{chosen}"]
    any_of_it = data.draw(st.sampled_from(of_it))
    undo = Undone(job=J, fact=any_of_it.sequence, reason="", whole=True)
    undone = sealed([*actions, [undo]])
    never = without(facts, f"key-{chosen}")
    assert bare(fold(undone).job(J)) == bare(fold(never).job(J))
    back = Undone(job=J, fact=len(undone), reason="", whole=True)
    assert bare(fold(sealed([*actions, [undo], [back]])).job(J)) == bare(fold(facts).job(J))


@given(st.lists(ACTIONS, min_size=1, max_size=3), ACTIONS)
def test_one_action_in_place_of_another_is_undone_with_the_undo_in_it(before: Action, mine: What) -> None:
    """What stood before is back: an undo is undone by name of the action, the undo that it held too."""
    actions: list[Action] = [[TICKET], before, [mine, Undone(job=J, fact=2, reason="", whole=True)]]
    facts = sealed(actions)
    undone = sealed([*actions, [Undone(job=J, fact=len(before) + 2, reason="", whole=True)]])
    assert bare(fold(undone).job(J)) == bare(fold(without(facts, "key-2")).job(J))


@given(st.lists(ACTIONS, min_size=2, max_size=3))
def test_an_undo_from_before_there_was_such_a_field_reverses_one_fact(action: Action) -> None:
    old = Undone(job=J, fact=2, reason="")
    assert "whole" not in msgspec.to_builtins(old)
    facts = sealed([[TICKET], action, [old]])
    assert void_places(facts) == {("van", 2)}
    whole: Any = msgspec.structs.replace(old, whole=True)
    assert void_places(sealed([[TICKET], action, [whole]])) == {("van", 2 + at) for at in range(len(action))}
