"""How long one club's frequency takes, beside a general-purpose finite-element library at equal error, and 10,000 clubs.

    python benchmarks/vibration_speed.py [--json]

The library is scikit-fem (Hermite beam elements, a mesh with a node on every step of the shaft) with scipy's ``eigsh``. It
comes with the tools for development; without it only our own times are shown. Both
sides are timed on one thread by the processor's clock, best of five, whole: from the parts to the number. Equal error means
the fewest elements with which the library is as near to the converged frequency as we are, or as near as it comes. For the
derivatives, ours takes one complex step, the library one more club for each number. The 10,000 clubs are timed by the clock
on the wall, in one process and in two.
"""

from __future__ import annotations

import argparse
import json
import os

# One thread: the processor time of several would be added up.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import platform
import time
import tomllib
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from importlib.util import find_spec
from math import pi
from pathlib import Path
from typing import Any

import numpy as np

from clubwright.club.beam.section import step_taper
from clubwright.club.beam.stiffness import StiffnessProfile
from clubwright.club.build import Build
from clubwright.club.frequency import frequency_hz, rows_of
from clubwright.club.parts import Adhesive, Club, Ferrule, Grip, Head, Shaft
from clubwright.club.stages import DRY_NO_GRIP
from clubwright.planning.advice.trim_planner import plan_trims
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.ticket.read import read_ticket

IN = 0.0254
CLUBS = 10_000
FINEST = 2
"""Refinements of the library after which rounding takes more than another one gives."""
ROUNDS = 5


def blank() -> StiffnessProfile:
    """Return an invented steel blank: 10 in of tip, 15 steps of 1.1 in, 12 in of butt, .370 to .600 in."""
    edges = np.array([0.0, *(10 + 1.1 * np.arange(16)), 38.5])
    outside = np.linspace(0.370, 0.600, 17)
    walls = np.interp((edges[:-1] + edges[1:]) / 2, [10, 18, 26.5], [0.020, 0.014, 0.016])
    return step_taper((edges * IN).tolist(), (outside * IN).tolist(), (walls * IN).tolist())


def clubs(spread: int | None = None, seed: int = 1) -> Build:
    """Return one dry iron, or an array of them whose every number differs a little."""
    random = np.random.default_rng(seed)

    def about(mean: float, sd: float) -> Any:
        return mean if spread is None else random.normal(mean, sd, spread)

    profile = blank()
    lengths = np.array([piece.end_m - piece.start_m for piece in profile.pieces])
    weights = lengths * [piece.start_density_kg_m for piece in profile.pieces]
    middles = np.array([(piece.end_m + piece.start_m) / 2 for piece in profile.pieces])
    shaft = Shaft(
        raw_length_m=38.5 * IN,
        mass_kg=about(float(weights.sum()), 5e-4),
        balance_from_tip_m=about(float(weights @ middles / weights.sum()), 1e-3),
        length_m=about(36.875 * IN, 3e-3),
        tip_density_kg_m=profile.pieces[0].start_density_kg_m,
        butt_density_kg_m=profile.pieces[-1].start_density_kg_m,
        stiffness=profile,
        stiffness_factor=about(1.0, 0.02),
    )
    head = Head(
        mass_kg=about(0.256, 1e-3),
        cg_from_ground_m=about(-0.007, 3e-3),
        cg_off_axis_m=about(0.038, 2e-3),
        own_inertia_kg_m2=about(2.7e-4, 2e-5),
        bore_to_ground_m=about(IN, 3e-4),
        bore_depth_m=about(1.25 * IN, 3e-4),
    )
    club = Club(
        kind="iron",
        head=head,
        shaft=shaft,
        grip=Grip(mass_kg=0.05, cg_from_cap_m=0.104, cap_m=0.0032),
        ferrule=Ferrule(mass_kg=0.0),
        adhesive=Adhesive(mass_kg=0.0),
    )
    return Build(club=club, stage=DRY_NO_GRIP)


def iron_club_state() -> ClubState:
    """Return the example iron before its tip trim, with a frequency to hit."""
    document = tomllib.loads((Path(__file__).parents[1] / "examples" / "iron.toml").read_text(encoding="utf-8"))
    document["reading"] = []
    document["shaft"].pop("tip_trim", None)
    ticket, findings = read_ticket(document)
    assert ticket is not None, findings
    return club_state_of(ticket)


def by_library(build: Build, refinements: int) -> float:
    """Return the frequency of the same beam from scikit-fem; each stretch of shaft is cut in two `refinements` times."""
    import skfem
    from scipy.sparse import coo_array
    from scipy.sparse.linalg import eigsh
    from skfem.helpers import dd

    profile, rows = build.club.shaft.stiffness, rows_of(build)[1]
    assert profile is not None
    end, clamp = float(rows.free_m[0]), float(rows.clamp_m[0])
    inside = [piece.end_m for piece in profile.pieces if end < piece.end_m < clamp]
    mesh = skfem.MeshLine(np.array([end, *inside, clamp])).refined(refinements)
    basis = skfem.Basis(mesh, skfem.ElementLineHermite(), intorder=8)
    starts = np.array([piece.start_m for piece in profile.pieces])
    ei = np.array([piece.start_ei_n_m2 for piece in profile.pieces])
    rise = np.array([(p.end_ei_n_m2 - p.start_ei_n_m2) / (p.end_m - p.start_m) for p in profile.pieces])
    density = np.array([piece.start_density_kg_m for piece in profile.pieces])
    a, b = float(rows.density[0]), float(rows.density_s[0])

    @skfem.BilinearForm
    def bending(u: Any, v: Any, w: Any) -> Any:
        piece = np.searchsorted(starts, w.x[0], side="right") - 1
        return (ei[piece] + rise[piece] * (w.x[0] - starts[piece])) * dd(u)[0, 0] * dd(v)[0, 0]

    @skfem.BilinearForm
    def inertia(u: Any, v: Any, w: Any) -> Any:
        s = w.x[0]
        return (a + b * s) * density[np.searchsorted(starts, s, side="right") - 1] * u * v

    stiffness, mass = bending.assemble(basis), inertia.assemble(basis)
    nodes = mesh.p[0]
    first, last = int(np.argmin(nodes)), int(np.argmax(nodes))
    place, slope = basis.nodal_dofs[:, first]
    m, s, j = float(rows.body_kg[0]), float(rows.body_kg_m[0]), float(rows.body_kg_m2[0])
    body = coo_array(([m, -s, -s, j], ([place, place, slope, slope], [place, slope, place, slope])), shape=mass.shape)
    mass = mass + body.tocsr()
    k, m_free, *_ = skfem.condense(stiffness, mass, D=basis.nodal_dofs[:, last])
    found = eigsh(k.tocsc(), k=1, M=m_free.tocsc(), sigma=0.0, return_eigenvectors=False)
    return float(np.sqrt(found[0]) / (2 * pi))


def seconds(work: Callable[[], Any], times: int) -> float:
    """Return the processor's time of one call, the best of some rounds."""
    work()
    best = float("inf")
    for _ in range(ROUNDS):
        start = time.process_time()
        for _ in range(times):
            work()
        best = min(best, (time.process_time() - start) / times)
    return best


def one_batch(job: tuple[int, int]) -> float:
    """Work some clubs and return their mean, so that two processes have something to say."""
    count, seed = job
    return float(np.mean(frequency_hz(clubs(count, seed))))


def beside_frames(build: Build, exact: float, ours_ms: float) -> dict[str, Any]:
    """Time a frame program as near as it comes to the exact frequency; nothing where it is not installed."""
    if find_spec("Pynite") is None:
        return {"frames": "not installed: uv pip install PyniteFEA"}
    from frames import CUTS, by_frames

    profile, rows = blank(), rows_of(build)[1]
    errors = {cuts: abs(by_frames(profile, rows, cuts) / exact - 1) for cuts in CUTS}
    best = min(errors, key=lambda cuts: errors[cuts])
    took_ms = 1e3 * seconds(lambda: by_frames(profile, rows, best), 3)
    return {
        "frames_members_for_each_stretch": best,
        "frames_relative_error": errors[best],
        "frames_ms": took_ms,
        "frames_over_ours": took_ms / ours_ms,
    }


def measured() -> dict[str, Any]:
    """Time everything."""
    build = clubs()
    ours = float(frequency_hz(build))
    found: dict[str, Any] = {"machine": platform.machine(), "ours_cpm": 60 * ours}
    found["ours_ms"] = 1e3 * seconds(lambda: frequency_hz(build), 50)
    many = clubs(CLUBS)
    start = time.perf_counter()
    frequency_hz(many)
    found["batch_of_10000_s"] = time.perf_counter() - start
    with ProcessPoolExecutor(2) as pool:
        list(pool.map(one_batch, [(10, 1), (10, 2)]))
        start = time.perf_counter()
        list(pool.map(one_batch, [(CLUBS // 2, 1), (CLUBS // 2, 2)]))
        found["batch_of_10000_two_processes_s"] = time.perf_counter() - start
    trims = iron_club_state()
    found["trim_plan_ms"] = 1e3 * seconds(lambda: plan_trims(trims, 3 * IN), 5)
    found["trim_plan_options"] = len(plan_trims(trims, 3 * IN).options)
    try:
        finer = [by_library(build, n) for n in range(FINEST + 1)]
    except ImportError:
        found["library"] = "scikit-fem is not installed: python -m pip install scikit-fem"
        return found
    # its error falls by 16 with each refinement (cubic elements): extrapolated after L. F. Richardson
    exact = finer[-1] + (finer[-1] - finer[-2]) / 15
    errors = [abs(each / exact - 1) for each in finer]
    found["our_relative_error"] = error = abs(ours / exact - 1)
    enough = next((n for n, each in enumerate(errors) if each <= error), FINEST)
    found["library_refinements"] = enough
    found["library_relative_error"] = errors[enough]
    found["library_ms"] = 1e3 * seconds(lambda: by_library(build, enough), 5)
    found["library_over_ours"] = found["library_ms"] / found["ours_ms"]
    # what a belief asks of one club: its frequency, and how that goes with every number that is not certain
    whole = iron_club_state()
    slopes = whole.predict(["frequency"]).slope[0, 0]
    found["unknowns_that_move_it"] = moving = int(np.count_nonzero(slopes))
    found["ours_with_derivatives_ms"] = 1e3 * seconds(lambda: whole.predict(["frequency"]), 20)
    found["library_with_differences_ms"] = 1e3 * seconds(
        lambda: [by_library(build, enough) for _ in range(moving + 1)], 1
    )
    found["library_over_ours_with_derivatives"] = (
        found["library_with_differences_ms"] / found["ours_with_derivatives_ms"]
    )
    found |= beside_frames(build, exact, found["ours_ms"])
    found["library_over_one_of_the_batch"] = found["library_ms"] * CLUBS / 1e3 / found["batch_of_10000_s"]
    return found


def main() -> None:
    """Print the times."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--json", action="store_true", help="print one JSON object")
    found = measured()
    if parser.parse_args().json:
        print(json.dumps(found, indent=2))
        return
    for name, value in found.items():
        print(f"{name:34} {value:.6g}" if isinstance(value, float) else f"{name:34} {value}")


if __name__ == "__main__":
    main()
