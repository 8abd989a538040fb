"""The history of a shop, drawn before anything of it happens: a list of plain actions that can be printed, kept and cut.

Each action says who does what, and what befalls them meanwhile: somebody else who acts at the same moment, a second tap, a
full disk, a power cut. Whatever it needs of chance is in it as a number, so it does the same however often it is played.
"""

from __future__ import annotations

import random
from typing import Literal

import msgspec
from clock import JUMPS
from doing import VERBS

Phase = Literal["before the write", "in the write", "between sync and unlink", "after the commit", "between actions"]
PHASES: tuple[Phase, ...] = (
    "before the write",
    "in the write",
    "between sync and unlink",
    "after the commit",
    "between actions",
)
"""Where a power cut may fall in an action."""

When = Literal["look", "second look", "write"]
WHENS: tuple[When, ...] = ("look", "second look", "write", "write")

LEAST_ACTIONS, MOST_ACTIONS = 50, 54
CUTS = (2, 3, 3, 4)
MERGES = (3, 4, 6)
LAST = -1
"""The last job of a bench: one that came in with its record from outside."""
CHANGES = 0.15
"""How often the hands turn to another job, maybe at another bench."""
WAITS = (3, 3, 3, 2, 1)
"""How likely they are: with a cup on the bench, most is done within its pot life."""
BESIDE = {"again": 4, "clock": 3, "look": 2}
"""What is not a call of the program, or one that was made before; how likely each is."""


class PowerCut(msgspec.Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """The power goes in an action.

    Attributes:
        phase: Where, when the action has such a place.
        pick: Chance: which place of that kind, and what is left of what was not synced.
        again: Whether it goes once more while the record is mended.
        resend: Whether the hand, who never had an answer, sends the action again.
    """

    phase: Phase
    pick: int
    again: bool = False
    resend: bool = False


class Action(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """One thing that a hand does.

    Attributes:
        do: The verb (`doing.call_of`), `again` (send an earlier action once more), `clock`, `look`, or `restart`.
        key: Idempotency key of the tap.
        bench: Which bench.
        hand: Which of its two tablets.
        job: Which of its jobs.
        pick: Chance, for whatever else is to be settled.
        wait_min: Minutes that pass before it.
        second_tap: Tapped twice: with the same key, or as another action.
        meanwhile: What the other hand does at the same moment, to the same job.
        when: At which moment of this action that happens.
        room: Bytes that are left on the disk; None for enough.
        cut: The power goes.
    """

    do: str
    key: str
    bench: int = 0
    hand: int = 0
    job: int = 0
    pick: int = 0
    wait_min: int = 5
    second_tap: Literal["", "same key", "other key"] = ""
    meanwhile: Action | None = None
    when: When = "write"
    room: int | None = None
    cut: PowerCut | None = None


class History(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """What happens in a shop.

    Attributes:
        seed: From which it was drawn.
        benches: How many there are.
        actions: In order.
    """

    seed: int
    benches: int
    actions: tuple[Action, ...]


def drawn(seed: int) -> History:
    """Draw the history of one seed."""
    chance = random.Random(f"shop {seed}")
    benches = chance.choice((1, 2, 2, 3, 4))
    count = chance.randint(LEAST_ACTIONS, MOST_ACTIONS)
    verbs = _verbs(chance, count)
    # work piles up on one job at one bench for a while
    job, bench = 0, 0
    actions = []
    for number, verb in enumerate(verbs):
        if chance.random() < CHANGES:
            job, bench = chance.randrange(6), chance.randrange(benches)
        actions.append(_action(chance, f"key-{number:03d}", verb, bench, job))
        if verb == "visit":
            job = LAST  # and that club is worked on
    phases = list(PHASES)
    chance.shuffle(phases)
    writing = [number for number, verb in enumerate(verbs) if number > 7 and _with(verb, "cut")]
    for phase, number in zip(phases, chance.sample(writing, chance.choice(CUTS)), strict=False):
        cut = PowerCut(phase, chance.randrange(10**6), chance.random() < 0.25, chance.random() < 0.6)
        actions[number] = msgspec.structs.replace(actions[number], cut=cut)
    return History(seed=seed, benches=benches, actions=tuple(actions))


def _verbs(chance: random.Random, count: int) -> list[str]:
    likely = {verb: found.likely for verb, found in VERBS.items()} | BESIDE
    names, weights = list(likely), list(likely.values())
    verbs = ["take", "visit", *chance.choices(names, weights, k=count - 2)]
    for number in chance.sample(range(10, count), chance.choice(MERGES)):
        verbs[number] = "merge"
    return verbs


def _action(chance: random.Random, key: str, verb: str, bench: int, job: int) -> Action:
    meanwhile = None
    hand = chance.randrange(2)
    if _with(verb, "races") and chance.random() < 0.2:
        other = chance.choice((verb, "next", "undo", "undo last", "fit", "card", "bad mix", "merge"))
        meanwhile = Action(
            do=other, key=f"{key}-other", bench=bench, hand=1 - hand, job=job, pick=chance.randrange(10**6), wait_min=0
        )
    return Action(
        do=verb,
        key=key,
        bench=bench,
        hand=hand,
        job=job,
        pick=chance.randrange(len(JUMPS)) if verb == "clock" else chance.randrange(10**6),
        wait_min=chance.choices((0, 1, 5, 40, 300), WAITS)[0],
        second_tap=chance.choices(("", "same key", "other key"), (88, 8, 4))[0],
        meanwhile=meanwhile,
        when=chance.choice(WHENS),
        room=chance.choice((0, 600, 5000, 20000)) if chance.random() < 0.04 else None,
    )


def _with(verb: str, what: Literal["cut", "races"]) -> bool:
    """Say whether a verb is one that the power may go in, or that somebody may come between."""
    return verb in VERBS and bool(getattr(VERBS[verb], what))
