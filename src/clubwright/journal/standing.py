"""Which facts of one job still stand: an undone action does not, nor does what hangs on it; undoing the undo restores it.

This is known before anything is laid on the job: what was undone is as if it had never been.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from clubwright.errors import RecordError
from clubwright.journal.facts import Fact, PartChanged, Place, ReadingDecided, ReadingTaken, TapeLaid, Undone


def target_of(fact: Fact, job: Mapping[Place, Fact]) -> Fact | None:
    """Return the fact of the job that an `Undone` or `ReadingDecided` is about; None for any other kind.

    Raises:
        RecordError: when there is no such fact, or it is not clear which one is meant.
    """
    if isinstance(fact.what, Undone):
        number, site = fact.what.fact, fact.what.site
    elif isinstance(fact.what, ReadingDecided):
        number, site = fact.what.reading, fact.what.site
    else:
        return None
    found = job.get((site or fact.site, number))
    if found is None and site is None:
        others = [other for place, other in job.items() if place[1] == number]
        if len(others) > 1:
            sites = ", ".join(sorted(other.site for other in others))
            raise RecordError(
                f"several benches have a fact {number} on job {fact.what.job} ({sites}): say which bench's"
            )
        found = others[0] if others else None
    if found is None or found is fact or (found.site == fact.site and found.sequence > fact.sequence):
        raise RecordError(
            f"job {fact.what.job} has no earlier fact {number}: look up the number in the trail of this job"
        )
    if isinstance(fact.what, ReadingDecided) and not _is_reading(found):
        raise RecordError(f"fact {number} of job {fact.what.job} is no reading: look up the number in the trail")
    return found


def _is_reading(fact: Fact) -> bool:
    """True for what a gauge showed: of the club, or of a part whose gauge is said."""
    what = fact.what
    return isinstance(what, ReadingTaken) or (
        isinstance(what, PartChanged | TapeLaid) and isinstance(what.gauges, dict)
    )


def standing_target(fact: Fact, job: Mapping[Place, Fact]) -> Fact | None:
    """Return what a fact is about as `target_of` does; None also where that is not clear."""
    try:
        return target_of(fact, job)
    except RecordError:
        return None


def reversed_by(facts: Sequence[Fact], *, strict: bool = True) -> dict[Place, tuple[Place, ...]]:
    """Return what each undo among the facts of one job reverses: one fact, or all that the same action wrote on the job.

    Args:
        facts: All facts of the job, in order.
        strict: Whether what could not have happened is refused; else it is passed over.

    Raises:
        RecordError: for an undo of nothing.
    """
    job = {fact.place: fact for fact in facts}
    find = target_of if strict else standing_target
    actions: dict[tuple[str, str], list[Place]] = {}
    for fact in facts:
        actions.setdefault(fact.action, []).append(fact.place)
    found: dict[Place, tuple[Place, ...]] = {}
    for fact in facts:
        target = find(fact, job) if isinstance(fact.what, Undone) else None
        if target is not None and isinstance(fact.what, Undone):
            whole = fact.what.whole is True
            found[fact.place] = tuple(actions[target.action]) if whole else (target.place,)
    return found


def void_places(facts: Sequence[Fact], *, strict: bool = True) -> frozenset[Place]:
    """Return the places of the facts of one job that do not stand.

    Args:
        facts: All facts of the job, in order.
        strict: Whether what could not have happened is refused; else it is passed over.

    Raises:
        RecordError: for an undo of nothing, a second undo of the same fact, or undos in a ring.
    """
    job = {fact.place: fact for fact in facts}
    find = target_of if strict else standing_target
    targets = {fact.place: find(fact, job) for fact in facts}
    undoing: dict[Place, list[Fact]] = {}
    for undo, places in reversed_by(facts, strict=strict).items():
        for place in places:
            undoing.setdefault(place, []).append(job[undo])
    known: dict[Place, bool | None] = {}

    def void(place: Place) -> bool:
        if place not in known:
            known[place] = None
            undone = any(not void(undo.place) for undo in undoing.get(place, ()))
            target = targets[place]
            hangs = target is not None and isinstance(job[place].what, ReadingDecided) and void(target.place)
            known[place] = undone or hangs
        found = known[place]
        if found is None and not strict:
            return False
        if found is None:
            raise RecordError(f"fact {place[1]} of {place[0]} is undone in a ring: verify the record")
        return found

    # from the last fact back, so that an undo is known before what it undoes and nothing nests deep
    for fact in reversed(facts):
        void(fact.place)
    for place, undos in undoing.items() if strict else ():
        standing = [undo for undo in undos if not known[undo.place]]
        # an undo of a whole action may find some of it undone before: only the fact that it names must stand
        _refuse_second(standing, [undo for undo in standing if targets[undo.place] is job[place]])
    return frozenset(place for place, is_void in known.items() if is_void)


def _refuse_second(undos: Sequence[Fact], named: Sequence[Fact]) -> None:
    """One bench undoes a fact once; two benches may have done so without knowing of each other.

    Args:
        undos: All that stand of one fact, in order.
        named: Those of them that name this very fact.
    """
    first: dict[str, Fact] = {}
    for undo in undos:
        earlier = first.setdefault(undo.site, undo)
        if earlier is not undo and undo in named:
            assert isinstance(undo.what, Undone)  # only undos are in the list
            raise RecordError(
                f"fact {undo.what.fact} is undone already, by fact {earlier.sequence}: to bring it back, undo that one"
            )
