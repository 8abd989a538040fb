"""Lofts, lies and bounces: degrees, the words of the trade, and the pairs that are easily mistaken."""

from __future__ import annotations

from math import degrees, radians

import pytest

from clubwright.errors import InputError
from clubwright.notation import pair, parse, render


@pytest.mark.parametrize("typed", ["63 1/2 deg", "63.5°", "63.5 deg", "63½", "63.5", "63-1/2 degrees", "3810 arcmin"])
def test_degrees_are_the_only_unit_and_may_be_left_out(typed: str) -> None:
    for kind in ("angle", "lie"):
        understood = parse(kind, typed)
        assert degrees(understood.value) == pytest.approx(63.5, abs=1e-12)
        assert understood.exact is None


@pytest.mark.parametrize(
    ("kind", "typed", "change"),
    [
        ("lie", "1/2 up", 0.5),
        ("lie", "½ up", 0.5),
        ("lie", "2 up", 2),
        ("lie", "2up", 2),
        ("lie", "2U", 2),
        ("lie", "2u", 2),
        ("lie", "1 upright", 1),
        ("lie", "1 flat", -1),
        ("lie", "1F", -1),
        ("lie", "1 1/2 F", -1.5),
        ("lie", "half flat", -0.5),
        ("lie", "quarter up", 0.25),
        ("lie", "1° up", 1),
        ("loft", "1 strong", -1),
        ("loft", "1S", -1),
        ("loft", "1 weak", 1),
        ("loft", "1W", 1),
        ("loft", "1 deg weak", 1),
        ("lie", "std", 0),
        ("lie", "+1/2 deg", 0.5),
        ("lie", "-1/2", -0.5),
        ("bounce", "-1 deg", -1),
        ("lie", "std+1/4", 0.25),
    ],
)
def test_words_and_signs_count_from_the_base(kind: str, typed: str, change: float) -> None:
    base = 30.5
    assert degrees(parse(kind, typed, base=radians(base)).value) == pytest.approx(base + change, abs=1e-9)


def test_the_echo_says_which_way_the_word_goes() -> None:
    assert parse("loft", "1S", base=radians(48)).echo == "1S = 47.0 deg (-1 deg from the base)"
    assert parse("lie", "2U", base=radians(62)).echo == "2U = 64.0 deg (+2 deg from the base)"


@pytest.mark.parametrize(
    ("kind", "typed", "what"),
    [
        ("loft", "1 up", "up and flat are said of a lie only"),
        ("loft", "1F", "up and flat are said of a lie only"),
        ("lie", "1 strong", "strong and weak are said of a loft only"),
        ("lie", "1W", "strong and weak are said of a loft only"),
        ("angle", "1 up", "up and flat are said of a lie only"),
        ("bounce", "1 weak", "strong and weak are said of a loft only"),
        ("loft", "SS", "stepping of a shaft"),
        ("loft", "HS1", "stepping of a shaft"),
        ("loft", "1SS", "stepping of a shaft"),
        ("loft", "SS1x", "stepping of a shaft"),
        ("lie", "up", "names no amount"),
        ("lie", "some up", "names no amount"),
        ("lie", "+1 up", "names no amount"),
        ("lie", "1 in up", "cannot be read"),
        ("lie", "20 up", "large step"),
        ("lie", "95", "out of range"),
        ("lie", "63.5 rad", "no unit"),
        ("lie", "63,5", "comma"),
        ("loft", "54.10", "may be a loft in degrees or a loft with its bounce"),
    ],
)
def test_what_is_easily_mistaken_is_refused_even_with_a_base(kind: str, typed: str, what: str) -> None:
    with pytest.raises(InputError) as refused:
        parse(kind, typed, base=radians(54))
    assert what in refused.value.findings[0].what


@pytest.mark.parametrize("typed", ["1 up", "2U", "std", "+1/2"])
def test_a_step_without_a_base_is_refused(typed: str) -> None:
    with pytest.raises(InputError, match="base that is not stated"):
        parse("lie", typed)


@pytest.mark.parametrize(("typed", "loft"), [("54.10 deg", 54.1), ("54.5", 54.5), ("54.25", 54.25), ("10.50", 10.5)])
def test_a_loft_that_cannot_be_a_pair_is_taken(typed: str, loft: float) -> None:
    assert degrees(parse("loft", typed).value) == pytest.approx(loft, abs=1e-12)


@pytest.mark.parametrize("typed", ["54.10", "54-10", "54/10", "54°/10°"])
def test_a_pair_is_loft_and_bounce(typed: str) -> None:
    loft, bounce = pair(typed)
    assert (loft.kind, bounce.kind) == ("loft", "bounce")
    assert degrees(loft.value) == pytest.approx(54, abs=1e-12)
    assert degrees(bounce.value) == pytest.approx(10, abs=1e-12)
    assert bounce.typed == loft.typed == typed
    assert "loft 54 deg with bounce 10 deg" in loft.echo


def test_a_pair_reads_a_leading_zero() -> None:
    assert degrees(pair("58/08")[1].value) == pytest.approx(8, abs=1e-12)
    assert degrees(pair("58-8")[1].value) == pytest.approx(8, abs=1e-12)
    assert parse("loft_bounce", "58/08").value == pair("58/08")[0].value


@pytest.mark.parametrize("typed", ["54.5", "54", "54.30", "30.10", "54.10.2", "54.10 deg", "", "a/b", "54.10 ± 1"])
def test_what_is_no_pair_is_refused(typed: str) -> None:
    with pytest.raises(InputError):
        pair(typed, where="wedge")


def test_uncertainty_of_an_angle() -> None:
    understood = parse("lie", "63.5 ± 0.25")
    assert understood.sd == pytest.approx(radians(0.25), rel=1e-15)
    assert parse("lie", "1/2 up ± 0.25", base=radians(63)).sd == understood.sd
    assert render("lie", radians(63.5), radians(0.25)) == "63.5 deg ± 0.25 deg"
    assert render("angle", radians(63.25)) == "63.25 deg"
