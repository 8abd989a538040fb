"""A bare number takes the unit of another text, and nothing else is changed by it."""

from __future__ import annotations

import pytest

from clubwright.notation import with_unit_like


@pytest.mark.parametrize(
    ("text", "like", "kind", "then"),
    [
        ("465.4", "0.1 g", "mass", "465.4 g"),
        ("16.4", "0.1 oz", "mass", "16.4 oz"),
        ("901.7", "0.5 mm", "length", "901.7 mm"),
        ("35.5", "1/64 in", "length", "35.5 in"),
        ("54", "0.1 deg", "angle", "54"),
        ("35 1/2", "1 mm", "length", "35 1/2"),
        ("35.5 in", "1 mm", "length", "35.5 in"),
        ("2", "1/4 pt", "swing_weight", "2"),
        ("35.5", "", "length", "35.5"),
        ("35.5", "0.1 g", "length", "35.5"),
        ("35.5", "0.1 g", "nothing", "35.5"),
    ],
)
def test_only_a_bare_number_gets_a_unit(text: str, like: str, kind: str, then: str) -> None:
    assert with_unit_like(text, like, kind) == then
