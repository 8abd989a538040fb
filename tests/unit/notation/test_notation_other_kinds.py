"""Masses, densities, temperatures, times, ratios, grips and the collector."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from clubwright.errors import InputError
from clubwright.notation import KINDS, Collector, grip_core, parse, parse_difference, render
from clubwright.notation.ranges import LARGEST_STEPS, RANGES
from clubwright.notation.register import REGISTER

POUND_KG = Fraction("0.45359237")


@pytest.mark.parametrize(
    ("kind", "typed", "si"),
    [
        ("mass", "299.4 g", "0.2994"),
        ("mass", "0.2994 kg", "0.2994"),
        ("mass", "1 lb", POUND_KG),
        ("mass", "10 1/2 oz", POUND_KG * Fraction(21, 32)),
        ("mass", "7000 gr", POUND_KG),
        ("frequency", "255 cpm", "4.25"),
        ("frequency", "4.25 Hz", "4.25"),
        ("temperature", "174 C", "447.15"),
        ("temperature", "174 °C", "447.15"),
        ("temperature", "-20 C", "253.15"),
        ("temperature", "32 F", "273.15"),
        ("temperature", "-40 F", "233.15"),
        ("linear_density", "141 g/m", "0.141"),
        ("linear_density", "1.4 g/cm", "0.14"),
        ("linear_density", "2.54 g/in", "0.1"),
        ("density", "1.16 g/cm3", "1160"),
        ("density", "1.16 g/ml", "1160"),
        ("density", "1160 kg/m3", "1160"),
        ("moi", "2750 kg cm2", "0.275"),
        ("moi", "2750 kg·cm²", "0.275"),
        ("moi", "0.275 kg m2", "0.275"),
        ("moi", "1e6 g in2", "0.64516"),
        ("duration", "2 3/4 min", "165"),
        ("duration", "24 h", "86400"),
        ("duration", "2 ms", "0.002"),
        ("duration", "90 s", "90"),
        ("duration", "1 h 30 min", "5400"),
        ("duration", "1 d 2 h 3 min 4 s", "93784"),
        ("mass_moment", "50 g in", "0.00127"),
        ("mass_moment", "50 g·in", "0.00127"),
        ("mass_moment", "1.75 in oz", POUND_KG / 16 * Fraction(7, 4) * Fraction("0.0254")),
        ("mass_moment", "1.75 oz-in", POUND_KG / 16 * Fraction(7, 4) * Fraction("0.0254")),
        ("area_density", "140 g/m2", "0.14"),
        ("ratio", "2:1", "2"),
        ("ratio", "100:44", Fraction(100, 44)),
        ("ratio", "100 : 44", Fraction(100, 44)),
        ("count", "3", "3"),
        ("number", "-1.25", "-1.25"),
        ("number", "3/4", "0.75"),
        ("speed", "100 mph", "44.704"),
        ("speed", "45 m/s", "45"),
        ("stiffness", "28.8 N m2", "28.8"),
        ("stiffness", "28.8 N·m²", "28.8"),
        ("stiffness", "28800000 N mm2", "28.8"),
        # pound-force 4.4482216152605 N: NIST SP 811, appendix B
        ("stiffness", "10000 lbf in2", Fraction("44482.216152605") * Fraction("0.0254") ** 2),
        ("stiffness_slope", "0.09 N m2/mm", "90"),
        ("stiffness_slope", "90 N m2/m", "90"),
        ("modulus", "205 GPa", 205 * 10**9),
        ("modulus", "30 Msi", 30 * 10**6 * Fraction("4.4482216152605") / Fraction("0.0254") ** 2),
    ],
)
def test_values_are_exact(kind: str, typed: str, si: str | Fraction) -> None:
    understood = parse(kind, typed)
    assert understood.exact == Fraction(si)
    assert understood.value == float(Fraction(si))


@pytest.mark.parametrize(
    ("kind", "typed"),
    [
        ("mass", "300"),
        ("mass", "-3 g"),
        ("mass", "300 mg"),
        ("mass", "6 kg"),
        ("mass", "+3 g"),
        ("mass", "std"),
        ("frequency", "255"),
        ("frequency", "255 Hz"),
        ("frequency", "4.25 cpm"),
        ("frequency", "250 cycle/min"),
        ("temperature", "174"),
        ("temperature", "345 C"),
        ("linear_density", "3.6"),
        ("linear_density", "3.6 g"),
        ("density", "1.16"),
        ("moi", "2750"),
        ("moi", "2750 kg cm"),
        ("duration", "1:30 h"),
        ("duration", "1:30"),
        ("duration", "90"),
        ("duration", "1 h 90 min"),
        ("duration", "30 min 1 h"),
        ("duration", "1.5 h 10 min"),
        ("mass_moment", "50 g"),
        ("mass_moment", "50 in"),
        ("ratio", "2"),
        ("ratio", "2:0"),
        ("ratio", "2:1:1"),
        ("ratio", "2:1 by volume"),
        ("ratio", "2:1 ± 0.1"),
        ("count", "-1"),
        ("count", "2.5"),
        ("count", "3 g"),
        ("count", "3 ± 1"),
        ("number", "1.25 g"),
        ("number", "1e99"),
        ("number", "1e999"),
        ("speed", "100"),
        ("speed", "1000 mph"),
        ("stiffness", "28.8"),
        ("stiffness", "28.8 N m"),
        ("stiffness", "28.8 kg m2"),
        ("stiffness", "0 N m2"),
        ("stiffness_slope", "0.09 N m2"),
        ("stiffness_slope", "90 N m2/mm"),
        ("modulus", "205"),
        ("modulus", "205 kg"),
        ("modulus", "205 Pa"),
    ],
)
def test_what_is_ambiguous_or_impossible_is_refused(kind: str, typed: str) -> None:
    with pytest.raises(InputError) as refused:
        parse(kind, typed, where="sheet row 4")
    (finding,) = refused.value.findings
    assert finding.where == "sheet row 4"
    assert finding.what
    assert finding.mend


def test_uncertainty_of_a_mass_and_of_a_temperature_carry_no_zero_of_the_scale() -> None:
    assert parse("mass", "300 g ± 0.3").sd == 0.0003
    assert parse("mass", "10 oz ± 1 g").sd == 0.001
    assert parse("temperature", "345 F ± 9").sd == 5.0
    assert parse("temperature", "174 C ± 2 C").sd == 2.0


@pytest.mark.parametrize(
    ("kind", "value", "sd", "text"),
    [
        ("mass", 0.2994, None, "299.4 g"),
        ("mass", 0.2994, 0.0003, "299.4 g ± 0.3 g"),
        ("mass", 0.2994, 0.00001, "299.4 g ± 0.01 g"),
        ("mass", 0.00225, None, "2.25 g"),
        ("frequency", 4.25, None, "255.0 cpm"),
        ("temperature", 447.15, 2.0, "174.0 C ± 2.0 C"),
        ("linear_density", 0.1, None, "2.54 g/in"),
        ("density", 1160.0, None, "1.16 g/cm3"),
        ("moi", 0.275, None, "2750.0 kg cm2"),
        ("duration", 5400.0, None, "1 h 30 min"),
        ("duration", 12.5, None, "12.5 s"),
        ("duration", 59.9997, None, "1 min"),
        ("duration", 1.6824, 0.002, "1.682 s ± 0.002 s"),
        ("duration", 86400.0, 60.0, "24 h ± 60 s"),
        ("area_density", 0.14, None, "140.0 g/m2"),
        ("stiffness", 28.827, 0.3, "28.83 N m2 ± 0.3 N m2"),
        ("stiffness_slope", 90.0, None, "0.09 N m2/mm"),
        ("modulus", 205e9, None, "205 GPa"),
        ("ratio", 2.0, None, "2:1"),
        ("count", 3.0, None, "3"),
        ("number", 0.3, 0.1, "0.3 ± 0.1"),
        ("speed", 44.704, None, "100.0 mph"),
        ("grip_core", 0.014732, None, "0.580 in"),
    ],
)
def test_rendering(kind: str, value: float, sd: float | None, text: str) -> None:
    assert render(kind, value, sd) == text


@pytest.mark.parametrize(("value", "sd"), [(math.nan, None), (math.inf, None), (1.0, math.nan), (1.0, -0.1)])
def test_what_is_no_value_is_not_rendered(value: float, sd: float | None) -> None:
    with pytest.raises(ValueError, match="no text"):
        render("mass", value, sd)


@pytest.mark.parametrize(
    ("typed", "core_in", "shape"),
    [
        ("58", "0.58", None),
        ("M58", "0.58", None),
        ("m60", "0.60", None),
        ("M60R", "0.60", "ribbed"),
        ("60 rib", "0.60", "ribbed"),
        ("M60 ribbed", "0.60", "ribbed"),
        ("60 round", "0.60", "round"),
        (".580 in", "0.58", None),
        ("15.24 mm", "0.60", None),
    ],
)
def test_grip_cores(typed: str, core_in: str, shape: str | None) -> None:
    core = grip_core(typed)
    assert core.core_m == float(Fraction(core_in) * Fraction("0.0254"))
    assert core.shape == shape
    assert core.typed == typed


def test_a_single_letter_says_how_it_was_read() -> None:
    assert grip_core("M60R").echo == "0.600 in = 15.24 mm (R is read as ribbed)"
    assert grip_core("60 round").echo == "0.600 in = 15.24 mm (round)"


@pytest.mark.parametrize("typed", ["600", ".58", "M", "58X", "12", "99", "", "58 in", "+1/64"])
def test_what_is_no_grip_core_is_refused(typed: str) -> None:
    with pytest.raises(InputError, match="grip"):
        grip_core(typed, where="[grip] core")


@pytest.mark.parametrize(
    ("kind", "typed", "si"),
    [
        ("frequency", "1 cpm", 1 / 60),
        ("temperature", "9 F", 5.0),
        ("mass", "-0.2 g", -0.0002),
        ("length", "1/32", 0.00079375),
        ("swing_weight", "1/4 pt", 0.25),
        ("swing_weight", "1/4", 0.25),
        ("lie", "1/4 deg", math.radians(0.25)),
        ("moi", "+5 kg cm2", 0.0005),
    ],
)
def test_differences_have_no_zero_and_no_lower_bound(kind: str, typed: str, si: float) -> None:
    assert parse_difference(kind, typed).value == pytest.approx(si, rel=1e-15)


@pytest.mark.parametrize(
    ("kind", "typed"),
    [("mass", "0.2"), ("swing_weight", "D4"), ("mass", "1 g ± 1"), ("mass", "6 kg"), ("count", "1"), ("lie", "1 up")],
)
def test_what_is_no_difference_is_refused(kind: str, typed: str) -> None:
    with pytest.raises(InputError):
        parse_difference(kind, typed)


def test_the_collector_keeps_every_finding_and_raises_them_at_once() -> None:
    collector = Collector()
    good = collector.take("mass", "299.4 g", where="[head] mass")
    assert good is not None
    assert good.value == 0.2994
    assert collector.take("mass", "300", where="[shaft] mass") is None
    assert collector.take("length", 35.5, where="[target] length") is None
    assert collector.take("lie", "1 up", where="[target] lie") is None
    assert collector.take("lie", "1 up", where="[target] lie", base=math.radians(62)) is not None
    assert collector.take_difference("mass", "0.1", where="[tolerance] total_weight") is None
    collector.add("[head]", "the head has no bore", "Write bore_to_ground.")
    with pytest.raises(InputError) as refused:
        collector.raise_if_any()
    assert [finding.where for finding in refused.value.findings] == [
        "[shaft] mass",
        "[target] length",
        "[target] lie",
        "[tolerance] total_weight",
        "[head]",
    ]
    assert "quotes" in refused.value.findings[1].mend


def test_a_collector_without_findings_raises_nothing() -> None:
    collector = Collector()
    collector.take("mass", "299.4 g", where="[head] mass")
    collector.raise_if_any()
    assert collector.findings == []


def test_every_kind_has_a_range_and_every_relative_kind_a_largest_step() -> None:
    assert set(KINDS) == set(RANGES)
    assert {name for name, kind in REGISTER.items() if kind.relative} == set(LARGEST_STEPS)


def test_an_unknown_kind_is_the_callers_error() -> None:
    with pytest.raises(KeyError):
        parse("weight", "1 g")
