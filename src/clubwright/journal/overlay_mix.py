"""What facts about a mix of adhesive change on a job (`clubwright.journal.overlay` has the others)."""

from __future__ import annotations

from clubwright.journal.draft import Draft
from clubwright.journal.facts import AdhesiveMixed, Fact, MixCalledBad, MixTaken
from clubwright.journal.mixes import BadMix, mix_of
from clubwright.journal.overlay import lay

__all__ = ["lay"]


@lay.register
def _(what: AdhesiveMixed | MixTaken, draft: Draft, fact: Fact) -> None:
    draft.mixes.append(mix_of(what, fact))
    if isinstance(what, AdhesiveMixed):
        draft.made_mixes[fact.place] = draft.mixes[-1]


@lay.register
def _(what: MixCalledBad, draft: Draft, fact: Fact) -> None:
    draft.bad_mixes[what.mix] = BadMix(reason=what.reason, by=fact.by, at=fact.at)
