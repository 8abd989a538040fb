"""What lists and searches know of a job without its facts: one line each, and what it is found by."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import msgspec

from clubwright.journal.facts import Fact, Place
from clubwright.journal.job import BrokenJob
from clubwright.journal.reducers.fold import Job, Shop, Signed, TrailLine
from clubwright.journal.standing import void_places
from clubwright.journal.subjects import Subject, names_of
from clubwright.journal.timeline import Moment
from clubwright.journal.touches import TouchKind, touches_of
from clubwright.state.order import OrderWords

SEARCHED = ("player", "label", "kind", "priority", "promised", "asked", "again_of", "note")
"""Words of the ticket's own table that a search looks in."""
_BETWEEN = "\x1f"


class JobLine(msgspec.Struct, frozen=True, kw_only=True):
    """A job as lists show it; what is called as in `Job` is the same.

    Attributes:
        id: Name that it goes by.
        place: Which job.
        numbers: Every ticket number that it had.
        order: What its order says in words.
        promised_at: When the promise was last changed.
        steps: How many steps of the plan are done.
        runs: Whether time by itself may change where it stands: a cup that is mixed, a joint that cures.
        finished: Signature of the end, without what was shown; None while it is open.
        trail: Its first and its last line.
        facts: How many lines there are.
        linked: Whether its club was in another job as well.
    """

    id: str
    place: Place
    numbers: tuple[str, ...]
    order: OrderWords
    promised_at: str | None
    steps: int
    runs: bool
    finished: Signed | None
    trail: tuple[TrailLine, TrailLine]
    facts: int
    linked: bool = False


class Touch(msgspec.Struct, frozen=True, kw_only=True):
    """One fact that touches something.

    Attributes:
        kind: Kind of thing.
        name: What it is called, as typed.
        fact: Which fact.
        at: When it was written.
        standing: False where it was undone.
    """

    kind: TouchKind
    name: str
    fact: Place
    at: str
    standing: bool


class JobEntry(msgspec.Struct, frozen=True, kw_only=True):
    """A job with what it is found by.

    Attributes:
        line: As lists show it, or why its state is not known.
        job: Number that its ticket was taken under.
        came: Sorts jobs as they came in.
        player: Whose it is, as `compared` has it.
        shaft: What the rack calls its shaft, likewise.
        touches: What its facts touch.
    """

    line: JobLine | BrokenJob
    job: str
    came: str
    player: str = ""
    shaft: str = ""
    touches: tuple[Touch, ...] = ()


def line_of(job: Job) -> JobLine:
    """Return the line of a job."""
    finished = None if job.finished is None else msgspec.structs.replace(job.finished, shown={})
    return JobLine(
        id=job.id,
        place=job.place,
        numbers=job.numbers,
        order=job.order,
        promised_at=job.promised_at,
        steps=len(job.steps_done),
        runs=runs(job),
        finished=finished,
        trail=(job.trail[0], job.trail[-1]),
        facts=len(job.trail),
        linked=job.earlier is not None or bool(job.later_jobs),
    )


def runs(job: Job | JobLine) -> bool:
    """True while time by itself may change where a job stands: a cup that is mixed, a joint that cures."""
    return job.runs if isinstance(job, JobLine) else job.glued_at is not None or bool(job.mixes)


def said(job: Job | JobLine, key: str) -> str:
    """Return a word of the ticket's own table, empty when it does not give it: for what is driven by the register."""
    return str(getattr(job.order, key))


def searched_text(job: Job | JobLine | BrokenJob) -> str:
    """Return all text that words are looked for in, in small letters."""
    words = (job.label, job.player) if isinstance(job, BrokenJob) else [said(job, key) for key in SEARCHED]
    return " ".join((job.id, *job.numbers, *words)).casefold()


def compared(word: str | None) -> str:
    """Return a word as it is compared: without outer spaces, small letters; empty where it is not said."""
    return (word or "").strip().casefold()


def entries_of(subjects: Mapping[Place, Subject], shop: Shop, written: Mapping[Place, Moment]) -> Iterator[JobEntry]:
    """Give every job of some subjects with what it is found by.

    Args:
        subjects: All that share a number with one of them.
        shop: What follows from them.
        written: Moment of each fact.
    """
    for place, name in names_of(subjects).items():
        subject, job, broken = subjects[place], shop.jobs.get(name), shop.broken.get(name)
        if job is not None and job.place == place:
            yield JobEntry(
                line=line_of(job),
                job=subject.job,
                came=came(subject.facts[0], written),
                player=compared(job.order.player),
                shaft=compared(job.parts.shaft.name),
                touches=tuple(_touches(subject)),
            )
        elif broken is not None and broken.place == place:
            touches = tuple(_touches(subject))
            yield JobEntry(line=broken, job=subject.job, came=came(subject.facts[0], written), touches=touches)


def came(fact: Fact, written: Mapping[Place, Moment]) -> str:
    """Return a text that sorts as facts do (`clubwright.journal.order.in_order`)."""
    time, level = written[fact.place]
    return _BETWEEN.join((time, f"{level:09d}", fact.site, f"{fact.sequence:012d}"))


def _touches(subject: Subject) -> Iterator[Touch]:
    void = void_places(subject.facts, strict=False)
    for fact in subject.facts:
        for kind, name in sorted(touches_of(fact)):
            yield Touch(kind=kind, name=name, fact=fact.place, at=fact.at, standing=fact.place not in void)
