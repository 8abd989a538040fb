"""Tip and bore against sources outside: worksheets by plain arithmetic, uncertainties by a library, bond lines from the page
of an adhesive maker."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from math import pi

import pytest
from uncertainties import ufloat

from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.planning.joint.fit import fit_of
from clubwright.planning.joint.stress import bond_line_volume_m3
from clubwright.ticket.read import read_ticket

IN = 0.0254
MIL = 0.001 * IN
WORKSHEET = "worksheet in decimals of an inch: bore less tip, halved; trade sizes are common practice"
MAKER = "masterbond.com, question on bond line tolerances: highest strengths from 2 to 5 mils"

Published = Callable[..., None]

SIZES = {
    # tip in bore: by hand with bond lines of 0 to 5 mil and the usual uncertainties (guard band of 2.24 mil on the diameter)
    (".355", ".370"): "too loose",
    (".335", ".350"): "too loose",
    (".355", ".350"): "too tight",
    (".370", ".355"): "too tight",
    (".370", ".3705"): "cannot tell",
    (".350", ".355"): "fits",
    (".335", ".339"): "fits",
}


def stands(tip: str, bore: str, **more: dict[str, str]) -> ClubState:
    document = {
        "ticket": {"id": "T-1", "kind": "wedge", "hand": "right"},
        "shaft": {"tip_diameter": tip},
        "head": {"bore_diameter": bore},
        **more,
    }
    found, findings = read_ticket(document, "ticket")
    assert found is not None, findings
    return club_state_of(found)


@pytest.mark.parametrize(("tip", "bore"), SIZES)
def test_clearance_of_the_trades_sizes(published: Published, tip: str, bore: str) -> None:
    found = fit_of(stands(f"{tip} in", f"{bore} in"))
    assert found is not None
    by_hand = (Decimal(bore) - Decimal(tip)) / 2 * Decimal("25.4")
    published(
        quantity=f"bond line a side, tip {tip} in bore {bore}",
        source=WORKSHEET,
        theirs=float(by_hand),
        ours=found.line_m * 1e3,
        tolerance=1e-12,
        unit="mm",
        standing="derived",
    )
    assert found.verdict == SIZES[tip, bore]


def test_uncertainty_of_a_clearance(published: Published) -> None:
    shim = {"shim": {"thickness": "0.005 in ± 0.0003 in"}}
    found = fit_of(stands("0.3352 in ± 0.0002 in", "0.3504 in ± 0.0006 in", **shim))
    assert found is not None
    theirs = ufloat(0.3504, 0.0006) - ufloat(0.3352, 0.0002) - 2 * ufloat(0.005, 0.0003)
    for name, value, ours in (("clearance", theirs.n, found.clearance_m), ("its uncertainty", theirs.s, found.u_m)):
        published(
            quantity=f"{name}, tip .3352 with a shim of .005 in bore .3504",
            source="uncertainties, linear propagation",
            theirs=value,
            ours=ours / IN,
            tolerance=1e-12,
            unit="in",
            standing="library",
        )


def test_thickest_bond_line_without_a_data_sheet(published: Published) -> None:
    found = fit_of(stands("0.355 in", "0.359 in"))
    assert found is not None
    published(
        quantity="thickest bond line taken without a data sheet",
        source=MAKER,
        theirs=5,
        ours=found.allowed.high_m / MIL,
        tolerance=1e-9,
        unit="mil",
        standing="seen",
    )


def test_ring_of_adhesive_is_the_difference_of_two_cylinders(published: Published) -> None:
    bore, tip, depth = 0.374 * IN, 0.370 * IN, 1.25 * IN
    published(
        quantity="adhesive that fills a .370 tip in a .374 bore, 1.25 in deep",
        source="difference of two cylinders, pi/4 (D^2 - d^2) l",
        theirs=pi / 4 * (bore**2 - tip**2) * depth * 1e6,
        ours=bond_line_volume_m3((bore + tip) / 2, (bore - tip) / 2, depth) * 1e6,
        tolerance=1e-12,
        unit="cm3",
        standing="derived",
    )
