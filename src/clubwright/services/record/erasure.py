"""What a record is asked to erase, and to write of it."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from clubwright.journal.facts import Fact, NamesErased


class Erasure(msgspec.Struct, frozen=True, kw_only=True):
    """What is erased in a record, and the facts that say so.

    Attributes:
        covered: Facts that are in the record, as they are once texts in them are erased.
        whats: What is written of it.
        typed: As said in the trail, for each.
    """

    covered: Sequence[Fact]
    whats: Sequence[NamesErased] = ()
    typed: Sequence[str] = ()
