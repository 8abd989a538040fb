"""Which step of the plan a fact completes: what was done is done, whether it came in by page, command or program.

A record from before this was so may have the step's own fact beside it, or a step without the fact: both count as they did.
"""

from __future__ import annotations

import msgspec

from clubwright.club.quantities import QUANTITIES, TARGETS
from clubwright.club.quantity import Steered
from clubwright.journal.facts import (
    AdhesiveMixed,
    Finished,
    Glued,
    Gripped,
    HeadBent,
    HeadPulled,
    MixTaken,
    OrderChanged,
    PartChanged,
    ShaftCut,
    ShaftTrimmed,
    StepDone,
    What,
)
from clubwright.journal.reducers.builder import JobBuilder

COMPLETED_BY: dict[str, type[msgspec.Struct] | tuple[type[msgspec.Struct], ...]] = {
    "tip trim": ShaftTrimmed,
    "mark and cut": ShaftCut,
    "mix": (AdhesiveMixed, MixTaken),
    "glue": Glued,
    "grip": Gripped,
    "loft and lie": HeadBent,
    "tag": Finished,
}
"""Step of the plan to the kind of fact that completes it; a trim of the butt completes nothing. Every other step is done
when a person says so (`StepDone`)."""

BEGUN_ANEW_BY: dict[type[msgspec.Struct], tuple[str, ...]] = {
    Glued: ("cure",),
    HeadPulled: ("clean bore", "tip prep", "ferrule", "dry fit", "mix", "glue", "cure", "ferrule finish", "inspect"),
}
"""Steps that have to be done again after a fact: a joint that is closed again has not cured yet, and one that was opened is
to be made anew."""


_JOINED = ("dry fit", "dry reading", "choose weight", "mix", "glue", "cure", "ferrule finish", "inspect")
BEGUN_ANEW_WITH_ANOTHER: dict[str, tuple[str, ...]] = {
    "head": ("pull", "weigh", "head check", "bore to ground", "loft and lie", *_JOINED),
    "shaft": ("pull", "weigh", "tip trim", "tip prep", "ferrule", "mark and cut", *_JOINED),
    "grip": ("pull", "weigh", "grip", "dry reading", "inspect"),
}
"""Steps that have to be done again when another part is in the place of one that was looked at, measured or worked on."""


_STEERS: dict[Steered, str] = {"bends": "loft and lie", "weights": "choose weight", "tapes": "tape"}

BEGUN_ANEW_WITH_ORDER: dict[str, tuple[str, ...]] = {
    "length": ("mark and cut",),
    "length_method": ("mark and cut",),
    **{key: (_STEERS[how],) for key in TARGETS if (how := QUANTITIES[key].steered_by) in _STEERS},
}
"""Steps that aim at a target: another target, and they are to do again; and with any target or tolerance the inspection."""

ONLY_BEFORE = {"mark and cut": "gripped", "tape": "gripped", "choose weight": "glued_at"}
"""What is to do again only while that has not happened: a gripped club is not cut, nor is a closed joint weighted."""


def _anew_with_order(what: OrderChanged, draft: JobBuilder) -> list[str]:
    steps: list[str] = []
    for path in what.values:
        table, _, key = path.partition(".")
        if table in ("target", "base"):
            steps += BEGUN_ANEW_WITH_ORDER.get(key, ())
        if table in ("target", "base", "tolerance"):
            steps.append("inspect")
        if path == "adhesive.name":
            steps.append("mix")
        if path == "ticket.hand":
            steps.append("pull")
    return [step for step in steps if step not in ONLY_BEFORE or not getattr(draft, ONLY_BEFORE[step])]


def complete(what: What, draft: JobBuilder) -> None:
    """Mark on a draft the step that a standing fact completes, after taking back those that it begins anew."""
    anew = BEGUN_ANEW_BY.get(type(what), ())
    if isinstance(what, PartChanged) and what.another is True:
        anew = BEGUN_ANEW_WITH_ANOTHER.get(what.section, ())
    if isinstance(what, OrderChanged):
        anew = tuple(_anew_with_order(what, draft))
    for step in anew:
        draft.open_step(step)
    if isinstance(what, StepDone):
        draft.complete(what.step, skipped=what.skipped if isinstance(what.skipped, str) else None)
    elif not (isinstance(what, ShaftTrimmed) and what.end == "butt"):
        for step, kind in COMPLETED_BY.items():
            if isinstance(what, kind):
                draft.complete(step)
