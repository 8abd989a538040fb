"""Simulate shops: `run.py --seeds 200` plays that many histories, `run.py --replay FILE` plays one that was kept.

A run fails when a law does not hold, and when something that had to be tried did not come about. Of each history that breaks
a law the shortest one that still does is printed, and kept for a replay.
"""

from __future__ import annotations

import argparse
import os
import sys
import time
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path
from typing import TypeVar

import msgspec

sys.path.insert(0, str(Path(__file__).parents[1] / "support"))

from hands import PHASES, History, drawn
from playing import Report, play
from shrink import shortest

T = TypeVar("T")

WANTED = (*(f"cut {phase}" for phase in PHASES), "merge", "the same tap again")
"""What every run must have tried."""

WANTED_OF_MANY = (
    *("cut while mending", "full disk", "somebody in between", "copy merged", "forgery refused"),
    "the same shop at two benches",
    *(
        "ShaftCut",
        "Glued",
        "GateSigned",
        "Finished",
        "Undone",
        "HeadBent",
        "ReadingDecided",
        "Renumbered",
        "honest merge",
        "several facts at once",
        "ClubCameBack",
        "ClubSaid",
        "MixTaken",
        "MixCalledBad",
        "OrderChanged",
        "DeviationAccepted",
        "one in place of another",
        "measured again",
    ),
)
"""What a run of `MANY` seeds must have tried too."""

MANY = 100
TOLD_EVERY = 500
"""After so many seeds a long run says how far it is."""
MOST_SHOWN = 3
"""So many histories that break a law are shortened."""
STRETCH = 100
"""After so many seeds for each of them the workers are others: what was worked once is kept, and they grow."""


def unvisited(seen: Counter[str], seeds: int) -> list[str]:
    """Return what had to come about in a run of so many seeds, and did not."""
    return [what for what in (*WANTED, *(WANTED_OF_MANY if seeds >= MANY else ())) if not seen[what]]


def played(seed: int) -> Report:
    """Play one seed."""
    return play(drawn(seed))


def played_twice(seed: int) -> Report:
    """Play one seed twice; it must come to the same."""
    first, second = play(drawn(seed)), play(drawn(seed))
    if first.digest == second.digest:
        return first
    told = next((one for one, other in zip(first.said, second.said, strict=False) if one != other), "its end")
    said = f"a seed is one history: seed {seed} played twice differs at: {told}"
    return msgspec.structs.replace(first, broken=said, law="a seed is one history")


def simulate(seeds: Iterable[int], workers: int, *, twice: bool = False) -> tuple[Counter[str], dict[int, Report]]:
    """Play seeds on several processes; return how often each thing came about, and the reports of those that broke a law."""
    listed = list(seeds)
    seen: Counter[str] = Counter()
    broken: dict[int, Report] = {}
    reports = reported(played_twice if twice else played, listed, workers)
    for count, (seed, report) in enumerate(zip(listed, reports, strict=True), start=1):
        seen.update(report.seen)
        if report.broken:
            broken[seed] = report
            print(f"Seed {seed}: {report.broken}", file=sys.stderr, flush=True)
        if count % TOLD_EVERY == 0 and count < len(listed):
            print(f"{count} seeds, {len(broken)} break a law.", file=sys.stderr, flush=True)
    return seen, broken


def reported(one: Callable[[int], T], seeds: Sequence[int], workers: int) -> Iterator[T]:
    """Yield what comes of each seed, in order, worked by processes that end after a stretch of seeds.

    A pool of its own for each stretch: a pool that replaces its own workers may wait for ever (Python 3.11).
    """
    size = STRETCH * workers
    for start in range(0, len(seeds), size):
        with ProcessPoolExecutor(max_workers=workers) as pool:
            yield from pool.map(one, seeds[start : start + size], chunksize=4)


def told(history: History, report: Report, folder: Path) -> list[str]:
    """Shorten a history that breaks a law, keep it in a folder, and say how to play it again."""
    short = shortest(history, lambda shorter: play(shorter).law == report.law)
    file = folder / f"simulated-{history.seed}.json"
    file.write_bytes(msgspec.json.format(msgspec.json.encode(short), indent=1))
    said = play(short).said
    return [
        f"Seed {history.seed} breaks a law. Its shortest history ({len(short.actions)} of {len(history.actions)} actions):",
        *(f"  {line}" for line in said),
        f"Play it again: make simulate REPLAY={file}",
        f"The whole of it: make simulate SEEDS=1 FIRST={history.seed}",
    ]


def replay(file: Path) -> int:
    """Play a kept history, and say all that happens in it."""
    report = play(msgspec.json.decode(file.read_bytes(), type=History))
    print("\n".join(report.said))
    print(report.broken or "Every law holds.")
    return 1 if report.broken else 0


def main() -> int:
    """Run what the command line asks for."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--seeds", type=int, default=200)
    parser.add_argument("--first", type=int, default=0, help="the first seed")
    parser.add_argument("--workers", type=int, default=os.cpu_count() or 1)
    parser.add_argument("--twice", action="store_true", help="play each seed twice, and compare")
    parser.add_argument("--replay", type=Path, default=None, help="a history that was kept")
    parser.add_argument("--out", type=Path, default=Path(), help="folder for histories that break a law")
    asked = parser.parse_args()
    if asked.replay is not None:
        return replay(asked.replay)
    began = time.monotonic()
    seen, broken = simulate(range(asked.first, asked.first + asked.seeds), asked.workers, twice=asked.twice)
    print(f"{asked.seeds} seeds in {time.monotonic() - began:.0f} s.")
    print(", ".join(f"{what} {count}" for what, count in sorted(seen.items())))
    for seed in sorted(broken)[:MOST_SHOWN]:
        print("\n".join(told(drawn(seed), broken[seed], asked.out)))
    if len(broken) > MOST_SHOWN:
        print(f"More seeds that break a law: {', '.join(map(str, sorted(broken)[MOST_SHOWN:]))}")
    missing = unvisited(seen, asked.seeds) if asked.seeds > 1 else []
    if missing:
        print(f"Never came about, and had to: {', '.join(missing)}")
    return 1 if broken or missing else 0


if __name__ == "__main__":
    sys.exit(main())
