"""Limits of the Equipment Rules: where our check changes its answer, beside the figure of the source.

The figures below are typed from the sources, apart from the table in the package.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction

import pytest

from clubwright.conformity.equipment_limits import LIMITS, Limit, limits_for, off_vertical_from_lie_rad
from clubwright.conformity.equipment_rules import check_club, check_limit
from clubwright.errors import InputError

Published = Callable[..., None]
RULES = "Equipment Rules (The R&A and USGA), Part 2"
GUIDE = "A Guide to the Rules on Clubs and Balls (The R&A), before 2019"
DEG = math.pi / 180

# Our key, the source's figure, side, unit, resolution of a usual gauge in that unit, and the source.
CASES: dict[str, tuple[str, str, str, str, str]] = {
    "length-max": ("48", "<=", "in", "1/64", f"{RULES} s.1c; club length protocol rev. 1.1, 4.1"),
    "length-max-local": ("46", "<=", "in", "1/64", "Model Local Rule G-10, as announced (secondary)"),
    "length-min": ("18", ">=", "in", "1/64", f"{RULES} s.1c (secondary)"),
    "upright": ("10", ">=", "deg", "1/4", f"{GUIDE}, ch. 4 s.3, 1d(i)"),
    "forward": ("20", "<=", "deg", "1/4", f"{GUIDE}, ch. 4 s.3, 1d(ii)"),
    "backward": ("10", "<=", "deg", "1/4", f"{GUIDE}, ch. 4 s.3, 1d(ii)"),
    "putter-loft": ("10", "<=", "deg", "1/4", f"{RULES} s.1a"),
    "putter-negative-loft": ("-15", ">=", "deg", "1/4", f"{RULES}, interpretation 1.a(1)"),
    "straight": ("5", "<=", "in", "1/64", f"{RULES} s.2a"),
    "neck": ("5", "<=", "in", "1/64", f"{RULES} s.2c"),
    "grip-length": ("7", ">=", "in", "1/64", f"{RULES} s.3a"),
    "grip-size": ("1.75", "<=", "in", "0.001", f"{RULES} s.3b(iii)"),
    "rib": ("0.04", "<=", "in", "0.001", f"{GUIDE}, ch. 6 s.1"),
    "two-grips": ("1.5", ">=", "in", "1/64", f"{RULES} s.3c"),
    "upper-grip": ("5", ">=", "in", "1/64", f"{GUIDE}, ch. 6 s.2"),
    "groove-width": ("0.035", "<=", "in", "0.0005", f"{RULES} s.5c(i)"),
    "groove-separation": ("0.075", ">=", "in", "0.0005", f"{RULES} s.5c(i)"),
    "groove-depth": ("0.02", "<=", "in", "0.0005", f"{RULES} s.5c(i)"),
}
BY_KEY = {limit.key: limit for limit in LIMITS}


def _si(value: Fraction, unit: str) -> float:
    """Inches by way of floating metres, as a reading typed in inches arrives."""
    return float(value) * 0.0254 if unit == "in" else math.radians(float(value))


def _answer(limit: Limit, value_si: float) -> str:
    return check_limit(limit, value_si, 0.0, rule="simple", decided_by="builder").verdict.verdict


def test_every_limit_has_its_outside_check() -> None:
    assert set(CASES) == set(BY_KEY)
    assert len(BY_KEY) == len(LIMITS)
    assert all(limit.source and limit.clause and limit.seen == "2026-11-25" for limit in LIMITS)


@pytest.mark.parametrize("key", CASES)
def test_where_the_answer_changes(published: Published, key: str) -> None:
    figure, sense, unit, _, source = CASES[key]
    scale = _si(Fraction(1), unit)
    reach = 1 + abs(float(Fraction(figure)))
    allowed, refused = -reach * scale, 2 * reach * scale
    if sense == ">=":
        allowed, refused = refused, allowed
    for _ in range(70):
        middle = (allowed + refused) / 2
        if _answer(BY_KEY[key], middle) == "within":
            allowed = middle
        else:
            refused = middle
    published(
        quantity=f"{BY_KEY[key].name}: last reading within ({sense})",
        source=source,
        theirs=float(Fraction(figure)),
        ours=allowed / scale,
        tolerance=1e-9,
        unit=unit,
        standing="seen",
    )


@pytest.mark.parametrize("key", CASES)
def test_at_the_limit_and_one_step_of_the_gauge_either_side(key: str) -> None:
    figure, sense, unit, step, _ = CASES[key]
    outward = Fraction(step) * (1 if sense == "<=" else -1)
    at = Fraction(figure)
    limit = BY_KEY[key]
    assert _answer(limit, _si(at, unit)) == "within"
    assert _answer(limit, _si(at - outward, unit)) == "within"
    assert _answer(limit, _si(at + outward, unit)) == "outside"
    if unit == "in":
        millimetres = at * Fraction(254, 10)
        assert _answer(limit, float(millimetres) / 1000) == "within"
        assert _answer(limit, float(millimetres - outward * Fraction(254, 10)) / 1000) == "within"
        assert _answer(limit, float(millimetres + outward * Fraction(254, 10)) / 1000) == "outside"
        hair = Fraction(1, 1_000_000) * (1 if outward > 0 else -1)
        assert _answer(limit, float(millimetres + hair) / 1000) == "outside"


def test_the_imperial_figure_decides(published: Published) -> None:
    width_mm = 0.895
    check = check_limit(BY_KEY["groove-width"], width_mm / 1000, 0.0, rule="simple", decided_by="builder")
    published(
        quantity="groove of 0.895 mm in inches",
        source="1 in = 25.4 mm; the imperial figure takes precedence (Appendix II preamble)",
        theirs=0.035236220472440946,
        ours=check.verdict.measured / 0.0254,
        tolerance=1e-12,
        unit="in",
        standing="derived",
    )
    assert width_mm < 0.9
    assert check.verdict.verdict == "outside"
    assert _answer(BY_KEY["length-max"], 1.2192) == "within"
    assert _answer(BY_KEY["length-max"], 1.2193) == "outside"


@pytest.mark.parametrize(("widths_mm", "highest_mm"), [((0.75, 0.80, 0.75), 0.85)])
def test_abbreviated_groove_procedure(published: Published, widths_mm: tuple[float, ...], highest_mm: float) -> None:
    # The paper adds 0.05 mm to the widest of three and asks for less than the limit: a guard band of 0.05 mm.
    source = "the widest of three and 0.05 mm, by hand; Equipment Rules, Supplementary Paper B, abbreviated procedure"
    checks = [
        check_limit(BY_KEY["groove-width"], mm / 1000, 0.025 / 1000, rule="guard 2u", decided_by="builder")
        for mm in widths_mm
    ]
    worst = max(check.verdict.measured + check.verdict.guard for check in checks)
    published(
        quantity="W(+) of three widths",
        source=source,
        theirs=highest_mm,
        ours=1000 * worst,
        tolerance=1e-12,
        unit="mm",
        standing="derived",
    )
    assert all(check.verdict.verdict == "within" for check in checks)


def test_upright_limit_is_a_lie_of_eighty_degrees(published: Published) -> None:
    published(
        quantity="angle of the shaft from vertical at a lie of 80 degrees",
        source=f"{GUIDE}, ch. 4 s.3: 10 degrees; lie and it add up to a right angle",
        theirs=10.0,
        ours=off_vertical_from_lie_rad(80.0 * DEG) / DEG,
        tolerance=1e-12,
        unit="deg",
        standing="derived",
    )
    for lie_deg, answer in ((79.75, "within"), (80.0, "within"), (80.25, "outside")):
        found = check_club("putter", {"lie_rad": (lie_deg * DEG, 0.0)}, rule="simple", decided_by="builder")
        assert [check.verdict.verdict for check in found.checks] == [answer]


def test_who_decides_settles_what_an_open_answer_means() -> None:
    limit = BY_KEY["length-max"]
    just_over, just_under, far = 48.01 * 0.0254, 47.99 * 0.0254, 48.2 * 0.0254
    u_m = 0.02 * 0.0254
    for reading in (just_over, just_under):
        builder = check_limit(limit, reading, u_m, rule="guard 2u", decided_by="builder")
        official = check_limit(limit, reading, u_m, rule="guard 2u", decided_by="official")
        assert builder.verdict.verdict == official.verdict.verdict == "cannot tell"
        assert not builder.passes
        assert official.passes
        assert "Do not hand it over" in builder.sentence()
        assert "not shown to be broken" in official.sentence()
    assert not check_limit(limit, far, u_m, rule="guard 2u", decided_by="official").passes
    assert check_limit(limit, 47.9 * 0.0254, u_m, rule="guard 2u", decided_by="builder").passes


def test_scope_and_local_rule_switch() -> None:
    readings = {"rule_length_m": (47.0 * 0.0254, 0.0)}
    keys = [check.limit.key for check in check_club("driver", readings, rule="simple", decided_by="builder").checks]
    assert keys == ["length-max", "length-min"]
    local = check_club("driver", readings, rule="simple", decided_by="builder", local_rules=frozenset({"G-10"}))
    assert {check.limit.key: check.passes for check in local.checks} == {
        "length-max": True,
        "length-max-local": False,
        "length-min": True,
    }
    long_putter = {"rule_length_m": (50.0 * 0.0254, 0.0), "loft_rad": (-16 * DEG, 0.0)}
    putter = check_club("putter", long_putter, rule="simple", decided_by="builder", local_rules=frozenset({"G-10"}))
    assert {check.limit.key: check.passes for check in putter.checks} == {
        "length-min": True,
        "putter-loft": True,
        "putter-negative-loft": False,
    }
    assert "loft_rad" not in {limit.quantity for limit in limits_for("iron")}
    assert "grip-length" in {limit.key for limit in putter.not_measured}


def test_words_speak_of_the_measurement_and_never_of_a_ruling() -> None:
    readings = {"rule_length_m": (45.97 * 0.0254, 0.02 * 0.0254), "grip_length_m": (6.5 * 0.0254, 0.01 * 0.0254)}
    found = check_club("driver", readings, rule="guard 2u", decided_by="builder", local_rules=frozenset({"G-10"}))
    sentences = {check.limit.key: check.sentence() for check in found.checks}
    assert sentences["length-max"] == "length: within the limit by this measurement, at most 48 in (Part 2 s.1c)."
    assert "outside the limit by this measurement, at least 7 in" in sentences["grip-length"]
    assert "this measurement cannot tell, at most 46 in" in sentences["length-max-local"]
    assert "0.015 in or less decides" in sentences["length-max-local"]
    assert not any("conform" in sentence.lower() for sentence in sentences.values())
    assert "not a ruling" in found.notice


def test_bad_input_is_refused_all_at_once() -> None:
    with pytest.raises(InputError) as refused:
        check_club(
            "mallet",
            {"length_m": (1.0, 0.0), "loft_rad": (math.nan, 0.0), "neck_m": (0.1, -1.0)},
            rule="simple",
            decided_by="builder",
            local_rules=frozenset({"G-99"}),
        )
    places = {finding.where for finding in refused.value.findings}
    assert places == {"kind of club", "local rule", "length_m", "loft_rad", "neck_m"}
    with pytest.raises(InputError, match='"builder" or "official"'):
        check_limit(LIMITS[0], 1.0, 0.0, rule="simple", decided_by="player")  # type: ignore[arg-type]
