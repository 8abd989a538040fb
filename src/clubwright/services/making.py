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
    PartChanged,
    ShaftCut,
    ShaftTrimmed,
    TapeLaid,
    WeightsFitted,
    What,
)
from clubwright.journal.fold import Job
from clubwright.notation import parse, render
from clubwright.services.cold_joint import too_cold
from clubwright.services.cup import missing_mix, mix_lacks
from clubwright.services.desk import Desk
from clubwright.services.done_at import done_moment, done_text, read_done_at
from clubwright.services.grip_needs import before_grip
from clubwright.services.job_ticket import ticket_of
from clubwright.services.job_work import work_job
from clubwright.services.keeping import SAME_CUT_M, keep, keep_what, require_gate, require_open
from clubwright.services.payloads import require_payload
from clubwright.services.possible import GATE_OF


def fit_weights(desk: Desk, job: str, weights: Sequence[str], key: str | None = None) -> Fact:
    """Record the weights that are on now: the whole list, a name for each piece."""
    return keep_what(
        desk, WeightsFitted(job=job, weights=list(weights)), "fitted " + (", ".join(weights) or "none"), key
    )


def trim_shaft(desk: Desk, job: str, end: str, amount: str, key: str | None = None) -> Fact:
    """Record a trim of the tip or the butt before the cut to length."""
    ends: dict[str, Literal["tip", "butt"]] = {"tip": "tip", "butt": "butt"}
    if end not in ends:
        raise InputError([Finding(where="end", what=f'"{end}" is no end of a shaft', mend="Write tip or butt.")])
    what = ShaftTrimmed(job=job, end=ends[end], amount=amount)
    require_payload(what)
    return keep_what(desk, what, f"trimmed {amount} off the {end}", key)


def cut_shaft(
    desk: Desk,
    job: str,
    cut_length: str,
    key: str | None = None,
    *,
    short: bool = False,
    cut_mass: str = "",
    cut_balance_from_tip: str = "",
    done_at: str | None = None,
) -> Fact:
    """Record the cut, with the length of the shaft as measured after it, and its mass and balance then where they were.

    The same length again with one of those is no other cut: the shaft was weighed or balanced since, and that is kept of it.

    Raises:
        GateClosed: while bore, cap or lie are not known.
        InputError: when the shaft would be longer than it was cut before, or nothing came off and nothing was measured; when
            it is far short of its mark and `short` does not say that it is.
    """
    measured = {"cut_mass": cut_mass, "cut_balance_from_tip": cut_balance_from_tip}
    measured = {name: text for name, text in measured.items() if text}
    done = read_done_at(desk, done_at)
    cut = ShaftCut(
        job=job,
        done_at=done,
        cut_length=cut_length,
        cut_mass=cut_mass or msgspec.UNSET,
        cut_balance_from_tip=cut_balance_from_tip or msgspec.UNSET,
    )
    require_payload(cut)
    since = PartChanged(job=job, section="shaft", values=measured)
    words = [f"{name} {text}" for name, text in measured.items()]

    def make(state: Job | None) -> What:
        standing = require_open(state, job)
        change_m = _change_m(standing, cut_length)
        if change_m is not None and abs(change_m) <= SAME_CUT_M:
            if not measured:
                mend = "Type its length after the new cut; or what the cut shaft weighs, or where it balances."
                raise InputError([Finding(where="cut", what=f"it is cut to {cut_length} already", mend=mend)])
            return since
        worked = require_gate(desk, standing, GATE_OF[ShaftCut], when=done_moment(desk, done))
        if not short and worked.cut is not None:
            _refuse_short(cut_length, worked.cut.shaft_length_m)
        return cut

    def typed(what: What) -> str:
        if what == since:
            return "shaft: " + ", ".join(words)
        return ", ".join([f"cut to {cut_length}", *words]) + done_text(done)

    return keep(desk, job, make, typed=typed, same=lambda what: what in (cut, since), key=key)


def _refuse_short(cut_length: str, mark_m: float) -> None:
    """Ask about a cut that is far short of the mark that was signed: it is more often a slip of the tape or of a finger.

    Raises:
        InputError: when it is.
    """
    short_m = mark_m - parse("length", cut_length, where="cut").value
    if short_m > MOST_SHORT_M:
        mark = render("length", mark_m)
        what = f"{cut_length} is {render('length', short_m)} short of the mark that was signed, {mark}"
        mend = (
            "Measure again, tip end to butt end. If it is cut so short, say that it is: on the card, or by "
            "`clubwright cut ... --short`."
        )
        raise InputError([Finding(where=SHORT_CUT, what=what, mend=mend)])


SHORT_CUT = "short cut"
"""Place of the finding that asks whether a shaft is cut so short indeed."""

MOST_SHORT_M = 0.25 * 0.0254
"""A saw and a rule miss a mark by far less than a quarter of an inch (common practice, no source)."""


def _change_m(state: Job, cut_length: str) -> float | None:
    """Return how much longer the shaft would be than it was cut before; None for the first cut.

    Raises:
        InputError: when it would be longer.
    """
    before = state.document.get("shaft", {}).get("cut_length")
    if before is None:
        return None
    change_m = parse("length", cut_length, where="cut").value - parse("length", before, where="cut").value
    if change_m > LEAST_GROWTH_M:
        mend = "Measure again; if the first figure was wrong, undo that cut and record it anew."
        raise InputError([Finding(where="cut", what=f"{cut_length}, and it was cut to {before} before", mend=mend)])
    return change_m


LEAST_GROWTH_M = 0.001
"""A second measurement may come out this much longer than the first (estimate of ours)."""


def bend_head(
    desk: Desk,
    job: str,
    *,
    loft: str | None = None,
    lie: str | None = None,
    bounce: str | None = None,
    key: str | None = None,
    done_at: str | None = None,
) -> Fact:
    """Record the angles as measured after a bend."""
    done = read_done_at(desk, done_at)
    what = HeadBent(job=job, loft=loft, lie=lie, bounce=bounce, done_at=done)
    require_payload(what)
    said = [f"{name} {value}" for name, value in (("loft", loft), ("lie", lie), ("bounce", bounce)) if value]
    return keep_what(desk, what, "bent to " + ", ".join(said) + done_text(done), key)


def lay_tape(desk: Desk, job: str, name: str, layers: str, mass: str, key: str | None = None) -> Fact:
    """Record the tape laid, as weighed."""
    what = TapeLaid(job=job, name=name, layers=layers, mass=mass)
    return keep_what(desk, what, f"laid {layers} of {name}, {mass}", key)


def mix_adhesive(
    desk: Desk,
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
    done = read_done_at(desk, done_at)
    what = AdhesiveMixed(job=job, part_a=part_a, part_b=part_b, temperature=temperature, batch=batch, done_at=done)
    require_payload(what)

    def make(state: Job | None) -> What:
        standing = require_open(state, job)
        lacks = mix_lacks(ticket_of(standing).row("adhesive")) if standing.finished is None else ()
        if lacks:
            raise InputError(lacks)
        return what

    def typed(_: What) -> str:
        return f"mixed {part_a} + {part_b}{done_text(done)}"

    return keep(desk, job, make, typed=typed, same=lambda found: found == what, key=key)


def glue(desk: Desk, job: str, temperature: str, key: str | None = None, *, done_at: str | None = None) -> Fact:
    """Record that the joint is closed; its cure runs from when it was closed, at that temperature.

    A release that is open only because the joint was closed earlier than it was written is signed with that time shown.

    Raises:
        GateClosed: while a check of the gate is not met, nobody has signed it, nothing is mixed for this joint, or the part
            is colder than the coldest row of the adhesive's table.
    """
    done = read_done_at(desk, done_at)
    what = Glued(job=job, temperature=temperature, done_at=done)
    require_payload(what)

    def needs(state: Job) -> tuple[Finding, ...]:
        return (*missing_mix(state), *too_cold(ticket_of(state), temperature))

    typed = f"glued at {temperature}{done_text(done)}"
    return keep_what(desk, what, typed, key, gate=GATE_OF[Glued], needs=needs, when=done_moment(desk, done))


def slide_grip(desk: Desk, job: str, key: str | None = None, *, done_at: str | None = None) -> Fact:
    """Record that the grip is on for good.

    Raises:
        StepNotReady: in a build or re-shaft, where the joint was not released by its table then; in a re-grip, while
            the old grip is not off.
    """
    done = read_done_at(desk, done_at)
    gripped = Gripped(job=job, done_at=done)

    def make(state: Job | None) -> What:
        desk.require("work")  # before it is told what is missing
        standing = require_open(state, job)
        missing = (
            before_grip(work_job(standing, done_moment(desk, done)), standing) if standing.finished is None else ()
        )
        if missing:
            raise StepNotReady("grip", missing)
        return gripped

    typed = f"gripped{done_text(done)}"
    return keep(desk, job, make, typed=lambda _: typed, same=lambda what: what == gripped, key=key)
