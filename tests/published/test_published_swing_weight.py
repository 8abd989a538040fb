"""Swing weight, total weight and balance point against published clubs, scale definitions and worked clubs."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
import pytest

from clubwright.club.balance_point import balance_point_m
from clubwright.club.build import GRAM_INCH_SCALE, INCH_OUNCE_SCALE, Build, Conventions
from clubwright.club.moi import moi_kg_m2
from clubwright.club.parts import Weight
from clubwright.club.swing_weight import (
    OLDER_FULCRUM_M,
    moment_about_kg_m,
    points_from_moment,
    swing_weight_12in_oz,
    swing_weight_points,
)
from clubwright.club.total_weight import total_weight_kg
from worked_clubs import GRAM, IN, IRON, WEDGE, WORKED, build_of, club_of

Published = Callable[..., None]

OKRASA = "golf.okrasa.eu, swing weight page"
BY_HAND = "independent numpy sum over the parts, places from the cap"
OZ_IN = 0.028349523125 * IN
GRAM_IN = GRAM * IN
D0 = 30
"""Points above A0: ten to a letter."""


@pytest.mark.parametrize(
    ("grams", "inches", "points"), [(460, 27.21, D0 + 0.6), (438, 27.66, D0 - 1.3), (418, 28.11, D0 - 3.0)]
)
def test_published_clubs(published: Published, grams: float, inches: float, points: float) -> None:
    """Weak: the page does not say whether its swing weights were read or computed."""
    build = _club_weighing(grams * GRAM, inches * IN)
    published(
        quantity=f"swing weight above A0 of a club of {grams} g that balances at {inches} in",
        source="table of three clubs, matching page on MOI; weak, may itself be computed",
        theirs=points,
        ours=swing_weight_points(build),
        tolerance=0.15,
        unit="points",
        standing="seen",
    )
    assert total_weight_kg(build) == pytest.approx(grams * GRAM, abs=1e-12)
    assert balance_point_m(build) == pytest.approx(inches * IN, abs=1e-12)


def _club_weighing(mass_kg: float, balance_m: float) -> Build:
    """The worked wedge with the one head that gives this mass and balance."""
    build = build_of(WEDGE)
    bare = msgspec.structs.replace(
        build, club=msgspec.structs.replace(build.club, head=msgspec.structs.replace(build.club.head, mass_kg=0.0))
    )
    rest = total_weight_kg(bare)
    head = mass_kg - rest
    head_at = (mass_kg * balance_m - rest * balance_point_m(bare)) / head
    changed = msgspec.structs.replace(build.club.head, mass_kg=head, cg_from_ground_m=WEDGE.length * IN - head_at)
    return msgspec.structs.replace(build, club=msgspec.structs.replace(build.club, head=changed))


def test_fulcrums(published: Published) -> None:
    for quantity, theirs, ours in (
        ("fulcrum of the 14-inch scale from the butt", 14.0, INCH_OUNCE_SCALE.fulcrum_m / IN),
        ("fulcrum of the older scale from the butt", 12.0, OLDER_FULCRUM_M / IN),
    ):
        published(
            quantity=quantity, source=OKRASA, theirs=theirs, ours=ours, tolerance=1e-12, unit="in", standing="seen"
        )


def test_size_of_a_point(published: Published) -> None:
    published(
        quantity="moment of one point, gram-inch scale",
        source="tutelman.com, golf club design notes, swingwt3",
        theirs=50.0,
        ours=GRAM_INCH_SCALE.point_kg_m / GRAM_IN,
        tolerance=1e-9,
        unit="g in",
        standing="seen",
    )
    published(
        quantity="moment of one point, inch-ounce scale",
        source="widely quoted; by hand 1.75 x 0.028349523125 x 0.0254 x 9.80665 N m",
        theirs=0.01235772,
        ours=INCH_OUNCE_SCALE.point_kg_m * 9.80665,
        tolerance=1e-7,
        unit="N m",
        standing="memory",
    )


def test_moment_at_d0(published: Published) -> None:
    at_d0 = INCH_OUNCE_SCALE.zero_kg_m + D0 * INCH_OUNCE_SCALE.point_kg_m
    for quantity, theirs, ours, tolerance, unit in (
        ("moment at D0, inch-ounce scale", 213.5, at_d0 / OZ_IN, 0.1, "in oz"),
        ("moment at D0, inch-ounce scale", 1.5076413, at_d0 * 9.80665, 1e-3, "N m"),
        ("mass at 14 in that balances D0", 432.33, at_d0 / (14 * IN) / GRAM, 0.01, "g"),
        ("moment at D0, gram-inch scale", 6050.0, (GRAM_INCH_SCALE.zero_kg_m + D0 * 50 * GRAM_IN) / GRAM_IN, 1, "g in"),
    ):
        published(
            quantity=quantity,
            source="widely quoted 213.5 in oz and 6050 g in; conversions by hand",
            theirs=theirs,
            ours=ours,
            tolerance=tolerance,
            unit=unit,
            standing="memory",
        )


@pytest.mark.parametrize(("code", "points", "theirs"), [("A0", 0, -0.2877), ("D0", D0, -0.0529), ("G9", 69, 0.2524)])
def test_two_definitions_of_the_point(published: Published, code: str, points: float, theirs: float) -> None:
    """What the gram-inch scale calls `code`, read on the inch-ounce scale, less `code`."""
    moment = GRAM_INCH_SCALE.zero_kg_m + points * GRAM_INCH_SCALE.point_kg_m
    published(
        quantity=f"{code} of the gram-inch scale on the inch-ounce scale, less {code}",
        source="161 + 1.75 p in oz against 4550 + 50 p g in, by hand",
        theirs=theirs,
        ours=points_from_moment(moment, INCH_OUNCE_SCALE) - points,
        tolerance=0.0005,
        unit="points",
        standing="derived",
    )


@pytest.mark.parametrize(
    ("name", "grams", "balance_in", "moment_gin", "points", "older_oz"),
    [
        ("wedge 35.5 in", 460.35, 27.711, 6311.8, D0 + 5.22, 255.1),
        ("5-iron 38 in", 423.42, 28.526, 6150.7, D0 + 1.98, 246.83),
        ("driver 45 in", 316.35, 33.779, 6257.0, D0 + 4.12, 243.0),
    ],
)
def test_worked_clubs(
    published: Published, name: str, grams: float, balance_in: float, moment_gin: float, points: float, older_oz: float
) -> None:
    build = build_of(WORKED[name])
    rows = (
        ("total weight", grams, total_weight_kg(build) / GRAM, 0.01, "g"),
        ("balance point", balance_in, balance_point_m(build) / IN, 0.001, "in"),
        ("moment about 14 in", moment_gin, moment_about_kg_m(build, 14 * IN) / GRAM_IN, 0.5, "g in"),
        ("swing weight above A0", points, swing_weight_points(build), 0.02, "points"),
        ("12-inch swing weight", older_oz, swing_weight_12in_oz(build), 0.06, "in oz"),
    )
    for quantity, theirs, ours, tolerance, unit in rows:
        published(
            quantity=f"{quantity}, worked {name}",
            source=BY_HAND,
            theirs=theirs,
            ours=ours,
            tolerance=tolerance,
            unit=unit,
            standing="derived",
        )


@pytest.mark.parametrize("letter_points", [D0, D0 + 1, D0 + 2])
def test_usual_band_of_the_older_scale(published_band: Published, letter_points: float) -> None:
    """D0 to D2, the usual band for men, is 240 to 250 in oz on the older scale: the 38 in iron, its head made to fit."""
    build = build_of(IRON)
    lever_m = (IRON.head_at - 14) * IN
    missing = (letter_points - swing_weight_points(build)) * INCH_OUNCE_SCALE.point_kg_m / lever_m
    head = msgspec.structs.replace(build.club.head, mass_kg=build.club.head.mass_kg + missing)
    made = msgspec.structs.replace(build, club=msgspec.structs.replace(build.club, head=head))
    assert swing_weight_points(made) == pytest.approx(letter_points, abs=1e-9)
    published_band(
        quantity=f"12-inch swing weight of a 38 in iron at D{letter_points - D0}",
        source=OKRASA,
        low=240.0,
        high=250.0,
        ours=swing_weight_12in_oz(made),
        digits=1.0,
        unit="in oz",
        standing="seen",
    )


@pytest.mark.parametrize("name", WORKED)
def test_identity_of_the_two_scales(published: Published, name: str) -> None:
    build = build_of(WORKED[name])
    published(
        quantity=f"12-inch reading less 14-inch moment, over the total weight in oz, {name}",
        source="lever arms differ by 2 in, by hand",
        theirs=2.0,
        ours=(swing_weight_12in_oz(build) - moment_about_kg_m(build, 14 * IN) / OZ_IN)
        / (total_weight_kg(build) / 0.028349523125),
        tolerance=1e-9,
        unit="in",
        standing="derived",
    )


def test_mass_at_the_fulcrum(published: Published) -> None:
    weight = Weight(name="near the fulcrum", mass_kg=22 * GRAM, seat="butt", place_m=0.355)
    club = club_of(IRON, weights=(weight,))
    without, fitted = Build(club=club, fitted=(0,)), Build(club=club, fitted=(1,))
    paper = "22 g at 355 mm from the butt: MDPI Proceedings 2020 49(1) 81; effect by hand"
    for quantity, theirs, ours, tolerance, unit in (
        ("swing weight", -0.01, swing_weight_points(fitted) - swing_weight_points(without), 0.02, "points"),
        ("moment of inertia", 27.7, (moi_kg_m2(fitted) - moi_kg_m2(without)) * 1e4, 0.3, "kg cm2"),
    ):
        published(
            quantity=f"{quantity} that 22 g near the fulcrum adds",
            source=paper,
            theirs=theirs,
            ours=ours,
            tolerance=tolerance,
            unit=unit,
            standing="derived",
        )


def test_scale_in_the_conventions_is_used() -> None:
    build = build_of(IRON)
    other = msgspec.structs.replace(build, conventions=Conventions(scale=GRAM_INCH_SCALE))
    assert swing_weight_points(other) == pytest.approx((6150.7 - 4550) / 50, abs=0.011)
    assert swing_weight_points(other) != pytest.approx(swing_weight_points(build), abs=1e-3)
