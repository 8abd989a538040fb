"""How deep a JSON body may be nested: exactly so many levels are taken, one more is refused."""

from __future__ import annotations

import json

import pytest

from clubwright.errors import InputError
from clubwright.web.guard.limits import DEEPEST, check_json


def nested(levels: int, *, lists: bool) -> bytes:
    """Return a body whose innermost value stands on the level given; the outermost is level 1."""
    value: object = 1
    for _ in range(levels - 1):
        value = [value] if lists else {"a": value}
    return json.dumps(value).encode()


@pytest.mark.parametrize("lists", [True, False], ids=["lists", "tables"])
def test_one_level_too_many_is_refused(lists: bool) -> None:
    check_json(nested(DEEPEST, lists=lists))
    with pytest.raises(InputError, match=f"more than {DEEPEST} levels"):
        check_json(nested(DEEPEST + 1, lists=lists))


def test_a_name_counts_as_deep_as_its_value_and_beside_each_other_is_not_deeper() -> None:
    check_json(json.dumps({f"k{place}": [1, 2, 3] for place in range(200)}).encode())
    with pytest.raises(InputError, match=r"nested too deeply|levels"):
        check_json(b"[" * 100_000 + b"]" * 100_000)
