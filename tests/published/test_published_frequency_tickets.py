"""Frequencies of an iron set through tickets: the independent figures of the beam again, read, trimmed and planned."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from scipy.stats import linregress

from clubwright.planning.advice.trim_planner import plan_trims
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.planning.set_slope import SetClub, set_slope
from clubwright.ticket.read import read_ticket
from worked_clubs import IN
from worked_shafts import shaft_of, steel_profile

Published = Callable[..., None]
APART = "independent finite elements (numpy), nodes on every step"
RAW_IN = 41.0
LENGTHS_IN = (39, 38.5, 38, 37.5, 37, 36.5, 36, 35.5)
HEADS_G = (242, 249, 256, 263, 270, 277, 284, 291)
TIP_TRIMMED = (310.217, 314.221, 318.494, 323.044, 327.88, 333.012, 338.449, 344.204)
BUTT_CUT = (310.217, 310.076, 310.268, 310.681, 311.431, 312.441, 313.8, 315.477)
BY_TRIM = (314.638, 318.655, 322.787, 327.161, 331.629, 336.079, 340.493)


def ticket_of(length_in: float, head_g: float, tip_trim_in: float) -> dict[str, Any]:
    """A head on the 41 in blank and next to nothing else, as a clubmaker would write it down."""
    profile = steel_profile(tip_in=11.0, butt_in=7.5)
    blank = shaft_of(profile, RAW_IN)
    stations: list[str] = []
    ei: list[str] = []
    density: list[str] = []
    for piece in profile.pieces:
        # Each step is a place given twice.
        stations += [f"{piece.start_m * 1e3:.9f} mm", f"{piece.end_m * 1e3:.9f} mm"]
        ei += [f"{piece.start_ei_n_m2:.9f} N m2", f"{piece.end_ei_n_m2:.9f} N m2"]
        density += [f"{piece.start_density_kg_m * 1e3:.9f} g/m", f"{piece.end_density_kg_m * 1e3:.9f} g/m"]
    return {
        "ticket": {"id": "T-0001", "kind": "iron", "hand": "right"},
        "target": {"length": f"{length_in} in", "frequency": "320 cpm"},
        "head": {
            "mass": f"{head_g} g", "bore_to_ground": "1 in", "bore_depth": "1.25 in", "cg_from_ground": "0 mm",
            "cg_off_axis": "0 mm", "own_inertia": "0 kg cm2",
        },
        "shaft": {
            "tip": "parallel", "raw_length": f"{RAW_IN} in", "mass": f"{float(blank.mass_kg) * 1e3:.9f} g",
            "balance_from_tip": f"{float(blank.balance_from_tip_m) * 1e3:.9f} mm", "tip_trim": f"{tip_trim_in} in",
            "tip_density": density[0], "butt_density": density[-1],
            "stiffness": {"kind": "table", "at": stations, "ei": ei, "density": density},
        },
        "grip": {"mass": "0.001 g", "cap": "1/8 in"},
        "ferrule": {"mass": "0 g"},
        "adhesive": {"in_joint": "0 g"},
        # Their clamp counts from the end of the shaft, ours from what the stop touches: one cap thickness more.
        "shop": {"clamp": "5 1/8 in"},
    }  # fmt: skip


def club_state(length_in: float, head_g: float, tip_trim_in: float) -> ClubState:
    ticket, findings = read_ticket(ticket_of(length_in, head_g, tip_trim_in))
    assert ticket is not None, [finding.sentence() for finding in findings]
    return club_state_of(ticket)


def cpm(of: ClubState) -> float:
    return 60 * float(of.predict(["frequency"]).mean[0, 0])


@pytest.mark.parametrize(("trimmed", "expected"), [(True, TIP_TRIMMED), (False, BUTT_CUT)])
def test_set_of_irons_through_tickets(published: Published, *, trimmed: bool, expected: tuple[float, ...]) -> None:
    for place, (length, head, theirs) in enumerate(zip(LENGTHS_IN, HEADS_G, expected, strict=True)):
        published(
            quantity=f"ticket of an iron {length} in, head {head} g, {'tip trimmed' if trimmed else 'butt cut only'}",
            source=APART, theirs=theirs, ours=cpm(club_state(length, head, 0.5 * place * trimmed)), tolerance=0.02,
            unit="cpm", standing="derived",
        )  # fmt: skip


def test_trim_plan(published: Published) -> None:
    plan = plan_trims(club_state(37.5, 256, 0.0), 3.0 * IN)
    halves = [
        option for option in plan.options if (option.tip_trim_m / IN * 2) % 1 in (pytest.approx(0), pytest.approx(1))
    ]
    for option, theirs in zip(halves, BY_TRIM, strict=True):
        published(
            quantity=f"trim plan of a 37.5 in iron, {option.tip_trim_m / IN:.1f} in off the tip", source=APART,
            theirs=theirs, ours=60 * option.finished["frequency"][0], tolerance=0.02, unit="cpm", standing="derived",
        )  # fmt: skip
        assert option.finished["length"][0] == pytest.approx(37.5 * IN, abs=1e-9)


@pytest.mark.parametrize(("trimmed", "heard"), [(True, TIP_TRIMMED), (False, BUTT_CUT)])
def test_slope_of_a_set(published: Published, *, trimmed: bool, heard: tuple[float, ...]) -> None:
    clubs = [
        SetClub(name=str(inch), length_m=inch * IN, frequency_hz=cycles / 60, frequency_sd_hz=0.0)
        for inch, cycles in zip(LENGTHS_IN, heard, strict=True)
    ]
    line = set_slope(clubs)
    theirs = linregress(np.array(LENGTHS_IN) * IN, np.array(heard) / 60)
    assert line.slope_sd_hz_m is not None
    how = "tip trimmed" if trimmed else "butt cut only"
    for what, expected, ours in (
        ("slope", theirs.slope, line.slope_hz_m),
        ("standard error of the slope", theirs.stderr, line.slope_sd_hz_m),
        ("frequency of the line at 37 in", theirs.intercept + theirs.slope * 37 * IN, line.at_hz(37 * IN)),
    ):
        published(
            quantity=f"set of irons, {how}: {what}", source="scipy.stats.linregress", theirs=float(expected), ours=ours,
            tolerance=1e-9, unit="Hz" if "frequency" in what else "Hz/m", standing="library",
        )  # fmt: skip
    assert sum(line.residuals_hz) == pytest.approx(0.0, abs=1e-12)
