"""Mass, balance and inertia of shafts against tube geometry, closed forms and a general-purpose integrator."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

import numpy as np
import pytest
from scipy.integrate import quad

from clubwright.club.parts import Shaft
from clubwright.club.shaft import (
    DensityPiece,
    profile_mass,
    straight_line_densities,
    straight_line_inertia,
    trimmed,
)
from clubwright.errors import NotPossible
from clubwright.ticket.priors.prior import prior_from
from clubwright.ticket.read import read_ticket
from worked_clubs import GRAM, IN, IRON, WEDGE, ClubAnswer, shaft_length_in, steel_blank

Published = Callable[..., None]
TUBES = "independent calculation, tube areas of a US patent's claims (lightweight steel shaft) x 7850 kg/m3"
QUAD = "scipy.integrate.quad"


def test_steel_blank(published: Published) -> None:
    whole = profile_mass(steel_blank(), 0.0, 38.5 * IN)
    for quantity, theirs, ours, tolerance, unit in (
        ("mass of a 38.5 in step-taper steel blank", 119.354, whole.mass_kg / GRAM, 0.05, "g"),
        ("its balance point from the tip", 20.322, whole.cg_from_tip_m / IN, 0.002, "in"),
    ):
        published(
            quantity=quantity,
            source=TUBES,
            theirs=theirs,
            ours=ours,
            tolerance=tolerance,
            unit=unit,
            standing="derived",
        )


@pytest.mark.parametrize(("worked", "grams"), [(WEDGE, 106.15), (IRON, 113.224)])
def test_cut_blanks(published: Published, worked: ClubAnswer, grams: float) -> None:
    """The shafts of two worked clubs are this blank, cut to length after a tip trim."""
    start = worked.tip_trim * IN
    cut = profile_mass(steel_blank(), start, start + shaft_length_in(worked) * IN)
    from_cap = worked.length - worked.bore_to_ground - cut.cg_from_tip_m / IN
    for quantity, theirs, ours, tolerance, unit in (
        ("mass of the cut blank", grams, cut.mass_kg / GRAM, 0.005, "g"),
        ("its balance point from the cap", worked.shaft_at, from_cap, 0.001, "in"),
    ):
        published(
            quantity=f"{quantity}, {worked.name}",
            source=TUBES,
            theirs=theirs,
            ours=ours,
            tolerance=tolerance,
            unit=unit,
            standing="derived",
        )


def test_trims_in_the_parallel_ends_are_exact(published: Published) -> None:
    """Raw mass, raw balance and end densities give what the whole profile gives: 2.5 in off the tip, 1.5 off the butt."""
    blank = steel_blank()
    raw = profile_mass(blank, 0.0, 38.5 * IN)
    shaft = Shaft(
        raw_length_m=38.5 * IN,
        mass_kg=raw.mass_kg,
        balance_from_tip_m=raw.cg_from_tip_m,
        length_m=34.5 * IN,
        tip_trim_m=2.5 * IN,
        tip_density_kg_m=blank[0].start_density_kg_m,
        butt_density_kg_m=blank[-1].start_density_kg_m,
    )
    ours = trimmed(shaft)
    mass, balance, inertia = moments_by_scipy(blank, 2.5 * IN, 37 * IN)
    for quantity, a, b, tolerance, unit in (
        ("mass", mass / GRAM, ours.mass_kg / GRAM, 1e-6, "g"),
        ("balance point from the cut tip", balance / IN, ours.cg_from_tip_m / IN, 1e-6, "in"),
        # A straight line cannot follow the heavy parallel butt: 5 % of the shaft's own, 0.15 % of the club's MOI.
        ("own inertia, an approximation", inertia * 1e4, ours.own_inertia_kg_m2 * 1e4, 0.06 * inertia * 1e4, "kg cm2"),
    ):
        published(
            quantity=f"{quantity} of a trimmed steel blank: straight line against the whole profile",
            source="scipy.integrate.quad over the density of the tubes",
            theirs=a,
            ours=b,
            tolerance=tolerance,
            unit=unit,
            standing="library",
        )


def moments_by_scipy(blank: list[DensityPiece], start_m: float, end_m: float) -> tuple[float, float, float]:
    """Return mass, place of its centre from the start, and inertia about that, by integrals piece by piece."""

    def integral(power: int) -> float:
        total = 0.0
        for piece in blank:
            low, high = max(piece.start_m, start_m), min(piece.end_m, end_m)
            if low < high:
                rise = (piece.end_density_kg_m - piece.start_density_kg_m) / (piece.end_m - piece.start_m)

                def moment(s: float, rise: float = rise, piece: DensityPiece = piece) -> float:
                    return float((piece.start_density_kg_m + rise * (s - piece.start_m)) * (s - start_m) ** power)

                total += quad(moment, low, high)[0]
        return total

    mass, first, second = integral(0), integral(1), integral(2)
    return mass, first / mass, second - first**2 / mass


@pytest.mark.parametrize(("grams", "length"), [(62.353, 44.125), (100.0, 36.0)])
def test_uniform_rod(published: Published, grams: float, length: float) -> None:
    mass, long = grams * GRAM, length * IN
    piece = DensityPiece(0.0, long, mass / long, mass / long)
    for ours, how in (
        (straight_line_inertia(mass, long / 2, long), "straight line"),
        (profile_mass([piece], 0.0, long).own_inertia_kg_m2, "profile"),
    ):
        published(
            quantity=f"inertia of a uniform rod about its middle, {grams} g, {length} in, {how}",
            source="textbook m L^2 / 12",
            theirs=mass * long**2 / 12 * 1e4,
            ours=ours * 1e4,
            tolerance=1e-9,
            unit="kg cm2",
            standing="derived",
        )


@pytest.mark.parametrize("share", [0.48, 0.53, 0.6])
def test_straight_line_against_quad(published: Published, share: float) -> None:
    mass, long = 0.11, 0.95
    tip, butt = straight_line_densities(mass, share * long, long)

    def density(s: float) -> float:
        return tip + (butt - tip) * s / long

    assert quad(density, 0, long)[0] == pytest.approx(mass, rel=1e-12)
    assert quad(lambda s: s * density(s), 0, long)[0] == pytest.approx(mass * share * long, rel=1e-12)
    published(
        quantity=f"own inertia of a shaft that balances at {share:.2f} of its length",
        source=QUAD,
        theirs=quad(lambda s: (s - share * long) ** 2 * density(s), 0, long)[0] * 1e4,
        ours=straight_line_inertia(mass, share * long, long) * 1e4,
        tolerance=1e-9,
        unit="kg cm2",
        standing="library",
    )


def test_profile_against_quad(published: Published) -> None:
    """Three sloped pieces, both cuts inside a piece."""
    ends = (0.0, 0.3, 0.5, 1.0)
    densities = ((0.09, 0.11), (0.10, 0.14), (0.14, 0.13))
    pieces = [DensityPiece(a, b, *d) for (a, b), d in zip(pairwise(ends), densities, strict=True)]
    low, high = 0.07, 0.93

    def integral(power: int) -> float:
        total = 0.0
        for piece in pieces:
            a, b = max(low, piece.start_m), min(high, piece.end_m)
            total += quad(
                lambda s, p=piece: (
                    s**power * np.interp(s, [p.start_m, p.end_m], [p.start_density_kg_m, p.end_density_kg_m])
                ),
                a,
                b,
            )[0]
        return total

    mass, first, second = integral(0), integral(1), integral(2)
    ours = profile_mass(pieces, low, high)
    for quantity, theirs, value, unit in (
        ("mass of a profile between two cuts", mass / GRAM, ours.mass_kg / GRAM, "g"),
        ("its balance point from the lower cut", (first / mass - low) * 1e3, ours.cg_from_tip_m * 1e3, "mm"),
        ("its own inertia", (second - first**2 / mass) * 1e4, ours.own_inertia_kg_m2 * 1e4, "kg cm2"),
    ):
        published(
            quantity=quantity, source=QUAD, theirs=theirs, ours=value, tolerance=1e-8, unit=unit, standing="library"
        )


@pytest.mark.parametrize(("low", "high"), [(-0.01, 0.5), (0.1, 0.99), (0.5, 0.4)])
def test_cuts_off_the_shaft_are_refused(low: float, high: float) -> None:
    with pytest.raises(NotPossible, match="do not lie on this shaft"):
        profile_mass(steel_blank(), low, high)


def test_a_shaft_weighed_as_cut_gets_its_offcuts_back(published: Published) -> None:
    """The worked blank weighed and balanced after 1 in off the tip and 3 in off the butt, and told of the raw shaft."""
    blank, raw_m, trim_m, length_m = steel_blank(), 38.5 * IN, 1.0 * IN, 34.5 * IN

    def whole(of: Callable[[float], float], low_m: float, high_m: float) -> float:
        edges = [piece.start_m for piece in blank] + [blank[-1].end_m]
        inside = sorted({low_m, high_m, *(edge for edge in edges if low_m < edge < high_m)})
        return float(sum(quad(of, *pair)[0] for pair in pairwise(inside)))

    def density(at_m: float) -> float:
        piece = next(piece for piece in blank if piece.start_m <= at_m <= piece.end_m)
        share = (at_m - piece.start_m) / (piece.end_m - piece.start_m)
        return piece.start_density_kg_m + share * (piece.end_density_kg_m - piece.start_density_kg_m)

    butt_m = trim_m + length_m
    cut = whole(density, trim_m, butt_m)
    balance = whole(lambda at_m: at_m * density(at_m), trim_m, butt_m) / cut - trim_m
    shaft = {
        "material": "steel",
        "tip": "parallel",
        "raw_length": f"{raw_m * 1e3:.6f} mm",
        "tip_trim": f"{trim_m * 1e3:.6f} mm",
        "cut_length": f"{length_m * 1e3:.6f} mm",
        "cut_mass": f"{cut * 1e3:.9f} g",
        "cut_balance_from_tip": f"{balance * 1e3:.9f} mm",
        "tip_density": f"{whole(density, 0.0, trim_m) / trim_m * 1e3:.9f} g/m",
        "butt_density": f"{whole(density, butt_m, raw_m) / (raw_m - butt_m) * 1e3:.9f} g/m",
    }
    ticket, findings = read_ticket({"ticket": {"id": "T-1", "kind": "iron", "hand": "right"}, "shaft": shaft})
    assert ticket is not None, findings
    ours = prior_from(ticket).club.shaft
    theirs = whole(density, 0.0, raw_m)
    for quantity, a, b, unit in (
        ("mass of the raw blank from the cut one", theirs / GRAM, float(ours.mass_kg) / GRAM, "g"),
        (
            "its balance point from the tip",
            whole(lambda at_m: at_m * density(at_m), 0.0, raw_m) / theirs / IN,
            float(ours.balance_from_tip_m) / IN,
            "in",
        ),
    ):
        published(quantity=quantity, source=QUAD, theirs=a, ours=b, tolerance=1e-6, unit=unit, standing="library")
