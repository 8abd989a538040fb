"""Thousands of simulated clubs, worked three ways, and whether the chances the program promises come true.

    python benchmarks/virtual_bench.py --clubs 2000 --seed 1 --kind wedge
    python benchmarks/virtual_bench.py --all --clubs 2000 --calibration 20000
    python benchmarks/virtual_bench.py --kind iron --calibration 20000 --json

What is simulated, and what that cannot show: benchmarks/README.md.
"""

from __future__ import annotations

import argparse
import json
import os
from typing import Any

import numpy as np
from virtual.benches import BENCHES, TRAY_TOP_G, USUAL, Bench
from virtual.report import REWORK_HEAD, SHARES_HEAD, calibration, calibration_text, rework_line, shares, shares_line
from virtual.running import Run, work_all

from clubwright.club.parts import KINDS
from clubwright.ticket.fields.defaults import default_for

STRESS = 1.5


def asked() -> argparse.Namespace:
    parser = argparse.ArgumentParser(
        description="Simulated clubs worked by rules of thumb, exact statics and clubwright."
    )
    parser.add_argument("--clubs", type=int, default=2000, help="clubs of each kind on each bench")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--kind", choices=KINDS, action="append", help="kind of club; may be given again")
    parser.add_argument("--all", action="store_true", help="every kind, then calibration as stated and under stress")
    parser.add_argument("--bench", choices=sorted(BENCHES), action="append", help="bench; may be given again")
    parser.add_argument(
        "--calibration", type=int, help="wedges and irons on drawn benches; half as many under stress; 0: none"
    )
    parser.add_argument("--jobs", type=int, default=os.cpu_count() or 1)
    parser.add_argument("--json", action="store_true", help="figures instead of tables")
    return parser.parse_args()


def share_runs(arguments: argparse.Namespace) -> list[Run]:
    kinds = KINDS if arguments.all else tuple(arguments.kind or ["wedge"])
    benches = [BENCHES[name] for name in arguments.bench or USUAL]
    return [
        Run(kind=kind, bench=bench, seed=arguments.seed, start=0, stop=arguments.clubs)
        for bench in benches
        for kind in kinds
    ]


def calibration_runs(clubs: int, seed: int, wider: float) -> list[Run]:
    return [
        Run(kind=kind, bench=None, seed=seed, start=0, stop=clubs // 2, wider=wider, only_belief=True)
        for kind in ("wedge", "iron")
    ]


def bench_text(bench: Bench) -> str:
    adhesive = f"documented default, {default_for('adhesive.in_joint', 'wedge').text}"
    if bench.adhesive_sd_g is not None:
        adhesive = f"known from the shop's own weighings, ± {bench.adhesive_sd_g} g"
    scale = bench.scale
    return (
        f"Bench '{bench.name}': swing-weight scale with steps of {scale.step} pt, repeatability {scale.repeatability} pt, "
        f"bias {scale.bias} pt; mean of {bench.readings} reading(s), {bench.stage}; parts weighed to 0.1 g; "
        f"adhesive {adhesive}; weights in {bench.tray_step_g} g steps to {TRAY_TOP_G:g} g, one port; "
        f"tolerance {bench.tolerance_pt} pt."
    )


def print_shares(bench: Bench, found: dict[str, dict[str, Any]]) -> None:
    print(f"{bench_text(bench)}\nRight at the first fit:\n\n{SHARES_HEAD}")
    for kind, figures in found.items():
        print(shares_line(kind, figures))
    print(f"\nRead again when finished, swapped while the scale shows it out of tolerance:\n\n{REWORK_HEAD}")
    for kind, figures in found.items():
        print(rework_line(kind, figures))
    print()


def print_calibration(found: dict[str, dict[str, Any]]) -> None:
    for name, figures in found.items():
        print(f"Calibration, {name}: {calibration_text(figures)}\n")


def main() -> None:
    arguments = asked()
    clubs = arguments.calibration
    if clubs is None:
        clubs = 20000 if arguments.all else 0
    runs = share_runs(arguments)
    stated = calibration_runs(clubs, arguments.seed, 1.0) if clubs else []
    stress = calibration_runs(clubs // 2, arguments.seed, STRESS) if clubs else []
    done = work_all([*runs, *stated, *stress], arguments.jobs)
    by_bench: dict[str, dict[str, dict[str, Any]]] = {}
    for run, rows in zip(runs, done, strict=False):
        assert run.bench is not None
        by_bench.setdefault(run.bench.name, {})[run.kind] = shares(rows)
    calibrated: dict[str, dict[str, Any]] = {}
    if clubs:
        tail = done[len(runs) :]
        calibrated["truth drawn from the stated uncertainties"] = calibration(np.concatenate(tail[:2]))
        calibrated[f"stress, truth and gauges {STRESS} times as wide as stated"] = calibration(np.concatenate(tail[2:]))
    if arguments.json:
        figures = {"seed": arguments.seed, "shares": by_bench, "calibration": calibrated}
        print(json.dumps(figures, indent=1, sort_keys=True))
        return
    print(f"Seed {arguments.seed}. Truth is drawn from the uncertainties that the program states.\n")
    for name, found in by_bench.items():
        print_shares(BENCHES[name], found)
    print_calibration(calibrated)


if __name__ == "__main__":
    main()
