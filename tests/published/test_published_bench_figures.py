"""Figures of the bench that are acted on: marks and offcut, cure and mix, bends, tape, trims, what settles a verdict.

Each is worked a second way by a general-purpose library; tickets and parts are invented.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import numpy as np
import pytest
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq, minimize_scalar
from scipy.stats import norm

from clubwright.belief.instruments import Instrument
from clubwright.conformity.decision import verdict
from clubwright.conformity.settling import settle
from clubwright.planning.bending.advice import BEND_SD_RAD, bend_advice
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.planning.cut import cut_of
from clubwright.planning.grip.build_up import plan_build_up
from clubwright.planning.grip.forecast import GripPlace
from clubwright.planning.joint.cure import cured_share, released
from clubwright.planning.joint.mix_check import check_mix
from clubwright.ticket.read import read_ticket

Published = Callable[..., None]
IN = 0.0254
HOUR, ZERO_C = 3600.0, 273.15


def club_state(**changed: Any) -> ClubState:
    document: dict[str, Any] = {
        "ticket": {"id": "T-9", "player": "A. Example", "kind": "wedge", "hand": "right"},
        "target": {"length": "35 1/4 in", "loft": "54 deg", "lie": "63.5 deg"},
        "tolerance": {"loft": "1/2 deg", "lie": "1/4 deg"},
        "shop": {"kerf": "1.6 mm"},
        "head": {
            "mass": "296.4 g",
            "bore_to_ground": "1.10 in",
            "bore_depth": "1.25 in",
            "cg_from_ground": "-6 mm",
            "loft": "55 deg",
            "lie": "64.25 deg",
            "metal": "forged carbon steel",
        },
        "shaft": {"material": "steel", "tip": "parallel", "raw_length": "38 in", "tip_trim": "1/2 in", "mass": "125 g"},
        "grip": {"mass": "49.6 g", "cap": "1/8 in", "cg_from_cap": "4.1 in"},
        "weight": [{"name": "plug", "mass": "6 g", "seat": "tip", "lifts_shaft": "3/16 in", "from_ground": "1 in"}],
    }
    document.update(changed)
    ticket, findings = read_ticket(document)
    assert ticket is not None, findings
    return club_state_of(ticket)


def test_marks_offcut_and_kerf(published: Published) -> None:
    """Along the axis: ground, bore, (lift,) shaft, cap. The exact sum in sixty-fourths, by Python's fractions."""
    cut, _ = cut_of(club_state())
    assert cut is not None
    length, bore, cap, lift = Fraction("35.25"), Fraction("1.10"), Fraction(1, 8), Fraction(3, 16)
    shaft = length - bore - cap
    for quantity, theirs, ours in (
        ("mark from the tip", shaft, cut.mark_from_tip_m),
        ("mark from the ground, head dry-fitted", length - cap, cut.mark_from_ground_m),
        ("offcut of a 38 in shaft with 1/2 in off its tip", Fraction(38) - Fraction(1, 2) - shaft, cut.butt_cut_m),
        ("kerf of 1.6 mm", Fraction(16, 254), cut.kerf_m),
        ("mark from the tip with a plug that lifts by 3/16 in", shaft - lift, cut.lifted[0].shaft_length_m),
    ):
        assert ours is not None
        published(
            quantity=f"cut of a 35 1/4 in club: {quantity}",
            source="exact sums with fractions.Fraction",
            theirs=float(theirs),
            ours=ours / IN,
            tolerance=1e-9,
            unit="in",
            standing="library",
        )


ROWS = ((288.15, 48 * HOUR), (298.15, 24 * HOUR), (313.15, 6 * HOUR))


def time_s(kelvin: float) -> float:
    """Log-linear between rows, by numpy."""
    return float(np.exp(np.interp(kelvin, [row[0] for row in ROWS], np.log([row[1] for row in ROWS]))))


def test_cured_share_over_a_history(published: Published) -> None:
    """A room that warms from 16 to 30 C in ten hours, looked at every five minutes; scipy integrates the same curve."""

    def kelvin(at_s: float) -> float:
        return float(289.15 + 14.0 * at_s / (10 * HOUR))

    step = 300.0
    history = [(step, kelvin(start + step / 2)) for start in np.arange(0.0, 10 * HOUR, step)]
    share, _ = quad(lambda at: 1 / time_s(kelvin(at)), 0.0, 10 * HOUR, points=[(298.15 - 289.15) / 14 * 10 * HOUR])
    published(
        quantity="share of the cure after ten hours from 16 to 30 C",
        source="scipy.integrate.quad over 1 / time(temperature)",
        theirs=share,
        ours=cured_share(ROWS, history),
        tolerance=2e-5,
        standing="library",
    )
    left = released(ROWS, history).remaining_s
    assert left is not None
    full = solve_ivp(
        lambda _, y: [1 / time_s(history[-1][1])], (0.0, 48 * HOUR), [cured_share(ROWS, history)], rtol=1e-10,
        events=(crossing := lambda _, y: y[0] - 1.0),
    )  # fmt: skip
    assert crossing is not None
    published(
        quantity="what is then left at 30 C",
        source="scipy.integrate.solve_ivp until the share is 1",
        theirs=float(full.t_events[0][0]) / HOUR,
        ours=left / HOUR,
        tolerance=1e-6,
        unit="h",
        standing="library",
    )


def test_what_mends_a_wrong_mix(published: Published) -> None:
    """4.00 g of A and 2.30 g of B where 2:1 is asked: what has to be added, found by a root."""
    found = check_mix(0.004, 0.0023, 2.0)
    assert found.add == "A"
    published(
        quantity="part A to add to 4.00 g and 2.30 g at 2:1",
        source="scipy.optimize.brentq on (A + x) / B = 2",
        theirs=float(brentq(lambda x: (4.0 + x) / 2.3 - 2.0, 0.0, 5.0)),
        ours=found.add_kg * 1e3,
        tolerance=1e-9,
        unit="g",
        standing="library",
    )
    published(
        quantity="error of part B in 4.00 g and 2.30 g at 2:1",
        source="exact, by fractions.Fraction",
        theirs=float(Fraction(230, 200) - 1),
        ours=found.part_b_error,
        tolerance=1e-12,
        standing="library",
    )


def test_chance_after_bends(published: Published) -> None:
    """Angles after the bends are drawn: what was measured, and the bend's own spread."""
    state = club_state()
    action = bend_advice(state)
    assert action is not None and action.irreversible
    generator, inside = np.random.default_rng(23), np.ones(400_000, dtype=bool)
    for key, half_deg in (("loft", 0.5), ("lie", 0.25)):
        sd = state.belief.sd_of(f"head.{key}_rad")
        off = sd * generator.standard_normal(inside.size) + BEND_SD_RAD * generator.standard_normal(inside.size)
        inside &= np.abs(off) <= np.radians(half_deg)
    published(
        quantity="chance that loft within 1/2 deg and lie within 1/4 deg after both bends",
        source="share of 400 000 drawn angles, numpy",
        theirs=float(np.mean(inside)),
        ours=action.chance,
        tolerance=4 * float(np.std(inside)) / inside.size**0.5,
        standing="library",
    )


def test_layers_of_tape(published: Published) -> None:
    """Butt .580, nominal .900, core .600, layers of .005 in: a target of .930, searched through by scipy."""
    place = GripPlace(
        nominal_m=0.900 * IN, butt_m=0.580 * IN, core_m=0.600 * IN, target_m=0.930 * IN, tolerance_m=0.010 * IN
    )
    plan = plan_build_up(place, None, layer_m=0.005 * IN, blend=0.5, blend_sd=0.0)

    def diameter(layers: float) -> float:
        under = 0.580 + 2 * 0.005 * layers
        return 0.5 * (under + 0.900 - 0.600) + 0.5 * float(np.sqrt(under**2 + 0.900**2 - 0.600**2))

    wanted = minimize_scalar(lambda n: (diameter(n) - 0.930) ** 2, bounds=(0, 12), method="bounded").x
    published(
        quantity="wraps for .930 in over a .580 butt and a .600 core",
        source="scipy.optimize.minimize_scalar on both models' mean, to the nearest whole wrap",
        theirs=float(round(wanted)),
        ours=float(plan.full_layers),
        tolerance=0.0,
        standing="library",
    )
    assert plan.at_2in is not None
    published(
        quantity="diameter with them",
        source="both models' mean, numpy",
        theirs=diameter(round(wanted)),
        ours=plan.at_2in.diameter_m / IN,
        tolerance=1e-9,
        unit="in",
        standing="library",
    )


@pytest.mark.parametrize(("read", "guard"), [(0.42, "guard 95 %"), (0.30, "guard 2u")])
def test_what_settles_a_verdict(published: Published, read: float, guard: str) -> None:
    """A tolerance of 0.5 about 0, a gauge of 0.15: uncertainty that decides, how many readings, how far to move."""
    gauge = Instrument(name="scale", repeatability=0.15, resolution=0.0, bias=0.02)
    found = verdict(read, 0.0, 0.5, gauge.uncertainty(), guard)
    asked = settle(found, gauge)
    factor = float(norm.isf(0.05)) if guard == "guard 95 %" else 2.0
    needed = float(brentq(lambda u: 0.5 - read - factor * u, 1e-9, 1.0))
    repeats = next(n for n in range(1, 100) if factor * np.hypot(0.02, 0.15 / np.sqrt(n)) <= 0.5 - read + 1e-12)
    move = float(brentq(lambda d: 0.5 - (read - d) - factor * gauge.uncertainty(), -1.0, 1.0))
    assert asked.repeats is not None and asked.move is not None
    for quantity, theirs, ours in (
        ("uncertainty that decides", needed, asked.needed_u),
        ("readings whose mean decides", float(repeats), float(asked.repeats)),
        ("move that proves it within", move, asked.move),
    ):
        published(
            quantity=f"read {read} of 0.5, rule {guard}: {quantity}",
            source="scipy.optimize.brentq on m = k u, scipy.stats.norm; readings counted one by one",
            theirs=theirs,
            ours=ours,
            tolerance=1e-9,
            standing="library",
        )
