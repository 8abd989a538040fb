"""Units by scipy.constants, computed beside ours; rounding by Python's ``decimal``."""

from __future__ import annotations

from collections.abc import Callable
from decimal import ROUND_HALF_EVEN, Decimal
from math import degrees

import pytest
from scipy import constants

from clubwright.notation import length_parts, parse, render
from clubwright.notation.showing import decimal_text, exact_of

SCIPY = "scipy.constants"
SQUARE_INCH_M2 = constants.inch**2

UNITS = [
    ("length", "1 in", 1e3, constants.inch, "mm"),
    ("mass", "1 oz", 1e3, constants.oz, "g"),
    ("mass", "1 lb", 1e3, constants.lb, "g"),
    ("mass", "1 gr", 1e6, constants.grain, "mg"),
    ("moi", "1 lb in2", 1.0, constants.lb * SQUARE_INCH_M2, "kg m2"),
    ("moi", "1 oz in2", 1e7, constants.oz * SQUARE_INCH_M2, "g cm2"),
    ("moi", "1 g cm2", 1.0, constants.gram * constants.centi**2, "kg m2"),
]


@pytest.mark.parametrize(("kind", "typed", "per_si", "theirs_si", "unit"), UNITS)
def test_units(
    published: Callable[..., None], kind: str, typed: str, per_si: float, theirs_si: float, unit: str
) -> None:
    ours, theirs = parse(kind, typed).value * per_si, theirs_si * per_si
    published(
        quantity=typed,
        source=SCIPY,
        theirs=theirs,
        ours=ours,
        tolerance=1e-12 * theirs,
        unit=unit,
        standing="library",
    )


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
        source=f"{SCIPY}, 60 over a minute",
        theirs=60 / constants.minute,
        ours=parse("frequency", "60 cpm").value,
        tolerance=1e-12,
        unit="Hz",
        standing="library",
    )


@pytest.mark.parametrize("f", [-4, 150, 200, 350])
def test_fahrenheit(published: Callable[..., None], f: int) -> None:
    published(
        quantity=f"{f} F",
        source=f"{SCIPY}.convert_temperature",
        theirs=float(constants.convert_temperature(f, "F", "C")),
        ours=parse("temperature", f"{f} F").value - 273.15,
        tolerance=1e-9,
        unit="C",
        standing="library",
    )


def test_minute_of_arc(published: Callable[..., None]) -> None:
    published(
        quantity="1 arcmin",
        source=SCIPY,
        theirs=degrees(constants.arcmin),
        ours=degrees(parse("angle", "1 arcmin").value),
        tolerance=1e-14,
        unit="deg",
        standing="library",
    )


def test_inch_ounce_as_a_moment_of_force(published: Callable[..., None]) -> None:
    published(
        quantity="1 in oz at standard gravity",
        source=f"{SCIPY}, oz times inch times g",
        theirs=constants.oz * constants.inch * constants.g,
        ours=parse("mass_moment", "1 in oz").value * constants.g,
        tolerance=1e-14,
        unit="N m",
        standing="library",
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
