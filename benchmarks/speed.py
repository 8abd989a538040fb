"""How long the program thinks, beside a named piece of arithmetic run in the same breath on the same machine.

    python benchmarks/speed.py [--json]

Times are the processor's own for one thread (on an idle machine the same as the clock's), so that other work on the
machine does not count. A command that starts cold is a program of its own, its time that of the processor, imports and
all. Seconds depend on the machine, ratios to the reference much less: the reference is
``numpy.linalg.solve`` of one fixed 200 x 200 system, and for the million clubs the same sums written out in plain numpy.
"""

from __future__ import annotations

import argparse
import json
import os

# One thread: the processor time of several would be added up.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import platform
import resource
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import msgspec
import numpy as np

from clubwright.belief.update import learn
from clubwright.club.build import Build
from clubwright.club.moi import moi_kg_m2
from clubwright.club.parts import Adhesive, Club, Ferrule, Grip, Head, Shaft, Tape, Weight
from clubwright.club.swing_weight import swing_weight_points
from clubwright.club.total_weight import total_weight_kg
from clubwright.planning.advice.weights import choices
from clubwright.planning.club_state import club_state_of
from clubwright.services.answer.club_answer import work_document
from clubwright.ticket.gauges import readings_of
from clubwright.ticket.read import read_ticket

INCH_M = 0.0254
OUNCE_INCH_KG_M = 0.028349523125 * INCH_M
MILLION = 1_000_000
EXAMPLES = Path(__file__).parents[1] / "examples"
Plain = dict[str, Any]


def sample_wedge() -> Plain:
    """Return an invented wedge with a tray of ten weights, two readings and two mass targets."""
    reading = {"quantity": "swing_weight", "instrument": "scale"}
    return {
        "ticket": {"id": "T-0042", "kind": "wedge", "hand": "right", "player": "A. Example", "label": "54 wedge"},
        "target": {
            "length": "35 1/4 in",
            "loft": "54 deg",
            "lie": "63 1/2 deg",
            "swing_weight": "D4",
            "total_weight": "468 g",
        },
        "tolerance": {"swing_weight": "1/4 pt"},
        "head": {
            "mass": "296.4 g",
            "loft": "54.3 deg",
            "lie": "64 deg",
            "bounce": "10 deg",
            "hand": "right",
            "bore_to_ground": "1.10 in",
            "bore_depth": "1.25 in",
        },
        "shaft": {
            "raw_length": "37 in",
            "mass": "125.2 g",
            "balance_from_tip": "19 1/4 in",
            "butt_density": "3.6 g/in",
        },
        "grip": {"mass": "49.6 g", "cap": "1/8 in"},
        "tape": [{"name": "double-sided", "layers": "2", "mass": "3.0 g"}],
        "ferrule": {"mass": "0.7 g"},
        "weight": [{"name": f"port {n}", "mass": f"{n}.02 g", "seat": "port"} for n in range(1, 11)],
        "reading": [
            {**reading, "value": "D1.9", "stage": "dry, gripped", "weights": []},
            {**reading, "value": "D3.7", "stage": "finished", "weights": ["port 4"]},
        ],
        "instrument": {"scale": {"resolution": "0.1 pt", "repeatability": "0.1 pt", "bias": "0.05 pt"}},
    }


def million_clubs() -> Build:
    """Return a finished wedge whose every number is an array of a million guesses."""
    random = np.random.default_rng(1)

    def about(mean: float, sd: float) -> Any:
        return random.normal(mean, sd, MILLION)

    club = Club(
        kind="wedge",
        head=Head(
            mass_kg=about(0.2964, 1e-4),
            cg_from_ground_m=about(-0.004, 0.006),
            cg_off_axis_m=about(0.036, 0.002),
            own_inertia_kg_m2=about(2.7e-4, 2e-5),
            bore_to_ground_m=about(0.028, 3e-4),
            bore_depth_m=about(0.032, 5e-4),
        ),
        shaft=Shaft(
            raw_length_m=about(0.94, 3e-4),
            mass_kg=about(0.1252, 1e-4),
            balance_from_tip_m=about(0.489, 1e-3),
            length_m=about(0.864, 4e-4),
            tip_trim_m=0.0,
            tip_density_kg_m=about(0.12, 0.01),
            butt_density_kg_m=about(0.14, 0.01),
        ),
        grip=Grip(mass_kg=about(0.0496, 1e-4), cg_from_cap_m=about(0.104, 0.005), cap_m=about(0.0032, 2e-4)),
        ferrule=Ferrule(mass_kg=about(7e-4, 5e-5), length_m=about(0.0254, 5e-4)),
        adhesive=Adhesive(mass_kg=about(8e-4, 2e-4)),
        tapes=(Tape(mass_kg=about(3e-3, 2e-4), cg_from_cap_m=about(0.13, 0.004)),),
        weights=(Weight(name="port 4", mass_kg=about(4e-3, 5e-5), seat="port", place_m=about(0.01, 0.004)),),
    )
    return Build(club=club, fitted=(1.0,))


def by_program(clubs: Build) -> tuple[Any, Any, Any]:
    build = msgspec.structs.replace(clubs)  # a new build: nothing is kept from the round before
    return total_weight_kg(build), swing_weight_points(build), moi_kg_m2(build)


def by_plain_numpy(build: Build) -> tuple[Any, Any, Any]:
    """Do the sums that the three quantities need once, and nothing else."""
    club = build.club
    head, shaft, grip, tape, weight = club.head, club.shaft, club.grip, club.tapes[0], club.weights[0]
    stop = head.bore_to_ground_m + shaft.length_m + grip.cap_m
    offcut = shaft.raw_length_m - shaft.length_m
    cut_off = shaft.butt_density_kg_m * offcut
    m_s = shaft.mass_kg - cut_off
    cg = (shaft.mass_kg * shaft.balance_from_tip_m - cut_off * (shaft.raw_length_m - offcut / 2)) / m_s
    x_s = stop - head.bore_to_ground_m - cg
    own_s = m_s * (shaft.length_m**2 * (1 / 3 + (cg / shaft.length_m - 0.5)) - cg**2)
    x_h = stop - head.cg_from_ground_m
    x_f = stop - head.bore_to_ground_m - head.bore_depth_m - club.ferrule.length_m / 2
    x_a = stop - head.bore_to_ground_m - head.bore_depth_m / 2
    x_w = stop - weight.place_m
    x_t, x_g = tape.cg_from_cap_m, grip.cg_from_cap_m
    m_h, m_f, m_a, m_w, m_t, m_g = (
        head.mass_kg,
        club.ferrule.mass_kg,
        club.adhesive.mass_kg,
        weight.mass_kg,
        tape.mass_kg,
        grip.mass_kg,
    )
    mass = m_s + m_h + m_f + m_a + m_w + m_t + m_g
    first = m_s * x_s + m_h * x_h + m_f * x_f + m_a * x_a + m_w * x_w + m_t * x_t + m_g * x_g
    second = own_s + m_s * x_s**2 + head.own_inertia_kg_m2 + m_h * (x_h**2 + head.cg_off_axis_m**2)
    second += m_f * (x_f**2 + club.ferrule.length_m**2 / 12) + m_a * (x_a**2 + head.bore_depth_m**2 / 12)
    second += m_w * x_w**2 + m_t * (x_t**2 + tape.length_m**2 / 12) + m_g * (x_g**2 + grip.length_m**2 / 12)
    points = ((first - mass * 14 * INCH_M) / OUNCE_INCH_KG_M - 161.0) / 1.75
    return mass, points, second


def cold_s(*arguments: str, rounds: int = 9) -> float:
    """Return the median processor time of one run of the console script."""
    script = str(Path(sys.executable).with_name("clubwright"))
    taken = []
    for _ in range(rounds):
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        subprocess.run([script, *arguments], stdout=subprocess.DEVNULL, check=True)
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        taken.append(after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)
    return statistics.median(taken)


def medians(jobs: dict[str, Callable[[], Any]], rounds: int) -> dict[str, float]:
    """Return the median processor time of each job in seconds, the jobs taken in turn so that all meet the same machine."""
    seconds: dict[str, list[float]] = {name: [] for name in jobs}
    for job in jobs.values():
        job()
    for _ in range(rounds):
        for name, job in jobs.items():
            start = time.process_time()
            job()
            seconds[name].append(time.process_time() - start)
    return {name: statistics.median(taken) for name, taken in seconds.items()}


def measured() -> Plain:
    document = sample_wedge()
    ticket, findings = read_ticket(document)
    assert ticket is not None, findings
    club_state = club_state_of(ticket)
    prior, readings = club_state.prior, readings_of(ticket)

    def update_and_advice() -> Any:
        learned = learn(prior.belief, prior.club, prior.conventions, readings)
        return choices(type(club_state)(ticket=ticket, prior=prior, learned=learned, goals=club_state.goals))

    random = np.random.default_rng(1)
    matrix, side = random.normal(size=(200, 200)), random.normal(size=200)
    single = medians(
        {
            "solve": lambda: np.linalg.solve(matrix, side),
            "update": update_and_advice,
            "ticket": lambda: work_document(document).answer(),
        },
        rounds=200,
    )
    clubs = million_clubs()
    for ours, plain in zip(by_program(clubs), by_plain_numpy(clubs), strict=True):
        assert np.allclose(ours, plain, rtol=1e-9), "the two sums differ"
    many = medians({"program": lambda: by_program(clubs), "plain": lambda: by_plain_numpy(clubs)}, rounds=7)
    return {
        "machine": {
            "processors": os.cpu_count(),
            "architecture": platform.machine(),
            "python": platform.python_version(),
            "numpy": np.__version__,
        },
        "help_cold_s": cold_s("--help"),
        "work_cold_s": cold_s("work", str(EXAMPLES / "wedge-54.toml")),
        "work_cold_frequency_s": cold_s("work", str(EXAMPLES / "iron.toml")),
        "solve_200_ms": single["solve"] * 1e3,
        "update_and_advice_ms": single["update"] * 1e3,
        "ticket_to_answer_ms": single["ticket"] * 1e3,
        "update_to_solve": single["update"] / single["solve"],
        "ticket_to_solve": single["ticket"] / single["solve"],
        "million_clubs_s": many["program"],
        "million_clubs_plain_s": many["plain"],
        "million_to_plain": many["program"] / many["plain"],
    }


def main() -> None:
    parser = argparse.ArgumentParser(description="Medians, and ratios to a reference run beside them.")
    parser.add_argument("--json", action="store_true")
    found = measured()
    if parser.parse_args().json:
        print(json.dumps(found, indent=1, sort_keys=True))
        return
    machine = found["machine"]
    print(
        f"{machine['processors']} processors ({machine['architecture']}), Python {machine['python']}, "
        f"numpy {machine['numpy']}\n\n| work | median | reference | ratio | wanted |\n|---|---|---|---|---|"
    )
    solve = f"numpy.linalg.solve, 200 x 200: {found['solve_200_ms']:.2f} ms"
    print(
        f"| two readings taken in and the weight chosen, tray of 10 | {found['update_and_advice_ms']:.2f} ms | {solve} "
        f"| {found['update_to_solve']:.1f} | under 10 ms |\n"
        f"| a ticket from its document to the whole answer | {found['ticket_to_answer_ms']:.2f} ms | {solve} "
        f"| {found['ticket_to_solve']:.1f} | under 50 ms |\n"
        f"| total weight, swing weight and MOI of a million clubs | {found['million_clubs_s']:.3f} s "
        f"| the same sums in plain numpy: {found['million_clubs_plain_s']:.3f} s | {found['million_to_plain']:.2f} "
        f"| under 3 |\n"
        f"| `clubwright --help`, cold | {found['help_cold_s']:.2f} s | | | under 0.15 s |\n"
        f"| `clubwright work` of a wedge, cold | {found['work_cold_s']:.2f} s | | | under 0.52 s |\n"
        f"| the same of an iron whose frequency was read | {found['work_cold_frequency_s']:.2f} s | | | |"
    )


if __name__ == "__main__":
    main()
