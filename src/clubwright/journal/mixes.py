"""A mix of adhesive as a thing of its own: made once on one job, taken from for joints of others, and sound or bad for all.

A mix is the place of the fact that it was made by. Each job that takes from it keeps what was weighed, and folds from its
own facts; whether the mix is sound is said on the job that it was made on, and looked up there.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

import msgspec

from clubwright.journal.facts import AdhesiveMixed, Fact, MixTaken, Place

if TYPE_CHECKING:
    from clubwright.journal.job import Job


class Mix(msgspec.Struct, frozen=True, kw_only=True):
    """A mix as one job has it.

    Attributes:
        place: Of the fact that it was made by.
        of: Number under which that fact stands.
        part_a: As weighed.
        part_b: As weighed.
        temperature: Of the bench, as typed.
        batch: Lot of the product.
        mixed_at: When it was mixed, UTC, ISO 8601 with Z.
        taken_at: When it was taken for this job's joint; when it was mixed, where it was made for it.
    """

    place: Place
    of: str
    part_a: str
    part_b: str
    temperature: str
    batch: str
    mixed_at: str
    taken_at: str


class BadMix(msgspec.Struct, frozen=True, kw_only=True):
    """Why a mix is not to be relied on.

    Attributes:
        reason: In the person's words; or what the record lacks.
        by: Who said so; empty where nobody did.
        at: When that was written; empty where nobody did.
    """

    reason: str
    by: str = ""
    at: str = ""


def mix_of(what: AdhesiveMixed | MixTaken, fact: Fact) -> Mix:
    """Return the mix that a fact makes, or takes from."""
    if isinstance(what, MixTaken):
        place, of, mixed_at = what.mix, what.of, what.mixed_at
    else:
        place, of, mixed_at = fact.place, what.job, fact.done_at
    return Mix(
        place=place,
        of=of,
        part_a=what.part_a,
        part_b=what.part_b,
        temperature=what.temperature,
        batch=what.batch,
        mixed_at=mixed_at,
        taken_at=fact.done_at,
    )


def mix_in_hand(job: Job) -> Mix | None:
    """Return the mix that the joint is to be closed with; None without one, and where the last joint used it up."""
    return job.mixes[-1] if job.mixes and (job.glued_at is None or job.mixed_since_glued()) else None


def used_mix(job: Job) -> Mix | None:
    """Return the mix that is in the joint, or in hand while it is open; one that another replaced was thrown away."""
    taken = job.mixes if job.glued_at is None else job.mixes[: len(job.mixes) - job.mixed_since_glued()]
    return taken[-1] if taken else None


def with_bad_mixes(job: Job, made_on: Callable[[Mix], Job | None]) -> Job:
    """Return a job with what is said of mixes that it took from, where they were made.

    Args:
        job: As it folds from its own facts.
        made_on: Gives the job that a mix was made on; None where the record has none that can be read.
    """
    own = {(line.site, line.sequence) for line in job.trail}
    taken = {mix.place: mix for mix in job.mixes if mix.place not in own}
    said = {place: bad for place, mix in taken.items() if (bad := _said_of(mix, made_on(mix))) is not None}
    return msgspec.structs.replace(job, bad_mixes={**job.bad_mixes, **said}) if said else job


def _said_of(mix: Mix, maker: Job | None) -> BadMix | None:
    if maker is None:
        return BadMix(reason=f"the record does not hold, or cannot read, the job {mix.of} that it was made on")
    made = maker.made_mixes.get(mix.place)
    if made is None:
        return BadMix(reason=f"on job {maker.id}, where it was made, it was undone")
    weighed = (made.part_a, made.part_b, made.temperature, made.batch, made.mixed_at)
    if weighed != (mix.part_a, mix.part_b, mix.temperature, mix.batch, mix.mixed_at):
        return BadMix(reason=f"job {maker.id}, where it was made, says otherwise what was weighed")
    return maker.bad_mixes.get(mix.place)


def joined_over(jobs: Mapping[str, Job]) -> dict[str, Job]:
    """Return jobs, each with what is said of its mixes on the others."""
    # a mix that was undone is still looked for on the job it was made on
    lines = ((line, job) for job in jobs.values() for line in job.trail if line.kind == "adhesive mixed")
    makers = {(line.site, line.sequence): job for line, job in lines}
    return {name: with_bad_mixes(job, lambda mix: makers.get(mix.place)) for name, job in jobs.items()}
