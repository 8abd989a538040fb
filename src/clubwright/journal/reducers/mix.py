"""What facts about a mix of adhesive change on a job (`clubwright.journal.reducers.apply` has the others)."""

from __future__ import annotations

from clubwright.journal.facts import AdhesiveMixed, Fact, MixCalledBad, MixTaken
from clubwright.journal.mixes import BadMix, mix_of
from clubwright.journal.reducers.apply import lay
from clubwright.journal.reducers.builder import JobBuilder

__all__ = ["lay"]


@lay.register
def _(what: AdhesiveMixed | MixTaken, draft: JobBuilder, fact: Fact) -> None:
    draft.mixes.append(mix_of(what, fact))
    if isinstance(what, AdhesiveMixed):
        draft.made_mixes[fact.place] = draft.mixes[-1]


@lay.register
def _(what: MixCalledBad, draft: JobBuilder, fact: Fact) -> None:
    draft.bad_mixes[what.mix] = BadMix(reason=what.reason, by=fact.by, at=fact.at)
