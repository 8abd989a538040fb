"""What hands do about a slip: something is undone, something else is done in its place, a reading is used or left out."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from calls import Call, Scene, on_the_job

from clubwright.journal.facts import Fact, ReadingTaken
from clubwright.services.actions import bench as actions
from clubwright.services.actions.replacing import instead_of
from clubwright.services.record.session import Session

MINE: tuple[tuple[str, Callable[..., object], tuple[Any, ...]], ...] = (
    ("read head.mass 262.5 g", actions.note_reading, ("head.mass", "262.5 g")),
    ("mix", actions.mix_adhesive, ("4.0 g", "2.0 g", "22 C", "lot 7")),
    ("fit lead 3", actions.fit_weights, (["lead 3"],)),
    ("set the mass of the head", actions.change_part, ("head", {"mass": "262.9 g"})),
    ("do weigh", actions.do_step, ("weigh",)),
)
"""What a hand does in place of what somebody did."""


def decide(at: Scene) -> Call | None:
    """Use or leave out what a gauge showed, of the club or of a part."""
    shown = [] if at.job is None else [fact for fact in at.facts if _is_shown(fact)]
    if not shown:
        return None
    fact, keep = at.chance.choice(sorted(shown, key=lambda fact: fact.place)), at.chance.random() < 0.5
    label = f"{'use' if keep else 'leave out'} {fact.site}/{fact.sequence}"
    return on_the_job(
        at, label, actions.decide_reading, fact.sequence, keep=keep, reason="looked again", site=fact.site
    )


def _is_shown(fact: Fact) -> bool:
    return isinstance(fact.what, ReadingTaken) or isinstance(getattr(fact.what, "gauges", None), dict)


def undo(at: Scene) -> Call | None:
    facts = at.facts
    if not facts:
        return None
    fact = at.chance.choice(sorted(facts, key=lambda fact: fact.place))
    return on_the_job(at, f"undo {fact.site}/{fact.sequence}", actions.undo, fact.sequence, "a slip", site=fact.site)


def instead(at: Scene) -> Call | None:
    facts = [fact for fact in at.facts if fact.typed and not fact.typed.startswith("ticket")]
    if not facts:
        return None
    theirs, name = at.chance.choice(sorted(facts, key=lambda fact: fact.place)), at.name
    label, act, values = at.chance.choice(MINE)

    def run(session: Session, key: str) -> object:
        return act(instead_of(session, theirs, "mine"), name, *values, key=key)

    label = f"{label} in place of {theirs.site}/{theirs.sequence} on {name}"
    return Call(label=label, job=name, run=run, replaces=theirs.place)
