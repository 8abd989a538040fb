"""Whether a shop of 10,000 clubs is asked as fast as one of 10: the same requests to two programs, turn by turn.

    python benchmarks/large_shop.py [--folder FOLDER] [--rounds 40] [--few] [--json]

Makes both records (`large_record.py`) where the folder does not hold them yet, serves a copy of each in a program of its
own, and asks both the same, one after the other, so that other work on the machine counts for both. The reference of each
row is the small shop beside it.
"""

from __future__ import annotations

import argparse
import json
import os
import platform
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from contextlib import ExitStack
from pathlib import Path
from typing import Any

import httpx
from large_record import OPEN, make, number_of
from web_workshop import SERVE, STEP, Client, program

Row = dict[str, float]
Found = dict[str, Any]
SHOPS = {"small": 10, "large": 10_000}
"""Clubs of each; there are two jobs for each club, and 25 facts for each job."""

WANTED = 1.5
MOST_S = 60.0
"""A request that takes minutes is not asked so often: each row ends after this time."""

ASKED = {
    "the list of open tickets": "/tickets",
    "a search for a player": "/records?q=example-0000&state=all",
    "a club's bench page": f"/bench/{{job}}?step={STEP}&stay=yes",
    "the latest closed clubs": "/records",
    "a club as built": "/records/{job}",
    "a club's shaft, its family and set": "/bench/{job}/shaft",
    "the build sheet": "/records/{job}/sheet.pdf",
    "a new ticket's form": "/tickets/new/form",
}
"""Pages that are timed."""
READ = "a reading's request"
HELD_TO = (READ, *list(ASKED)[:3])
"""What is wanted holds for these."""


KEPT = 303
REBUILD = (str(Path(sys.executable).with_name("clubwright")), "rebuild", "--json")


def p95(seconds: list[float]) -> float:
    """Return the 95th percentile; the longest where there are few."""
    return statistics.quantiles(seconds, n=20)[-1] if len(seconds) >= 20 else max(seconds)


class Shop:
    """One shop, served from a copy of its record."""

    def __init__(self, folder: Path, clubs: int, stack: ExitStack) -> None:
        self.folder = Path(stack.enter_context(tempfile.TemporaryDirectory())) / "shop"
        shutil.copytree(folder, self.folder)
        self.jobs = [number_of(2 * clubs - 1 - at) for at in range(OPEN)]
        # opened once, so that what a new version makes of an older record is not counted as its start
        started = time.perf_counter()
        with program(*SERVE, "--shop", str(self.folder)):
            self.opened_s = time.perf_counter() - started
        started = time.perf_counter()
        address = stack.enter_context(program(*SERVE, "--shop", str(self.folder)))
        self.start_s = time.perf_counter() - started
        self.client = Client(address, self.jobs[0])
        self.client.http.timeout = httpx.Timeout(1200)
        started = time.perf_counter()
        self.get("/tickets")
        self.first_list_s = time.perf_counter() - started
        print(self.folder, self.opened_s, self.start_s, self.first_list_s, file=sys.stderr)

    def get(self, path: str) -> float:
        """Return how long a page takes."""
        started = time.perf_counter()
        self.client.http.get(path.format(job=self.client.job)).raise_for_status()
        return time.perf_counter() - started

    def read(self, number: int) -> float:
        """Return how long a reading takes until it is kept; each is taken on the next of the open clubs."""
        self.client.job = self.jobs[number % len(self.jobs)]
        form = self.client.form(f"read-{number}", f"D1.{200 + 7 * number % 199}")
        started = time.perf_counter()
        status = self.client.post(form)
        taken = time.perf_counter() - started
        assert status == KEPT, status
        return taken


def measured(ask: Callable[[Shop, int], float], shops: list[Shop], rounds: int) -> Row:
    """Ask the shops the same, turn by turn."""
    seconds: list[list[float]] = [[] for _ in shops]
    until = time.perf_counter() + MOST_S
    for number in range(rounds):
        for shop, taken in zip(shops, seconds, strict=True):
            taken.append(ask(shop, number))
        if time.perf_counter() > until:
            break
    small, large = seconds
    return {
        "asked": len(large),
        "small_ms": p95(small) * 1e3,
        "large_ms": p95(large) * 1e3,
        "ratio": p95(large) / p95(small),
        "medians": statistics.median(large) / statistics.median(small),
    }


def rebuilt_s(shop: Shop) -> float | None:
    """Return how long it takes to work out all tables anew that follow from the facts; None where there are none."""
    started = time.perf_counter()
    done = subprocess.run((*REBUILD, "--shop", str(shop.folder)), capture_output=True, check=False)
    return time.perf_counter() - started if done.returncode == 0 else None


def figures(folder: Path, rounds: int, *, every: bool) -> Found:
    """Make what is missing, and measure."""
    for name, clubs in SHOPS.items():
        if not (folder / name).exists():
            (folder / name).mkdir(parents=True)
            make(folder / name, clubs)
    with ExitStack() as stack:
        shops = [Shop(folder / name, clubs, stack) for name, clubs in SHOPS.items()]
        small, large = shops
        asks: dict[str, Callable[[Shop, int], float]] = {READ: Shop.read}
        asks |= {name: lambda shop, _, path=path: shop.get(path) for name, path in ASKED.items()}
        rows = {}
        for name, ask in asks.items():
            if every or name in HELD_TO:
                rows[name] = measured(ask, shops, rounds)
                print(name, rows[name], file=sys.stderr)
        found: Found = {
            "rows": rows,
            "start_s": (small.start_s, large.start_s),
            "first_list_s": (small.first_list_s, large.first_list_s),
            "opened_s": (small.opened_s, large.opened_s),
        }
        found["rebuild_s"] = (rebuilt_s(small), rebuilt_s(large))
    return found


def main() -> None:
    parser = argparse.ArgumentParser(description="Whether a large shop is asked as fast as a small one.")
    parser.add_argument("--folder", type=Path, help="where the two records are kept from run to run")
    parser.add_argument("--rounds", type=int, default=40)
    parser.add_argument("--few", action="store_true", help="only what is wanted of a large shop")
    parser.add_argument("--json", action="store_true")
    given = parser.parse_args()
    with ExitStack() as stack:
        folder = given.folder or Path(stack.enter_context(tempfile.TemporaryDirectory()))
        load = os.getloadavg()[0]
        found = {**figures(folder, given.rounds, every=not given.few), "load": load}
    print(json.dumps(found, indent=1) if given.json else "\n".join(lines_of(found)))


def lines_of(found: Found) -> list[str]:
    """Lay the figures out as the table of the README."""
    about = (
        f"{os.cpu_count()} processors ({platform.machine()}), Python {platform.python_version()}, SQLite, "
        f"load average {found['load']:.1f} at the start"
    )
    rows = [
        f"| {name} | {row['small_ms']:.1f} ms | {row['large_ms']:.1f} ms | {row['ratio']:.2f} | {row['medians']:.2f} "
        f"| {row['asked']} | {f'at most {WANTED}' if name in HELD_TO else ''} |"
        for name, row in found["rows"].items()
    ]
    spans = {
        "start until the address is said": ("start_s", "at most 3 s more"),
        "the first list after that": ("first_list_s", ""),
        "the first start of this version on that record": ("opened_s", ""),
        "a rebuild of all that follows from the facts": ("rebuild_s", "reported"),
    }
    for name, (key, wanted) in spans.items():
        small, large = found[key]
        if large is not None:
            rows.append(f"| {name} | {small:.2f} s | {large:.2f} s | | | 1 | {wanted} |")
    head = "| p95 of | 10 clubs | 10,000 clubs | ratio | of medians | asked | wanted |"
    return [about, "", head, "|---|---|---|---|---|---|---|", *rows]


if __name__ == "__main__":
    main()
