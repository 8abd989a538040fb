"""Mixes of adhesive on the bench page: those of other jobs that this joint may be glued from, and the one of this joint."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from clubwright.journal.job import Job
from clubwright.journal.mixes import mix_in_hand, used_mix
from clubwright.services.actions.making.mixes import mix_name
from clubwright.services.record.session import Local, moment_of
from clubwright.services.told.club import MixRow
from clubwright.words import on_page


class MixOffer(msgspec.Struct, frozen=True, kw_only=True):
    """A mix that may be taken from, in words."""

    mix: str
    text: str


class MixesHere(msgspec.Struct, frozen=True, kw_only=True):
    """What the page says of mixes.

    Attributes:
        at_hand: Mixes of other jobs that the joint may be glued from.
        own: The mix in this job's joint, and the one in hand for it, unless somebody calls it bad already.
    """

    at_hand: tuple[MixOffer, ...] = ()
    own: tuple[MixOffer, ...] = ()


def mixes_here(job: Job, at_hand: Sequence[MixRow], local: Local) -> MixesHere:
    """Lay out the mixes that a job's page shows."""
    had = {mix.place: mix for mix in (used_mix(job), mix_in_hand(job)) if mix is not None}
    own = [mix for mix in had.values() if mix.place not in job.bad_mixes]
    return MixesHere(
        at_hand=tuple(
            MixOffer(mix=row.mix, text=_words(row.weighed, row.batch, row.made_on, row.mixed_at, local))
            for row in at_hand
        ),
        own=tuple(
            MixOffer(
                mix=mix_name(mix.place),
                text=_words(f"{mix.part_a} + {mix.part_b}", mix.batch, mix.of, mix.mixed_at, local),
            )
            for mix in own
        ),
    )


def _words(weighed: str, batch: str, job: str, mixed_at: str, local: Local) -> str:
    lot = f", {batch}" if batch else ""
    at = f"{local(moment_of(mixed_at)):%H:%M}"
    return on_page("mix of job", weighed=weighed, lot=lot, at=at, job=job)
