"""What benches that knew nothing of one another read differently of one thing: told when their records meet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import msgspec

from clubwright.club.quantities import QUANTITIES
from clubwright.errors import ClubwrightError, Finding
from clubwright.journal.facts import (
    Fact,
    HeadBent,
    HeadPulled,
    PartChanged,
    Place,
    ReadingDecided,
    ReadingTaken,
    ShaftCut,
    ShaftTrimmed,
    TapeLaid,
)
from clubwright.journal.order import seen_by
from clubwright.journal.reducers.measured import figure_path, gauges_of
from clubwright.journal.standing import standing_target, void_places
from clubwright.journal.subjects import names_of, subjects_of
from clubwright.journal.timeline import Heads
from clubwright.notation import parse
from clubwright.ticket.fields.fields import measured_kind
from clubwright.ticket.part_readings import figure_of

_CHANGES = (ShaftTrimmed, ShaftCut, HeadBent, HeadPulled)
"""What makes the club another one: what was read before and after it is of two clubs."""
Saw = tuple[str, int, Heads]
"""A bench, the number of a merge there, and the last fact of each other bench that it had seen."""
_SAME = 1e-12
"""Figures that differ by less are the same, typed in two units."""


class Measured(msgspec.Struct, frozen=True, kw_only=True):
    """One measurement of one thing.

    Attributes:
        thing: What was measured, with the stage, the weights that were on, and after which change of the club.
        name: It in a few words.
        text: What was read, as typed.
        value: The same in SI.
        reading: Whether it stays a reading beside a further one; else the later one takes its place.
        fact: The fact of it.
    """

    thing: tuple[object, ...]
    name: str
    text: str
    value: float
    reading: bool
    fact: Fact


def disagreeing(union: Sequence[Fact], new: frozenset[Place]) -> Iterator[Finding]:
    """Say what benches that knew nothing of one another read differently of one thing.

    Args:
        union: All facts of both records, in order.
        new: Those that come in now: only what one of them brings is told.
    """
    saw = [(fact.site, fact.sequence, heads) for fact in union if (heads := seen_by(fact)) is not None]
    subjects = subjects_of(union)
    names = names_of(subjects)
    for place, subject in subjects.items():
        if not any(fact.place in new for fact in subject.facts):
            continue
        try:
            void = void_places(subject.facts)
        except ClubwrightError:
            continue  # it is told that the job is broken
        things: dict[tuple[object, ...], list[Measured]] = {}
        for item in _measured(_that_count(subject.facts, void)):
            things.setdefault(item.thing, []).append(item)
        for items in things.values():
            apart = [item for item in items if any(_disagree(item, other, saw) for other in items)]
            if any(item.fact.place in new for item in apart):
                yield _finding(names[place], apart)


def _that_count(facts: Sequence[Fact], void: frozenset[Place]) -> list[Fact]:
    """Leave out what was undone, and what a person left out."""
    by_place = {fact.place: fact for fact in facts}
    standing = [fact for fact in facts if fact.place not in void]
    decided: dict[Place, bool] = {}
    for fact in standing:
        reading = standing_target(fact, by_place) if isinstance(fact.what, ReadingDecided) else None
        if reading is not None and isinstance(fact.what, ReadingDecided):
            decided[reading.place] = fact.what.keep
    return [fact for fact in standing if decided.get(fact.place, True)]


def _measured(facts: Sequence[Fact]) -> Iterator[Measured]:
    """Yield what was measured of a job, each thing with the state of the club that it was measured in."""
    changes: dict[str, int] = {}
    for fact in facts:
        what = fact.what
        if isinstance(what, _CHANGES):
            changes["club"] = changes.get("club", 0) + 1
        elif isinstance(what, ReadingTaken):
            quantity, figure = QUANTITIES.get(what.quantity), figure_of(what.quantity)
            if quantity is not None:
                said, kind = f"{quantity.name}, {what.stage}", quantity.kind
                read = (what.quantity, what.stage, tuple(sorted(what.weights)), changes.get("club", 0))
                yield from _one(read, said, kind, what.value, fact, reading=True)
            elif figure is not None:
                thing = (what.quantity, "", changes.get("club", 0), changes.get(figure.section.name, 0))
                yield from _one(thing, what.quantity, figure.field.kind, what.value, fact, reading=True)
        elif isinstance(what, PartChanged | TapeLaid):
            yield from _of_parts(what, fact, changes)


def _of_parts(what: PartChanged | TapeLaid, fact: Fact, changes: dict[str, int]) -> Iterator[Measured]:
    if isinstance(what, TapeLaid):
        section, values, layers = "tape", {"name": what.name, "mass": what.mass}, what.layers
    else:
        section, values, layers = what.section, dict(what.values), ""
        if what.another is True:
            changes[section] = changes.get(section, 0) + 1
    for key, text in values.items():
        path = figure_path(section, values, key)
        thing = (path, layers, changes.get("club", 0), changes.get(section, 0))
        yield from _one(thing, path, measured_kind(section, key), text, fact, reading=bool(gauges_of(what).get(key)))


def _one(
    thing: tuple[object, ...], name: str, kind: str | None, text: str, fact: Fact, *, reading: bool
) -> Iterator[Measured]:
    if kind is None or not text:
        return
    try:
        value = parse(kind, text, where=name).value
    except ClubwrightError:
        return  # it is told with the job that it is of
    yield Measured(thing=thing, name=name, text=text, value=value, reading=reading, fact=fact)


def _disagree(one: Measured, other: Measured, saw: Sequence[Saw]) -> bool:
    """True where two benches read differently, and neither had seen what the other read."""
    if one.fact.site == other.fact.site or abs(one.value - other.value) <= _SAME * max(
        abs(one.value), abs(other.value)
    ):
        return False
    return not _knew(one.fact, other.fact, saw) and not _knew(other.fact, one.fact, saw)


def _knew(fact: Fact, other: Fact, saw: Sequence[Saw]) -> bool:
    """True where the bench of a fact had merged another one before it wrote."""
    return any(
        site == fact.site and number < fact.sequence and heads.get(other.site, 0) >= other.sequence
        for site, number, heads in saw
    )


def _finding(job: str, items: Sequence[Measured]) -> Finding:
    told = " and ".join(f"{item.text} ({item.fact.site}/{item.fact.sequence})" for item in items)
    last = items[-1]
    how = f"`clubwright decide {job} {last.fact.sequence} leave --site {last.fact.site}`"
    if all(item.reading for item in items):
        mend = (
            "All of them stay readings, and what is believed goes by all. Read it again with one gauge; where one is wrong, "
            f"leave it out, such as {how}."
        )
    else:
        mend = (
            f"No gauge is said of each, so the one written last stands ({last.text}), and the other is in the trail alone. "
            "Measure it again, and say with which gauge."
        )
    what = f"benches that knew nothing of one another read it differently: {told}"
    return Finding(where=f"job {job}, {items[0].name}", what=what, mend=mend, severity="note")
