"""The letter scale, below A0 and past G9 too."""

from __future__ import annotations

from fractions import Fraction

import pytest

from clubwright.errors import InputError
from clubwright.notation import parse, render


@pytest.mark.parametrize(
    ("typed", "points"),
    [
        ("A0", "0"),
        ("D4", "34"),
        ("d4", "34"),
        ("D 4", "34"),
        ("D4.5", "34.5"),
        ("D4 1/4", "34.25"),
        ("D4½", "34.5"),
        ("D4+", "34.5"),
        ("D9+", "39.5"),
        ("D9.9", "39.9"),
        ("G9", "69"),
        ("G10.5", "70.5"),
        ("G12", "72"),
        ("A0 - 2.5", "-2.5"),
        ("A0-2.5", "-2.5"),
        ("a0 − 1/4", "-0.25"),
    ],
)
def test_points_above_a0(typed: str, points: str) -> None:
    understood = parse("swing_weight", typed)
    assert understood.exact == Fraction(points)
    assert understood.value == float(Fraction(points))


def test_the_echo_names_what_a_plus_means_and_rounds_nothing() -> None:
    assert parse("swing_weight", "D4+").echo == "D4+ = D4.5 (the plus is 1/2 point)"
    assert parse("swing_weight", "D4 1/4").echo == "D4 1/4 = D4.25"
    assert parse("swing_weight", "D4").echo == "D4"


@pytest.mark.parametrize(
    ("typed", "what", "mend"),
    [
        ("D35", "more than ten points under one letter", "D3.5"),
        ("D10", "more than ten points under one letter", "D10 is E0"),
        ("D10.5", "more than ten points under one letter", "D10 is E0"),
        ("H3", "no swing weight", "D4"),
        ("D", "no swing weight", "D4"),
        ("A-2.5", "no swing weight", "A0 - 2.5"),
        ("4", "has no letter", "D4"),
        ("D4.5+", "a fraction and a plus", "D4.5"),
        ("D4-", "cannot be read", "D4"),
        ("D4-1/4", "cannot be read", "D4 1/4"),
        ("D4e0", "cannot be read", "D4"),
        ("D4 D5", "cannot be read", "D4"),
        ("D4,5", "comma", "a point in its place"),
        ("A0 - x", "cannot be read", "A0 - 2.5"),
        ("+2", "base that is not stated", "State the base"),
        ("-2 pt", "base that is not stated", "State the base"),
        ("G70", "out of range", "Check"),
        ("A0 - 101", "out of range", "Check"),
        ("DD4", "no swing weight", "D4"),
    ],
)
def test_what_is_no_swing_weight_is_refused(typed: str, what: str, mend: str) -> None:
    with pytest.raises(InputError) as refused:
        parse("swing_weight", typed)
    (finding,) = refused.value.findings
    assert what in finding.what
    assert mend in finding.mend


@pytest.mark.parametrize(("typed", "points"), [("+2", 36.0), ("-1/2 pt", 33.5), ("std", 34.0), ("D2", 32.0)])
def test_a_step_in_points_from_a_base(typed: str, points: float) -> None:
    assert parse("swing_weight", typed, base=34.0).value == points


@pytest.mark.parametrize("typed", ["D4.2 ± 0.3", "D4.2 +- 0.3 pt", "D4.2+/-0.3 points"])
def test_uncertainty_in_points(typed: str) -> None:
    understood = parse("swing_weight", typed)
    assert (understood.value, understood.sd) == (34.2, 0.3)
    assert understood.echo.endswith("D4.2 ± 0.3")


def test_a_plus_and_an_uncertainty_do_not_run_together() -> None:
    assert parse("swing_weight", "D4+-0.3").value == 34.0
    assert parse("swing_weight", "D4+ ± 0.3").value == 34.5


@pytest.mark.parametrize(
    ("points", "text"),
    [
        (34.0, "D4"),
        (34.2, "D4.2"),
        (34.25, "D4.2"),
        (34.35, "D4.4"),
        (39.96, "E0"),
        (39.94, "D9.9"),
        (-0.04, "A0"),
        (-2.5, "A0 - 2.5"),
        (69.96, "G10"),
        (72.0, "G12"),
    ],
)
def test_letters_roll_at_ten_after_rounding(points: float, text: str) -> None:
    assert render("swing_weight", points) == text


def test_rendering_with_uncertainty() -> None:
    assert render("swing_weight", 34.2, 0.3) == "D4.2 ± 0.3"
    assert render("swing_weight", 34.0, 0.02) == "D4.0 ± 0.02"
    assert render("swing_weight", 34.0, 0.0) == "D4"


def test_points() -> None:
    assert parse("points", "1/4 pt").value == 0.25
    assert parse("points", "0.5 pt").value == 0.5
    assert parse("points", "1/4 point").value == 0.25
    assert parse("points", "1/4").value == 0.25
    assert render("points", 0.25) == "0.25 pt"
    with pytest.raises(InputError):
        parse("points", "-1/4 pt")
