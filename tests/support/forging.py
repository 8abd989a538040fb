"""A forger's tools: facts with valid hashes that no bench would write, and records that hold them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import msgspec

from clubwright.bootstrap import RECORD
from clubwright.journal.chain import GENESIS, hash_of
from clubwright.journal.facts import Fact, What
from clubwright.store.engine import open_engine
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate


def forged(facts: Sequence[Fact], what: What, **envelope: Any) -> Fact:
    """Return a fact that follows on the last of its site, whatever it says."""
    site = envelope.get("site", facts[-1].site if facts else "van")
    before = [fact for fact in facts if fact.site == site]
    said = {
        "site": site,
        "sequence": len(before) + 1,
        "at": before[-1].at if before else "2026-03-02T08:00:00.000Z",
        "by": "Ann",
        "typed": "forged",
        "key": f"forged {site} {len(before) + 1}",
        "previous_hash": before[-1].hash if before else GENESIS,
        **envelope,
    }
    fact = Fact(what=what, hash="", **said)
    return msgspec.structs.replace(fact, hash=hash_of(fact))


@contextmanager
def record_at(folder: Path, facts: Sequence[Fact] = ()) -> Iterator[Ledger]:
    """A record of its own, with facts that it takes by their chain alone."""
    folder.mkdir(exist_ok=True)
    engine = open_engine(f"sqlite:///{folder / RECORD}")
    try:
        migrate(engine)
        ledger = Ledger(engine)
        ledger.receive(facts)
        yield ledger
    finally:
        engine.dispose()
