"""The power goes at a place of an action, and the program starts again on what is left of the disk."""

from __future__ import annotations

import random
from collections.abc import Sequence

from breaking import LawBroken
from disk import Mark, Name, Op, Sync, SyncFolder, Truncate, Write
from hands import Phase, PowerCut
from shop import Bench, Kept, Shop
from sqlite_on_disk import RECORD
from wreck import Wreck

from clubwright.errors import RecordError
from laws import survived


def cut_the_power(shop: Shop, bench: Bench, cut: PowerCut, start: int, number: int) -> None:
    """Take the power at a place of the last action, and start on what is left."""
    chance = random.Random(cut.pick)
    phases = phases_of(bench.disk.log, bench.disk.names[RECORD], start)
    places = [place for place, phase in enumerate(phases, start) if phase == cut.phase]
    after = chance.choice(places) if places else len(bench.disk.log)
    phase = phases[after - start]
    shop.seen[f"cut {phase}"] += 1
    shop.said.append(f"    the power goes {phase}, after {after - start} of {len(phases) - 1} disk operations")
    acknowledged: Kept = dict(bench.base)
    for group in bench.groups:
        if group.log_at <= after:
            acknowledged |= {fact.place: fact for fact in group.facts}
    in_flight = next((group.facts for group in bench.groups if group.log_at > after), ())
    _restart(bench, Wreck(bench.disk, after).drawn(chance), phase)
    if cut.again and bench.disk.log:
        shop.seen["cut while mending"] += 1
        _restart(bench, Wreck(bench.disk, chance.randint(0, len(bench.disk.log))).drawn(chance), "while mending")
    try:
        found: Kept = {fact.place: fact for fact in bench.ledger.facts()}
    except RecordError as refused:
        raise LawBroken("the record opens", f"power cut {phase}: {refused}") from refused
    survived(found, acknowledged, in_flight, phase)
    bench.hold(found)


def _restart(bench: Bench, content: dict[str, bytes], where: str) -> None:
    bench.stop()
    bench.decided.clear()
    try:
        bench.start(content)
    except RecordError as refused:
        raise LawBroken("the record opens", f"power cut {where}: {refused}") from refused


def phases_of(log: Sequence[Op], record: int, start: int) -> list[Phase]:
    """Say for each place of a log from `start` on, also after its last operation, where in an action it is."""
    phase: Phase = "between actions"
    found: list[Phase] = [phase]
    for op in log[start:]:
        if isinstance(op, Mark):
            phase = "between actions"
        elif isinstance(op, Write | Truncate) and op.file == record:
            phase = "in the write"
        elif isinstance(op, Sync) and op.file == record:
            phase = "between sync and unlink"
        elif isinstance(op, Name) and op.names[-1][1] is None:
            phase = "after the commit" if phase == "between sync and unlink" else "between actions"
        elif not isinstance(op, SyncFolder) and phase == "between actions":
            phase = "before the write"
        found.append(phase)
    return found
