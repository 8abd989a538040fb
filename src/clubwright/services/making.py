"""Making: what is done to the club, from the trims to the grip."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from clubwright.errors import Finding, InputError
from clubwright.journal.facts import (
    AdhesiveMixed,
    Fact,
    Glued,
    Gripped,
    HeadBent,
    ShaftCut,
    ShaftTrimmed,
    TapeLaid,
    WeightsFitted,
)
from clubwright.notation import parse
from clubwright.services.amounts import require_amounts
from clubwright.services.desk import Desk
from clubwright.services.keeping import keep_what


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
    require_amounts(("length", "trim", amount))
    what = ShaftTrimmed(job=job, end=ends[end], amount=amount)
    return keep_what(desk, what, f"trimmed {amount} off the {end}", key)


def cut_shaft(desk: Desk, job: str, cut_length: str, key: str | None = None) -> Fact:
    """Record the cut, with the length of the shaft as measured after it.

    Raises:
        GateClosed: while bore, cap or lie are not known.
        InputError: when the shaft would be longer than it was cut before.
    """
    _refuse_growing(desk, job, cut_length)
    return keep_what(desk, ShaftCut(job=job, cut_length=cut_length), f"cut to {cut_length}", key, gate="cut")


def _refuse_growing(desk: Desk, job: str, cut_length: str) -> None:
    before = desk.job(job).document.get("shaft", {}).get("cut_length")
    if before is None:
        return
    change_m = parse("length", cut_length, where="cut").value - parse("length", before, where="cut").value
    if change_m > LEAST_GROWTH_M:
        mend = "Measure again; if the first figure was wrong, undo that cut and record it anew."
        raise InputError([Finding(where="cut", what=f"{cut_length}, and it was cut to {before} before", mend=mend)])


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
) -> Fact:
    """Record the angles as measured after a bend."""
    said = [f"{name} {value}" for name, value in (("loft", loft), ("lie", lie), ("bounce", bounce)) if value]
    if not said:
        raise InputError(
            [Finding(where="bend", what="no angle given", mend="Measure loft, lie or bounce after the bend.")]
        )
    return keep_what(desk, HeadBent(job=job, loft=loft, lie=lie, bounce=bounce), "bent to " + ", ".join(said), key)


def lay_tape(desk: Desk, job: str, name: str, layers: str, mass: str, key: str | None = None) -> Fact:
    """Record the tape laid, as weighed."""
    what = TapeLaid(job=job, name=name, layers=layers, mass=mass)
    return keep_what(desk, what, f"laid {layers} of {name}, {mass}", key)


def mix_adhesive(
    desk: Desk, job: str, part_a: str, part_b: str, temperature: str, batch: str, key: str | None = None
) -> Fact:
    """Record the mix as weighed."""
    require_amounts(("mass", "part A", part_a), ("mass", "part B", part_b), ("temperature", "temperature", temperature))
    what = AdhesiveMixed(job=job, part_a=part_a, part_b=part_b, temperature=temperature, batch=batch)
    return keep_what(desk, what, f"mixed {part_a} + {part_b}", key)


def glue(desk: Desk, job: str, temperature: str, key: str | None = None) -> Fact:
    """Record that the joint is closed; its cure runs from now at that temperature.

    Raises:
        GateClosed: while hand, loft, grip core, length and dry reading do not agree, or nobody has pulled and checked.
    """
    require_amounts(("temperature", "temperature", temperature))
    return keep_what(desk, Glued(job=job, temperature=temperature), f"glued at {temperature}", key, gate="glue")


def slide_grip(desk: Desk, job: str, key: str | None = None) -> Fact:
    """Record that the grip is on for good."""
    return keep_what(desk, Gripped(job=job), "gripped", key)
