"""A limit on one side: the other end is endless, so any gauge can prove it, and nothing is said of a middle."""

from __future__ import annotations

import math

import pytest

from clubwright.conformity.decision import lower_limit, upper_limit
from clubwright.conformity.settling import settle

RULE = "guard 95 %"


def test_at_most_is_endless_below() -> None:
    found = upper_limit(9.0, 10.0, 0.5, RULE)
    assert (found.low, found.high) == (-math.inf, 10.0)
    assert found.can_prove
    assert settle(found).proving_u == math.inf
    assert found.margin == pytest.approx(1.0)
    assert found.verdict == "within"
    assert upper_limit(-1e9, 10.0, 0.5, RULE).verdict == "within"


def test_at_least_is_endless_above() -> None:
    found = lower_limit(11.0, 10.0, 0.5, RULE)
    assert (found.low, found.high) == (10.0, math.inf)
    assert found.can_prove
    assert settle(found).proving_u == math.inf
    assert lower_limit(1e9, 10.0, 0.5, RULE).verdict == "within"
