"""Limits by metal: names as a ticket may have them, and the cautious reading of the rest."""

from __future__ import annotations

import pytest

from clubwright.planning.bending.metals import METALS, UNKNOWN, limit_for
from clubwright.units import DEGREE_RAD
from clubwright.words.say import say


@pytest.mark.parametrize("name", METALS)
def test_every_metal_is_found_by_its_own_name(name: str):
    kind = "putter" if name.startswith("putter") else "iron"
    assert limit_for(name.upper(), kind).name == name


@pytest.mark.parametrize(
    ("text", "kind", "name"),
    [
        ("Cast 17-4PH stainless", "iron", "cast 17-4 stainless"),
        ("  431   stainless ", "wedge", "cast 431 stainless"),
        ("1020 forged carbon steel", "iron", "forged carbon steel"),
        ("forged carbon steel, tungsten toe", "iron", "tungsten-loaded"),
        ("17-4 body, maraging face", "iron", "maraging"),
        ("431 stainless, hollow", "iron", "multi-piece"),
        ("beryllium copper", "putter", "beryllium copper"),
        ("carbon steel", "putter", "putter soft stainless"),
        ("303 stainless", "putter", "putter soft stainless"),
        ("forged carbon steel", "putter", "putter soft stainless"),
        ("17-4", "putter", "cast 17-4 stainless"),
    ],
)
def test_a_metal_as_typed(text: str, kind: str, name: str):
    assert limit_for(text, kind).name == name


@pytest.mark.parametrize(
    "text", [None, "", "stainless", "forged", "carbon steel", "1431", "303 stainless", "soft stainless"]
)
def test_what_names_no_metal_is_not_bent(text: str | None):
    limit = limit_for(text, "iron")
    assert limit is UNKNOWN
    assert not limit.may_bend


@pytest.mark.parametrize("kind", ["driver", "fairway"])
def test_woods_are_not_advised_a_bend(kind: str):
    assert not limit_for("431 stainless", kind).may_bend
    assert limit_for("431 stainless", "hybrid").may_bend


@pytest.mark.parametrize("limit", METALS.values(), ids=lambda limit: limit.name)
def test_an_expert_limit_is_no_smaller_and_every_limit_says_where_it_is_from(limit):
    assert limit.expert_loft_limit_rad >= limit.loft_limit_rad >= 0
    assert limit.expert_lie_limit_rad >= limit.lie_limit_rad >= 0
    assert limit.source
    assert limit.why
    assert limit.may_bend == (limit.lie_limit_rad > 0)
    if "no source" in limit.source:
        assert limit.standing == "common practice"


def test_the_usual_limits_of_the_trade():
    degrees = {name: round(limit.lie_limit_rad / DEGREE_RAD, 6) for name, limit in METALS.items() if limit.may_bend}
    assert degrees == {
        "forged carbon steel": 2,
        "cast 431 stainless": 2,
        "cast 17-4 stainless": 1,
        "putter soft stainless": 2,
    }


def test_beryllium_copper_is_cautioned_for_its_dust():
    limit = limit_for("BeCu", "iron")
    assert not limit.may_bend
    assert "dust is toxic" in limit.why
    assert any("grinding" in say(item, None) for item in limit.cautions)
