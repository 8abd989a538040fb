"""Cautions at each step: who is cautioned for what, and what they defer to."""

from __future__ import annotations

import pytest

from clubwright.errors import InputError
from clubwright.planning import cautions as here
from clubwright.planning.cautions import CAUTIONS, DEFER
from clubwright.words.say import say

STEPS = (
    "cut",
    "tip prep",
    "fit",
    "mix",
    "glue",
    "release",
    "grip",
    "bend",
    "set sleeve",
    "weight",
    "ferrule finish",
    "heat removal",
    "tag",
)


def cautions(step: str, **of: str) -> list[str]:
    return [say(item, None) for item in here.cautions(step, **of)]


def test_the_steps_are_these():
    assert tuple(CAUTIONS) == STEPS


@pytest.mark.parametrize("step", STEPS)
def test_every_step_has_cautions_and_ends_by_deferring(step: str):
    said = cautions(step)
    assert len(said) >= 3
    assert said[-1] == say(DEFER, None)
    assert len(set(said)) == len(said)
    assert all(sentence.endswith(".") for sentence in said)


def test_graphite_is_not_told_of_sparks_nor_steel_of_fibre_dust():
    assert not any("sparks" in sentence for sentence in cautions("cut", shaft_material="graphite"))
    assert not any("Graphite" in sentence for sentence in cautions("cut", shaft_material="steel"))
    assert any("mask for fine dust" in sentence for sentence in cautions("cut", shaft_material="graphite"))
    assert any("sparks" in sentence for sentence in cautions("cut", shaft_material="steel"))


def test_an_unknown_shaft_is_cautioned_for_as_both():
    both = set(cautions("cut", shaft_material="graphite")) | set(cautions("cut", shaft_material="steel"))
    assert set(cautions("cut")) == both


def test_a_known_metal_leaves_the_others_out():
    said = cautions("bend", head_metal="Cast 17-4 stainless")
    assert any("17-4" in sentence for sentence in said)
    assert not any("Titanium" in sentence for sentence in said)
    assert any("Titanium" in sentence for sentence in cautions("bend"))


def test_beryllium_copper_is_cautioned_for_wherever_dust_may_arise():
    for step in ("tip prep", "ferrule finish", "bend", "weight"):
        assert any("lungs" in sentence for sentence in cautions(step, head_metal="beryllium copper"))


def test_solvent_and_sparks_are_kept_apart_at_the_steps_that_have_both():
    for step in ("tip prep", "ferrule finish", "grip", "heat removal"):
        assert any("solvent" in say(item, None).lower() for item in CAUTIONS[step]), step


def test_an_unknown_step_lists_the_known_ones():
    with pytest.raises(InputError, match='"heat removal"'):
        cautions("welding")
