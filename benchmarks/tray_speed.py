"""Is the best set of weights found, and sooner than by trying all: the advice's own search beside brute force.

    python benchmarks/tray_speed.py [--trays 40] [--seed 1] [--json]

Trays are drawn at random: port, tip, butt and head, several kinds and several pieces of each, for a total weight and a swing
weight. Brute force counts every combination of the stock that fits and works the chance of each, with the same belief and
the same integral. Both are timed by the processor's clock, one thread.
"""

from __future__ import annotations

import argparse
import json
import os

# One thread: the processor time of several would be added up.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import time
from itertools import product
from statistics import median
from typing import Any

import numpy as np

from clubwright.planning.advice.set_search import chances
from clubwright.planning.advice.tray import looked_at
from clubwright.planning.advice.weights import choices, moved_goals
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.ticket.read import read_ticket

SIZES = {"5 kinds": 5, "7 kinds": 7, "9 kinds": 9}
AT_ONCE = 2000


def club_state(random: np.random.Generator, kinds: int) -> ClubState:
    """Draw an invented wedge with a tray of so many kinds of weight, up to three pieces of each."""
    document: dict[str, Any] = {
        "ticket": {"id": "T-1", "kind": "wedge", "hand": "right", "invented": "yes"},
        "target": {
            "total_weight": f"{463 + random.uniform(0, 30):.1f} g",
            "swing_weight": f"D{random.uniform(0, 9):.1f}",
        },
        "tolerance": {
            "total_weight": f"{random.uniform(0.8, 4):.1f} g",
            "swing_weight": f"{random.uniform(0.4, 2):.1f} pt",
        },
        "head": {"mass": "300 g", "ports": "3"},
        "shaft": {"cut_length": "33.9 in", "cut_mass": "109.2 g"},
        "grip": {"mass": "50 g", "cap": "5 mm"},
        "tape": [{"name": "double-sided", "mass": "2.6 g"}],
        "ferrule": {"mass": "0.6 g"},
        "adhesive": {"in_joint": "0.8 g"},
        "weight": [
            {
                "name": f"w{place}",
                "mass": f"{0.5 * random.integers(1, 16)} g ± 0.02 g",
                "seat": seat,
                "count": str(random.integers(1, 4)),
            }
            for place, seat in enumerate(random.choice(["port", "head", "tip", "butt"], kinds, p=[0.4, 0.4, 0.1, 0.1]))
        ],
    }
    ticket, findings = read_ticket(document)
    if ticket is None:
        raise ValueError(findings)
    return club_state_of(ticket)


def by_brute_force(state: ClubState) -> tuple[float, int]:
    """Return the best chance of all sets that fit, and how many there are."""
    ticket, goals = state.ticket, moved_goals(state)
    stock = [round(row.count.value) if row.count else 1 for row in ticket.weights]
    rows = np.array(list(product(*(range(count + 1) for count in stock))), dtype=float)
    for seat, room in (("tip", 1), ("butt", 1), ("port", 3)):
        rows = rows[rows[:, [row.seat == seat for row in ticket.weights]].sum(axis=1) <= room]
    keys = [goal.key for goal in goals]
    parts = (state.predict(keys, fitted=rows[at : at + AT_ONCE]) for at in range(0, len(rows), AT_ONCE))
    return max(float(chances(part, goals).max()) for part in parts), len(rows)


def timed(work: Any) -> tuple[Any, float]:
    """Return what some work gives, and its processor time in seconds."""
    before = time.process_time()
    found = work()
    return found, time.process_time() - before


def main() -> None:
    """Draw trays, search each both ways, and print how much sooner and how far off."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--trays", type=int, default=40, help="trays of each size")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--json", action="store_true", help="figures for another program")
    given = parser.parse_args()
    rows = []
    for name, kinds in SIZES.items():
        ratios, sets, different, off, own = [], [], [], [], []
        for place in range(given.trays):
            state = club_state(np.random.default_rng((given.seed, kinds, place)), kinds)
            best, ours = timed(lambda state=state: choices(state)[0])
            (chance, count), theirs = timed(lambda state=state: by_brute_force(state))
            ratios.append(theirs / ours)
            own.append(ours)
            sets.append(count)
            different.append(len(looked_at(state.ticket).sets))
            off.append(abs(best.chance - chance))
        rows.append(
            {
                "tray": name,
                "sets that fit, median": round(median(sets)),
                "that do something else, median": round(median(different)),
                "ours, median, s": median(own),
                "brute force over ours, median": median(ratios),
                "brute force over ours, least": min(ratios),
                "best chance off, most": max(off),
            }
        )
    print(json.dumps(rows, indent=1) if given.json else "\n".join(_line(row) for row in rows))


def _line(row: dict[str, Any]) -> str:
    return "; ".join(
        f"{key} {value:.3g}" if isinstance(value, float) else f"{key} {value}" for key, value in row.items()
    )


if __name__ == "__main__":
    main()
