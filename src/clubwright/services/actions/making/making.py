"""Making: what is done to the club, from the trims to the grip."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

import msgspec

from clubwright.errors import Finding, InputError, StepNotReady
from clubwright.journal.facts import (
    AdhesiveMixed,
    Fact,
    Glued,
    Gripped,
    HeadBent,
    ShaftTrimmed,
    TapeLaid,
    WeightsFitted,
    What,
)
from clubwright.journal.reducers.fold import Job
from clubwright.journal.reducers.measured import gauges_of
from clubwright.services.checks.cold_joint import too_cold
from clubwright.services.checks.job_ticket import ticket_of, ticket_or_none
from clubwright.services.checks.payloads import require_payload
from clubwright.services.checks.usual_gauge import GaugeSaid, gauge_text, measured_by, without_gauges
from clubwright.services.jobs.grip_needs import before_grip
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.jobs.mixed_batch import missing_mix, mix_lacks
from clubwright.services.record.done_at import done_moment, done_text, read_done_at
from clubwright.services.record.session import Session
from clubwright.services.recording.possible import GATE_OF
from clubwright.services.recording.recording import keep, keep_what, require_open
from clubwright.state.ticket import Ticket


def fit_weights(session: Session, job: str, weights: Sequence[str], key: str | None = None) -> Fact:
    """Record the weights that are on now: the whole list, a name for each piece."""
    return keep_what(
        session, WeightsFitted(job=job, weights=list(weights)), "fitted " + (", ".join(weights) or "none"), key
    )


def trim_shaft(session: Session, job: str, end: str, amount: str, key: str | None = None) -> Fact:
    """Record a trim of the tip or the butt before the cut to length."""
    ends: dict[str, Literal["tip", "butt"]] = {"tip": "tip", "butt": "butt"}
    if end not in ends:
        raise InputError([Finding(where="end", what=f'"{end}" is no end of a shaft', mend="Write tip or butt.")])
    what = ShaftTrimmed(job=job, end=ends[end], amount=amount)
    require_payload(what)
    return keep_what(session, what, f"trimmed {amount} off the {end}", key)


def bend_head(
    session: Session,
    job: str,
    *,
    loft: str | None = None,
    lie: str | None = None,
    bounce: str | None = None,
    key: str | None = None,
    done_at: str | None = None,
) -> Fact:
    """Record the angles as measured after a bend."""
    done = read_done_at(session, done_at)
    what = HeadBent(job=job, loft=loft, lie=lie, bounce=bounce, done_at=done)
    require_payload(what)
    said = [f"{name} {value}" for name, value in (("loft", loft), ("lie", lie), ("bounce", bounce)) if value]
    return keep_what(session, what, "bent to " + ", ".join(said) + done_text(done), key)


def lay_tape(
    session: Session, job: str, name: str, layers: str, mass: str, key: str | None = None, *, gauge: GaugeSaid = None
) -> Fact:
    """Record the tape laid, as weighed; the same layers weighed again add to the first weighing.

    `gauge` is what weighed it, as in `change_part`.
    """
    plain = TapeLaid(job=job, name=name, layers=layers, mass=mass)

    def gauged(ticket: Ticket | None) -> TapeLaid:
        by = measured_by(ticket, "tape", ("mass",), gauge)
        return msgspec.structs.replace(plain, gauges=by or msgspec.UNSET)

    def make(state: Job | None) -> What:
        return gauged(ticket_or_none(require_open(state, job)))

    def typed(what: What) -> str:
        assert isinstance(what, TapeLaid)  # what is made above
        return f"laid {layers} of {name}, {mass}" + gauge_text(gauges_of(what), gauge)

    def same(what: What) -> bool:
        return what == gauged(None) if isinstance(gauge, str) else without_gauges(what) == plain

    return keep(session, job, make, typed=typed, same=same, key=key)


def mix_adhesive(
    session: Session,
    job: str,
    part_a: str,
    part_b: str,
    temperature: str,
    batch: str,
    key: str | None = None,
    *,
    done_at: str | None = None,
) -> Fact:
    """Record the mix as weighed; its pot life runs from when it was mixed.

    Raises:
        InputError: while the ticket lacks what the cup is held against: the basis of its ratio, or by volume a density.
    """
    done = read_done_at(session, done_at)
    what = AdhesiveMixed(job=job, part_a=part_a, part_b=part_b, temperature=temperature, batch=batch, done_at=done)
    require_payload(what)

    def make(state: Job | None) -> What:
        standing = require_open(state, job)
        lacks = mix_lacks(ticket_of(standing).club.adhesive) if standing.finished is None else ()
        if lacks:
            raise InputError(lacks)
        return what

    def typed(_: What) -> str:
        return f"mixed {part_a} + {part_b}{done_text(done)}"

    return keep(session, job, make, typed=typed, same=lambda found: found == what, key=key)


def glue(session: Session, job: str, temperature: str, key: str | None = None, *, done_at: str | None = None) -> Fact:
    """Record that the joint is closed; its cure runs from when it was closed, at that temperature.

    A release that is open only because the joint was closed earlier than it was written is signed with that time shown.

    Raises:
        GateClosed: while a check of the gate is not met, nobody has signed it, nothing is mixed for this joint, or the part
            is colder than the coldest row of the adhesive's table.
    """
    done = read_done_at(session, done_at)
    what = Glued(job=job, temperature=temperature, done_at=done)
    require_payload(what)

    def needs(state: Job) -> tuple[Finding, ...]:
        return (*missing_mix(state), *too_cold(ticket_of(state), temperature))

    typed = f"glued at {temperature}{done_text(done)}"
    return keep_what(session, what, typed, key, gate=GATE_OF[Glued], needs=needs, when=done_moment(session, done))


def slide_grip(session: Session, job: str, key: str | None = None, *, done_at: str | None = None) -> Fact:
    """Record that the grip is on for good.

    Raises:
        StepNotReady: in a build or re-shaft, where the joint was not released by its table then; in a re-grip, while
            the old grip is not off.
    """
    done = read_done_at(session, done_at)
    gripped = Gripped(job=job, done_at=done)

    def make(state: Job | None) -> What:
        session.require("work")  # before it is told what is missing
        standing = require_open(state, job)
        missing = (
            before_grip(answer_job(standing, done_moment(session, done)), standing) if standing.finished is None else ()
        )
        if missing:
            raise StepNotReady("grip", missing)
        return gripped

    typed = f"gripped{done_text(done)}"
    return keep(session, job, make, typed=lambda _: typed, same=lambda what: what == gripped, key=key)
