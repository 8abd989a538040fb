"""Which step of the plan a fact completes: what was done is done, whether it came in by page, command or program.

A record from before this was so may have the step's own fact beside it, or a step without the fact: both count as they did.
"""

from __future__ import annotations

from clubwright.club.quantities import QUANTITIES
from clubwright.journal.facts import KINDS, Fact, OrderChanged, PartChanged, ShaftTrimmed, StepDone, What, kind_of
from clubwright.journal.reducers.builder import JobBuilder
from clubwright.state.steps import STEPS
from clubwright.ticket.order_paths import place_of

COMPLETED_BY: dict[str, tuple[type[What], ...]] = {
    key: tuple(KINDS[kind] for kind in step.completed_by) for key, step in STEPS.items() if step.completed_by
}
"""Step of the plan to the kinds of fact that complete it; a trim of the butt completes nothing. Every other step is done
when a person says so (`StepDone`)."""


def _anew_with_order(what: OrderChanged, builder: JobBuilder) -> tuple[str, ...]:
    """Return the steps that aim at what the order now says otherwise."""
    places: set[str] = set()
    steered: set[str] = set()
    for path in what.values:
        place = place_of(path)
        if place is None:
            continue
        places |= {path, place.table}
        if place.table in ("target", "base") and place.key in QUANTITIES:
            steered.add(QUANTITIES[place.key].steered_by)
    return tuple(
        key
        for key, step in STEPS.items()
        if (places & set(step.aims_at) or step.steers in steered)
        and not (step.only_before and getattr(builder, step.only_before))
    )


def _anew(what: What, builder: JobBuilder) -> tuple[str, ...]:
    """Return the steps that are to do again after a fact."""
    if isinstance(what, OrderChanged):
        return _anew_with_order(what, builder)
    if isinstance(what, PartChanged):
        return tuple(key for key, step in STEPS.items() if what.another is True and what.section in step.anew_with)
    return tuple(key for key, step in STEPS.items() if kind_of(what) in step.anew_by)


def complete(fact: Fact, builder: JobBuilder) -> None:
    """Mark on a builder the step that a standing fact completes, after taking back those that it begins anew."""
    what = fact.what
    for step in _anew(what, builder):
        builder.open_step(step)
    if isinstance(what, StepDone):
        builder.complete(what.step, fact.place, skipped=what.skipped if isinstance(what.skipped, str) else None)
    elif not (isinstance(what, ShaftTrimmed) and what.end == "butt"):
        for step, kinds in COMPLETED_BY.items():
            if isinstance(what, kinds):
                builder.complete(step, fact.place)
