"""Lengths as they are typed at the bench, and a length found on a rule."""

from __future__ import annotations

from fractions import Fraction

import pytest

from clubwright.errors import InputError
from clubwright.notation import length_in_full, length_parts, parse, render

INCH_M = Fraction(254, 10_000)
BASE_M = 0.9017


@pytest.mark.parametrize(
    "typed",
    [
        "35 1/2 in",
        '35-1/2"',
        "35½",
        "35 ½",
        "35½ in",
        '35 1/2"',
        "35 1/2”",
        "35 1/2",
        "35-1/2",
        "35 1⁄2 in",
        "35.5 in",
        "35.5 IN",
        "901.7 mm",
        "90.17 cm",
        "0.9017 m",
        "2 ft 11 1/2 in",
        "  35   1/2\u00a0in \n",
    ],
)
def test_every_way_to_write_one_length_is_the_same_length_exactly(typed: str) -> None:
    understood = parse("length", typed)
    assert understood.exact == Fraction(9017, 10_000)
    assert understood.value == 0.9017
    assert understood.echo == "35 1/2 in = 901.70 mm"
    assert understood.typed == typed


@pytest.mark.parametrize(
    ("sign", "part"),
    [("½", "1/2"), ("¼", "1/4"), ("¾", "3/4"), ("⅛", "1/8"), ("⅜", "3/8"), ("⅝", "5/8"), ("⅞", "7/8")],
)
def test_vulgar_signs_are_their_fractions(sign: str, part: str) -> None:
    assert parse("length", sign).exact == Fraction(part) * INCH_M
    assert parse("length", f"35{sign}").exact == (35 + Fraction(part)) * INCH_M


@pytest.mark.parametrize(
    ("typed", "inches"),
    [
        ("+1/4", "35.75"),
        ("-1/4 in", "35.25"),
        ("−1/4 in", "35.25"),
        ("std", "35.5"),
        ("STD", "35.5"),
        ("std-1/32", "35.46875"),
        ("std + 1/8 in", "35.625"),
        ("+6.35 mm", "35.75"),
        ("35 in", "35"),
        ("¾", "0.75"),
    ],
)
def test_a_signed_length_is_counted_from_the_base_and_an_unsigned_one_is_not(typed: str, inches: str) -> None:
    assert parse("length", typed, base=BASE_M).exact == Fraction(inches) * INCH_M


def test_a_relative_length_echoes_what_it_comes_to() -> None:
    assert parse("length", "+1/4", base=BASE_M).echo == "+1/4 = 35 3/4 in = 908.05 mm (from the base)"


def test_a_negative_place_needs_its_unit_and_no_base() -> None:
    assert parse("length", "-8 mm").exact == Fraction(-8, 1000)
    assert parse("length", "-35-1/2 in").exact == Fraction(-9017, 10_000)


@pytest.mark.parametrize(
    ("typed", "what", "mend"),
    [
        ("37", "has no unit", "901.7 mm"),
        (
            "35,5 in",
            "has a comma",
            "Write a point in its place. Write it with its unit, such as 35 1/2 in, 35.5 in",
        ),
        ("NaN", "not a number", "35 1/2 in"),
        ("-inf mm", "does not start with a number", "35 1/2 in"),
        ("inf", "not a number", "35 1/2 in"),
        ("", "nothing is written", "35 1/2 in"),
        ("   ", "nothing is written", "35 1/2 in"),
        ("in", "does not start with a number", "35 1/2 in"),
        ("35 1/2 in please", "no unit", "35 1/2 in"),
        ("35 36 in", "more than one number", "one value only"),
        ("35.5.2 in", "more than one number", "one value only"),
        ("35 -1/2 in", "more than one number", "one value only"),
        ("35. in", "no unit", "35 1/2 in"),
        ("35 3/2 in", "one whole or more", "35 1/2"),
        ("35 2/2 in", "one whole or more", "35 1/2"),
        ("41/2", "one whole or more", "35 1/2"),
        ("3/2 in", "one whole or more", "35 1/2"),
        ("1/26 in", "on no rule", "11/16"),
        ("35 1/3", "on no rule", "11/16"),
        ("35\n1/2 in", "line break", "Type it anew"),
        ("35 in\x00", "cannot be seen", "Type it anew"),
        ("35 1/0 in", "divides by zero", "1/2"),
        ("+1/4", "base that is not stated", "State the base"),
        ("+5 mm", "base that is not stated", "State the base"),
        ("std", "base that is not stated", "State the base"),
        ("--1 in", "two signs", "35 1/2 in"),
        ("3 m", "out of range", "Check the unit"),
        ("-3 m", "out of range", "Check the unit"),
        ("35 g", "no unit", "35 1/2 in"),
        ("2 ft 13 in", "overlap", "largest first"),
        ("11 in 2 ft", "overlap", "largest first"),
        ("2.5 ft 1 in", "only the last part", "35 1/2 in"),
        ("2 ft 11", "no unit", "35 1/2 in"),
        ("٣٥ in", "does not start with a number", "35 1/2 in"),
        ("9" * 200, "too long", "one value only"),
    ],
)
def test_what_is_not_a_length_is_refused_with_place_reason_and_mend(typed: str, what: str, mend: str) -> None:
    with pytest.raises(InputError) as refused:
        parse("length", typed, where="ticket.toml [target] length")
    (finding,) = refused.value.findings
    assert finding.where == "ticket.toml [target] length"
    assert what in finding.what
    assert mend in finding.mend


@pytest.mark.parametrize("typed", ["+1", "std 4", "std+", "+35 1/2", "std1/4"])
def test_what_a_base_does_not_make_clear_is_refused(typed: str) -> None:
    with pytest.raises(InputError):
        parse("length", typed, base=BASE_M)


def test_a_unit_said_by_the_place_serves_a_bare_decimal_but_never_a_vulgar_fraction() -> None:
    assert parse("length", "37", default_unit="in").exact == 37 * INCH_M
    assert parse("length", "37", default_unit="cm").exact == Fraction(37, 100)
    assert parse("length", "3 1/2", default_unit="mm").exact == Fraction(7, 2) * INCH_M
    assert parse("length", "37 mm", default_unit="in").exact == Fraction(37, 1000)
    with pytest.raises(InputError):
        parse("length", "37", default_unit="g")


@pytest.mark.parametrize(
    ("typed", "sd_m"),
    [
        ("35 1/2 in ± 1/32", Fraction(1, 32) * INCH_M),
        ("35½ ± 1/32", Fraction(1, 32) * INCH_M),
        ("35 1/2 in +- 0.5 mm", Fraction(1, 2000)),
        ("901.7 mm +/- 0.5", Fraction(1, 2000)),
        ("901.7 mm ± 1/32 in", Fraction(1, 32) * INCH_M),
        ("2 ft 11 1/2 in ± 1/32", Fraction(1, 32) * INCH_M),
    ],
)
def test_the_uncertainty_has_its_own_unit_or_the_values(typed: str, sd_m: Fraction) -> None:
    understood = parse("length", typed)
    assert understood.value == 0.9017
    assert understood.sd == float(sd_m)


@pytest.mark.parametrize("behind", ["0", "-1/32", "+1/32", "", "1/32 ± 1/64", "nan", "1/32 g", "9 m", "3 x"])
def test_a_width_that_is_none_is_refused(behind: str) -> None:
    with pytest.raises(InputError):
        parse("length", f"35 1/2 in ± {behind}")


def test_nothing_before_the_width_is_refused() -> None:
    with pytest.raises(InputError, match="nothing before"):
        parse("length", "± 0.3 in")


def test_the_echo_does_not_round_what_was_typed() -> None:
    assert parse("length", "35.484 in").echo.startswith("35.484 in")
    assert parse("length", "35 31/64 in").echo.startswith("35 31/64 in")


def test_parts_give_mark_remainder_and_both_readings() -> None:
    parts = length_parts(34.01 * 0.0254)
    assert (parts.whole, parts.numerator, parts.denominator, parts.negative) == (34, 1, 64, False)
    assert parts.text == "34 1/64 in"
    assert parts.remainder_m == pytest.approx((34.01 - 34.015625) * 0.0254, abs=1e-12)
    assert parts.decimal_in == pytest.approx(34.01, abs=1e-12)
    assert parts.millimetres == pytest.approx(863.854, abs=1e-9)


@pytest.mark.parametrize(
    ("inches", "text"),
    [(0, "0 in"), (0.25, "1/4 in"), (-0.25, "-1/4 in"), (-1.5, "-1 1/2 in"), (35, "35 in"), (35.999, "36 in")],
)
def test_marks_are_in_lowest_terms_and_carry_their_sign(inches: float, text: str) -> None:
    parts = length_parts(inches * 0.0254)
    assert parts.text == text
    assert parts.negative is (inches < 0)


def test_a_coarser_rule_can_be_asked_for() -> None:
    assert length_parts(35.53125 * 0.0254, 16).text == "35 1/2 in"


@pytest.mark.parametrize(
    ("inches", "text"),
    [
        (34.015625, "34 1/64 in (34.016 in, 864.00 mm)"),
        (34.01, "34 1/64 in - 0.006 in (34.010 in, 863.85 mm)"),
        (34.02, "34 1/64 in + 0.004 in (34.020 in, 864.11 mm)"),
        (-0.25, "-1/4 in (-0.250 in, -6.35 mm)"),
    ],
)
def test_in_full_shows_what_lies_beyond_the_mark(inches: float, text: str) -> None:
    assert length_in_full(inches * 0.0254) == text


def test_a_length_off_the_marks_is_shown_in_thousandths() -> None:
    assert render("length", 35.484375 * 0.0254) == "35 31/64 in"
    assert render("length", 35.48 * 0.0254) == "35.480 in"
    assert render("length", 0.004778805275849507) == render("length", 0.188 * 0.0254) == "3/16 in"
    assert render("length", 0.9017, 0.0005) == "35 1/2 in ± 0.020 in"


def test_diameters_keep_their_thousandths() -> None:
    assert parse("diameter", ".600 in").exact == Fraction(1524, 100_000)
    assert parse("diameter", '0.600"').exact == Fraction(1524, 100_000)
    assert parse("diameter", "15.2 mm").value == 0.0152
    assert parse("diameter", ".600 in").echo == "0.600 in = 15.24 mm"
    assert parse("diameter", "+1/64", base=0.9 * 0.0254).value == pytest.approx(0.915625 * 0.0254, abs=1e-15)
    assert render("diameter", 0.9 * 0.0254) == "0.900 in"
    for typed in (".600", "-.600 in", "6 in"):
        with pytest.raises(InputError):
            parse("diameter", typed)
