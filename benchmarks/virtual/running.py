"""Work many clubs, each from its own seed, so that neither the number of clubs nor of processes changes any of them."""

from __future__ import annotations

from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from clubwright.club.parts import KINDS, Kind
from virtual.benches import CLUBS_OF_A_SHOP, FINE_SCALE, Bench, Scale
from virtual.drawing import Shop, draw, draw_shop
from virtual.mechanics import weighed
from virtual.methods import by_belief, by_rule, by_statics, rework_by_belief, rework_by_hand, right

METHODS = ("rule", "statics", "clubwright")
COLUMNS = (
    *METHODS,
    *(f"{what} {name}" for name in METHODS for what in ("swaps", "let go right")),
    "chance",
    "sd",
    "off",
)
CHUNK = 100

VARIED_SCALES = (
    FINE_SCALE,
    Scale(step=0.1, repeatability=0.1, bias=0.1),
    Scale(step=0.25, repeatability=0.15, bias=0.1),
    Scale(step=0.25, repeatability=0.25, bias=0.2),
)


@dataclass(frozen=True, kw_only=True)
class Run:
    """Clubs of one kind, numbered from `start`; `bench` None draws a bench for each club."""

    kind: Kind
    bench: Bench | None
    seed: int
    start: int
    stop: int
    wider: float = 1.0
    only_belief: bool = False


def varied_bench(random: np.random.Generator) -> Bench:
    """Draw a bench: good and poor scales, wide and narrow tolerances, so that chances of every size are promised."""
    readings = int(random.choice([0, 1, 1, 1, 1, 1, 2, 3]))
    return Bench(
        name="varied",
        scale=VARIED_SCALES[int(random.integers(len(VARIED_SCALES)))],
        readings=readings,
        stage=str(random.choice(["dry, gripped", "dry, gripped", "dry, taped", "dry, no grip"])),
        adhesive_sd_g=float(random.choice([0.0, 0.1])) or None,
        tray_step_g=float(random.choice([0.5, 1.0, 2.0])),
        tolerance_pt=round(float(np.exp(random.uniform(np.log(0.08), np.log(0.8)))), 4),
        total_weight_g=round(float(random.uniform(0.3, 2.5)), 3) if random.random() < 0.3 else None,
    )


def _shop(run: Run, bench: Bench, number: int) -> Shop | None:
    """Draw the shop of a club from its own seed, the same for all clubs of that shop."""
    if not bench.shared:
        return None
    return draw_shop(bench, np.random.default_rng([run.seed, 77, number // CLUBS_OF_A_SHOP]))


def work(run: Run) -> NDArray[np.float64]:
    """Work the clubs of a run; one row for each, with the columns of `COLUMNS`."""
    rows = []
    for number in range(run.start, run.stop):
        random = np.random.default_rng([run.seed, KINDS.index(run.kind), number])
        bench = varied_bench(random) if run.bench is None else run.bench
        case = draw(run.kind, bench, run.wider, random, _shop(run, bench, number))
        program = by_belief(case.document)
        off = weighed(case.truth, "finished", program.fitted)[1] - case.target
        if run.only_belief or bench.shared or case.reading is None:
            hands, reworked = [np.nan] * 2, [np.nan] * 6
        else:
            rule = by_rule(case, case.reading, bench.stage, None)
            statics = by_statics(case, case.reading, bench.stage, None)
            hands = [right(case, rule.fitted), right(case, statics.fitted)]
            # Each method meets the same errors of the scale.
            noise = [np.random.default_rng([run.seed, 99, KINDS.index(run.kind), number]) for _ in METHODS]
            reworked = [
                *rework_by_hand(case, by_rule, rule, noise[0]),
                *rework_by_hand(case, by_statics, statics, noise[1]),
                *rework_by_belief(case, program, noise[2]),
            ]
        rows.append([*hands, right(case, program.fitted), *reworked, program.chance, program.sd, off])
    return np.array(rows, dtype=float)


def work_all(runs: list[Run], jobs: int) -> list[NDArray[np.float64]]:
    """Work several runs on a few processes; results in the order of the runs."""
    pieces = [
        (place, Run(**{**vars(run), "start": start, "stop": min(start + CHUNK, run.stop)}))
        for place, run in enumerate(runs)
        for start in range(run.start, run.stop, CHUNK)
    ]
    if jobs == 1:
        done = [work(piece) for _, piece in pieces]
    else:
        with ProcessPoolExecutor(jobs) as pool:
            done = list(pool.map(work, [piece for _, piece in pieces]))
    return [
        np.concatenate([rows for (at, _), rows in zip(pieces, done, strict=True) if at == n]) for n in range(len(runs))
    ]
