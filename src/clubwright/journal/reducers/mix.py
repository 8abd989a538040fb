"""What facts about a mix of adhesive change on a job (`clubwright.journal.reducers.apply` has the others)."""

from __future__ import annotations

from clubwright.journal.facts import AdhesiveMixed, Fact, MixCalledBad, MixTaken
from clubwright.journal.mixes import BadMix, mix_of
from clubwright.journal.reducers.apply import apply
from clubwright.journal.reducers.builder import JobBuilder

__all__ = ["apply"]


@apply.register
def _(what: AdhesiveMixed | MixTaken, builder: JobBuilder, fact: Fact) -> None:
    builder.mixes.append(mix_of(what, fact))
    if isinstance(what, AdhesiveMixed):
        builder.made_mixes[fact.place] = builder.mixes[-1]


@apply.register
def _(what: MixCalledBad, builder: JobBuilder, fact: Fact) -> None:
    builder.bad_mixes[what.mix] = BadMix(reason=what.reason, by=fact.by, at=fact.at)
