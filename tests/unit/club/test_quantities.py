"""The register of quantities: keys, names, theory pages, and what it says of a quantity it cannot compute."""

from __future__ import annotations

from pathlib import Path

import pytest

from clubwright.club.quantities import _ENTRIES, QUANTITIES, TARGETS, Quantity
from clubwright.club.stages import BARE_SHAFT, GLUED_NO_GRIP
from clubwright.errors import NotPossible
from clubwright.notation import parse_difference
from worked_clubs import IN, IRON, build_of
from worked_shafts import steel_club

THEORY = Path(__file__).parents[3] / "docs" / "theory"


def test_keys_and_symbols_are_unique() -> None:
    assert len(QUANTITIES) == len(_ENTRIES)
    assert len({entry.symbol for entry in _ENTRIES}) == len(_ENTRIES)
    assert len({entry.name for entry in _ENTRIES}) == len(_ENTRIES)


def test_targets_are_quantities() -> None:
    assert set(TARGETS) <= set(QUANTITIES)
    assert len(set(TARGETS)) == len(TARGETS)


@pytest.mark.parametrize("entry", _ENTRIES, ids=lambda entry: entry.key)
def test_theory_page_exists_and_names_a_check(entry: Quantity) -> None:
    """What is computed has its derivation and names the file that checks it."""
    page = THEORY / entry.theory
    if entry.function is None and not page.exists():
        pytest.skip("not computed, and its page comes with its code")
    assert "tests/published/test_published_" in page.read_text(encoding="utf-8")


@pytest.mark.parametrize("entry", _ENTRIES, ids=lambda entry: entry.key)
def test_default_tolerance_is_understood_and_has_a_standing(entry: Quantity) -> None:
    assert parse_difference(entry.tolerance_kind, entry.tolerance, where="register").value > 0
    assert entry.tolerance_source


@pytest.mark.parametrize("entry", [e for e in _ENTRIES if not e.key.startswith("grip_")], ids=lambda entry: entry.key)
def test_computes_or_says_that_it_cannot(entry: Quantity) -> None:
    build = steel_club(IRON) if entry.key == "frequency" else build_of(IRON)
    if entry.function is None:
        with pytest.raises(NotPossible, match=entry.name):
            entry.of(build)
    else:
        assert float(entry.of(build)) == float(entry.function(build))


def test_length_follows_what_the_stop_touches() -> None:
    length = QUANTITIES["length"]
    assert length.of(build_of(IRON)) == pytest.approx(38 * IN)
    assert length.of(build_of(IRON, GLUED_NO_GRIP)) == pytest.approx((38 - 0.125) * IN)
    assert length.of(build_of(IRON, BARE_SHAFT)) == pytest.approx((38 - 0.125 - 1.0) * IN)
