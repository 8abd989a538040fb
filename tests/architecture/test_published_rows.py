"""The page of outside checks: what may differ is on it, bounds are bounds, and no standing is taken for granted."""

from __future__ import annotations

from collections.abc import Callable
from math import inf

import pytest

from verification import Check, differs_from_file, page
from verification import write_page as write


def row(ours: float, *, tolerance: float = 0.5, band: tuple[float, float] | None = None) -> Check:
    theirs = 40.0 if band is None else band[0]
    return Check("stiffness", "a book", theirs, ours, tolerance, "N m2", "seen", "test_x.py::test_y", band)


def test_a_number_agrees_within_what_is_allowed_and_says_so() -> None:
    assert row(40.4).agrees() and not row(40.6).agrees()
    assert "| 40.00 | 40.40 | +0.40 | 0.5 | N m2 |" in row(40.4).line()
    assert "allowed 0.5" in row(40.6).sentence()


def test_bounds_are_bounds_and_no_number_with_a_wide_tolerance() -> None:
    assert row(81.0, band=(40.0, inf)).agrees()
    assert not row(39.9, band=(40.0, inf)).agrees()
    assert row(200.0, band=(200.0, 350.0)).agrees() and not row(350.1, band=(200.0, 350.0)).agrees()
    assert "| at least 40.00 | 81.00 | +0.00 | within |" in row(81.0, band=(40.0, inf)).line()
    assert "| 200.00 to 350.00 | 225.00 | +0.00 | within |" in row(225.0, band=(200.0, 350.0)).line()


def test_a_page_that_allows_more_than_before_is_stale(tmp_path) -> None:  # type: ignore[no-untyped-def]
    write(tmp_path / "page.md", [row(40.4)])
    assert not differs_from_file(tmp_path / "page.md", [row(40.4)])
    assert differs_from_file(tmp_path / "page.md", [row(40.4, tolerance=0.9)])
    assert "allowed" in page([row(40.4)])


def test_how_well_theirs_is_known_has_to_be_said(request: pytest.FixtureRequest) -> None:
    published: Callable[..., None] = request.getfixturevalue("published")
    with pytest.raises(TypeError, match="standing"):
        published(quantity="x", source="y", theirs=1.0, ours=1.0, tolerance=0.0)
