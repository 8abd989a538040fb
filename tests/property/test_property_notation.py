"""Trade notation under arbitrary text, and there and back again."""

from __future__ import annotations

from fractions import Fraction
from math import radians

from hypothesis import given
from hypothesis import strategies as st

from clubwright.errors import InputError
from clubwright.notation import KINDS, grip_core, length_parts, pair, parse, parse_difference, render
from clubwright.notation.register import REGISTER

SIGNS = "0123456789 ./-+±:½¼⅞\"'°eEaAdDgGrRmMsSuUfFwWhHinczkpt,−\u00a0²·ſ"
TYPED = st.one_of(
    st.text(max_size=90),
    st.text(alphabet=SIGNS, max_size=16),
    st.from_regex(r"\A[+-]?[0-9]{1,3}( [0-9]/[0-9])? ?(in|mm|g|deg|cpm|F|U|S|pt|h)?( ?± ?[0-9.]{1,4})?\Z"),
)

ROUND_TRIPS: dict[str, tuple[float, float, float]] = {
    # kind: lowest, highest, half the resolution of the rendering (all SI); a 64th stands for what rounds like it
    "length": (-2.4, 2.4, 0.001 * 0.0254),
    "diameter": (0.0, 0.1, 0.0005 * 0.0254),
    "grip_core": (0.0103, 0.0199, 0.0005 * 0.0254),
    "angle": (-1.57, 1.57, radians(0.005)),
    "loft": (0.0, 1.57, radians(0.005)),
    "lie": (0.6, 1.57, radians(0.005)),
    "bounce": (-0.34, 0.78, radians(0.005)),
    "mass": (0.0, 4.99, 0.00005),
    "linear_density": (0.0, 1.99, 0.0005e-3 / 0.0254),
    "density": (2.0, 22_000.0, 0.5),
    "area_density": (0.0, 19.0, 0.00005),
    "moi": (0.0, 19.9, 0.05e-4),
    "mass_moment": (-4.9, 4.9, 0.0005 * 0.000721),
    "swing_weight": (-99.0, 119.0, 0.05),
    "points": (0.0, 100.0, 0.005),
    "frequency": (0.34, 33.3, 0.05 / 60),
    "stiffness": (0.02, 999.0, 0.005),
    "stiffness_slope": (1.0, 999.0, 0.05),
    "modulus": (1.1e9, 9.9e11, 0.005e9),
    "temperature": (234.0, 573.0, 0.05),
    "duration": (0.0, 3e7, 0.5),
    "speed": (0.0, 199.0, 0.05 * 0.44704),
    "ratio": (0.01, 999.0, 0.00005),
    "number": (-1e6, 1e6, 0.5e-6),
    "count": (0.0, 99_999.0, 0.5),
}


@given(st.sampled_from(KINDS), TYPED, st.sampled_from([None, 0.9, 35.0]), st.sampled_from([None, "in", "g", "mm", ""]))
def test_any_text_is_understood_or_refused_with_a_finding(
    kind: str, text: str, base: float | None, unit: str | None
) -> None:
    for read in (
        lambda: [parse(kind, text, where="here", base=base, default_unit=unit)],
        lambda: [parse_difference(kind, text, where="here", default_unit=unit)],
        lambda: pair(text, where="here"),
        lambda: [grip_core(text, where="here")],
    ):
        try:
            understood = read()
        except InputError as refused:
            (finding,) = refused.findings
            assert finding.where == "here"
            assert finding.what
            assert finding.mend
        else:
            assert all(one.typed == text and one.echo for one in understood)


@given(st.data())
def test_what_is_rendered_is_read_back_within_its_resolution(data: st.DataObject) -> None:
    kind = data.draw(st.sampled_from(sorted(ROUND_TRIPS)))
    low, high, half_step = ROUND_TRIPS[kind]
    value = data.draw(st.floats(low, high))
    understood = parse(kind, render(kind, value))
    assert abs(understood.value - value) <= half_step * (1 + 1e-9) + 1e-12
    assert render(kind, understood.value) == render(kind, value)


@given(st.data())
def test_a_rendered_uncertainty_is_read_back(data: st.DataObject) -> None:
    kind = data.draw(st.sampled_from(sorted(name for name in ROUND_TRIPS if REGISTER[name].spread)))
    low, high, half_step = ROUND_TRIPS[kind]
    value, sd = data.draw(st.floats(low, high)), data.draw(st.floats(half_step / 1000, (high - low) / 2))
    understood = parse(kind, render(kind, value, sd))
    assert understood.sd is not None
    # Never rounded to nothing: one digit is kept however small it is.
    assert abs(understood.sd - sd) <= max(half_step * 1.001, sd / 3)
    assert abs(understood.value - value) <= half_step * (1 + 1e-9) + 1e-12


def test_every_kind_but_the_pair_makes_the_round_trip() -> None:
    assert set(ROUND_TRIPS) == set(KINDS) - {"loft_bounce"}


@given(st.integers(-6000, 6000))
def test_every_64th_of_an_inch_comes_back_exactly(sixty_fourths: int) -> None:
    exact_m = Fraction(sixty_fourths, 64) * Fraction(254, 10_000)
    text = render("length", float(exact_m))
    assert "." not in text
    understood = parse("length", text)
    assert understood.exact == exact_m
    parts = length_parts(understood.value)
    assert parts.remainder_m == 0
    signed = Fraction(parts.whole) + Fraction(parts.numerator, parts.denominator)
    assert (-signed if parts.negative else signed) == Fraction(sixty_fourths, 64)


@given(st.floats(-2.5, 2.5), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_mark_and_remainder_add_up_to_the_length(value_m: float, denominator: int) -> None:
    parts = length_parts(value_m, denominator)
    mark_in = parts.whole + parts.numerator / parts.denominator
    mark_m = (-mark_in if parts.negative else mark_in) * 0.0254
    assert abs(mark_m + parts.remainder_m - value_m) < 1e-12
    assert abs(parts.remainder_m) <= 0.0254 / denominator / 2 + 1e-15


@given(st.integers(0, 69), st.integers(0, 9))
def test_every_tenth_of_a_point_from_a0_to_g9_makes_the_round_trip(point: int, tenth: int) -> None:
    value = point + tenth / 10
    assert parse("swing_weight", render("swing_weight", value)).value == value
