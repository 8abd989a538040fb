"""Write the record that later versions must go on reading: run once for each form, never again for an old one.

    python tests/data/records/make_record.py 0001

Everything in it is invented.
"""

from __future__ import annotations

import sys
from pathlib import Path

from clubwright.journal.chain import heads
from clubwright.journal.facts import (
    AdhesiveMixed,
    Finished,
    GateSigned,
    Glued,
    Gripped,
    HeadBent,
    PartChanged,
    ReadingDecided,
    ReadingTaken,
    ShaftCut,
    ShaftTrimmed,
    StepDone,
    TapeLaid,
    TicketTaken,
    Undone,
    WeightsFitted,
)
from clubwright.store.engine import open_engine
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate

JOB = "T-DEMO"
DOCUMENT = {
    "ticket": {"id": JOB, "player": "Invented Player", "kind": "wedge", "hand": "right", "note": "invented demo data"},
    "target": {"swing_weight": "D4", "length": "35 1/4 in"},
    "head": {"name": "Kestrel 54", "mass": "296.4 g", "loft": "54.5 deg"},
    "shaft": {"name": "Larch 125", "raw_length": "37 in", "mass": "125.2 g", "tip_trim": "1/2 in"},
    "weight": [{"name": "port 6", "mass": "6.05 g", "seat": "port", "count": "2"}],
}
FACTS = [
    TicketTaken(job=JOB, document=DOCUMENT, source="demo.toml"),
    StepDone(job=JOB, step="pull", note="right-handed, looked at"),
    PartChanged(job=JOB, section="grip", values={"mass": "49.6 g"}),
    HeadBent(job=JOB, loft="54 deg"),
    ShaftTrimmed(job=JOB, end="tip", amount="1/2 in"),
    ShaftCut(job=JOB, cut_length="34.01 in"),
    TapeLaid(job=JOB, name="double-sided", layers="1", mass="1.6 g"),
    ReadingTaken(
        job=JOB, quantity="swing_weight", value="D2", stage="dry, taped", weights=[], instrument="bench scale"
    ),
    ReadingDecided(job=JOB, reading=8, keep=False, reason="the hook was on the ferrule"),
    Undone(job=JOB, fact=9, reason="it was not"),
    WeightsFitted(job=JOB, weights=["port 6"]),
    GateSigned(job=JOB, step="glue", shown={"answer": {"gates": [{"step": "glue", "open": True}], "mean": 0.25}}),
    AdhesiveMixed(job=JOB, part_a="2.0 g", part_b="1.0 g", temperature="22 C", batch="lot 7"),
    Glued(job=JOB, temperature="22 C"),
    Gripped(job=JOB),
    Finished(job=JOB, shown={"answer": {"verdicts": {"swing_weight": {"verdict": "within"}}}}),
]


def main() -> None:
    path = Path(__file__).parent / f"{sys.argv[1]}.sqlite"
    if path.exists():
        raise SystemExit(f"{path} is there: an old record is never written again")
    engine = open_engine(f"sqlite:///{path}")
    migrate(engine)
    ledger = Ledger(engine)
    for number, what in enumerate(FACTS, start=1):
        at = f"2026-03-02T08:{number:02d}:00.000Z"
        ledger.append("van", [what], by="Invented Clubmaker", at=at, typed=f"demo {number}", key=f"demo-{number}")
    print(ledger.verify(), heads(ledger.facts()), path.stat().st_size)
    engine.dispose()


if __name__ == "__main__":
    main()
