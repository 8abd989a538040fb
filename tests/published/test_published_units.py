"""Units and rounding, beside definitions by treaty and general-purpose libraries.

Units by pint 0.25.3 (its values come from the definitions of 1959; run apart from this project, the figures kept
here); cycles per minute by ucumvert 0.3.2 (UCUM ``/min``); rounding by Python's ``decimal``.
"""

from __future__ import annotations

from collections.abc import Callable
from decimal import ROUND_HALF_EVEN, Decimal
from math import degrees

import pytest

from clubwright.notation import length_parts, parse, render
from clubwright.notation.showing import decimal_text, exact_of

PINT = "pint 0.25.3"

UNITS = [
    ("U-inch", "length", "1 in", 1e3, 25.4, "mm", 0.0),
    ("U-oz_av", "mass", "1 oz", 1e3, 28.349523125, "g", 1e-12),
    ("U-lb_av", "mass", "1 lb", 1e3, 453.59237, "g", 1e-12),
    ("U-grain", "mass", "1 gr", 1e6, 64.79891, "mg", 1e-12),
    ("U-lb.in2", "moi", "1 lb in2", 1.0, 0.0002926396534292, "kg m2", 1e-12),
    ("U-oz.in2", "moi", "1 oz in2", 1e7, 182.89978339325, "g cm2", 1e-12),
    ("U-g.cm2", "moi", "1 g cm2", 1.0, 1e-7, "kg m2", 1e-12),
]


@pytest.mark.parametrize(("key", "kind", "typed", "per_si", "theirs", "unit", "relative"), UNITS)
def test_units(
    published: Callable[..., None],
    key: str,
    kind: str,
    typed: str,
    per_si: float,
    theirs: float,
    unit: str,
    relative: float,
) -> None:
    ours = parse(kind, typed).value * per_si
    tolerance = max(relative, 1e-15) * theirs
    published(quantity=f"{typed} ({key})", source=PINT, theirs=theirs, ours=ours, tolerance=tolerance, unit=unit)


def test_sixty_fourth_of_an_inch(published: Callable[..., None]) -> None:
    ours = parse("length", "1/64 in").value * 1e3
    published(
        quantity="1/64 in",
        source="exact arithmetic: 25.4 / 64",
        theirs=0.396875,
        ours=ours,
        tolerance=1e-15,
        unit="mm",
        standing="derived",
    )
    assert length_parts(0.396875e-3).text == "1/64 in"


def test_cycle_a_minute(published: Callable[..., None]) -> None:
    published(
        quantity="60 cpm",
        source="UCUM /min by ucumvert 0.3.2: 1/min = 0.016666666666666666 Hz",
        theirs=60 * 0.016666666666666666,
        ours=parse("frequency", "60 cpm").value,
        tolerance=1e-12,
        unit="Hz",
    )


@pytest.mark.parametrize(("f", "c"), [(-4, -20), (150, 65.5556), (200, 93.3333), (350, 176.6667)])
def test_fahrenheit(published: Callable[..., None], f: int, c: float) -> None:
    ours = parse("temperature", f"{f} F").value - 273.15
    published(quantity=f"{f} F", source=PINT, theirs=c, ours=ours, tolerance=1e-4, unit="C")


def test_minute_of_arc(published: Callable[..., None]) -> None:
    ours = degrees(parse("angle", "1 arcmin").value)
    published(quantity="1 arcmin", source=PINT, theirs=0.016666666666666666, ours=ours, tolerance=1e-14, unit="deg")


def test_inch_ounce_as_a_moment_of_force(published: Callable[..., None]) -> None:
    ours = parse("mass_moment", "1 in oz").value * 9.80665
    published(
        quantity="1 in oz at standard gravity",
        source=f"{PINT}, 1 ozf in",
        theirs=0.007061551814226044,
        ours=ours,
        tolerance=1e-14,
        unit="N m",
    )


def test_torque_of_one_point_and_of_d0(published: Callable[..., None]) -> None:
    derived = "first principles: inch-ounces by ounce-force and inch"
    for typed, theirs, tolerance in (("1.75 in oz", 0.01235772, 1e-7), ("213.5 in oz", 1.5076413, 1e-6)):
        published(
            quantity=f"{typed} as a torque",
            source=derived,
            theirs=theirs,
            ours=parse("mass_moment", typed).value * 9.80665,
            tolerance=tolerance,
            unit="N m",
            standing="derived",
        )


ROUNDING = [
    ("12.25", 1, "12.2"),
    ("12.35", 1, "12.4"),
    ("0.0325", 3, "0.032"),
    ("1.905", 2, "1.90"),
    ("-2.5", 0, "-2"),
]


@pytest.mark.parametrize(("typed", "places", "theirs"), ROUNDING)
def test_ties_go_to_even_by_what_was_meant(
    published: Callable[..., None], typed: str, places: int, theirs: str
) -> None:
    ours = decimal_text(exact_of(float(typed)), places)
    assert ours == theirs == str(Decimal(typed).quantize(Decimal(1).scaleb(-places), ROUND_HALF_EVEN))
    published(
        quantity=f"{typed} to {places} decimals, ties to even",
        source="Python decimal, ROUND_HALF_EVEN",
        theirs=float(theirs),
        ours=float(ours),
        tolerance=1e-12,
        standing="library",
    )


def test_a_rounded_reading_shows_the_even_digit() -> None:
    assert render("swing_weight", 12.25) == "B2.2"
    assert render("swing_weight", 12.35) == "B2.4"
