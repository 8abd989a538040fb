"""docs/actions.md is what the register makes of it; run this file with Python to write the page anew."""

from __future__ import annotations

import inspect
from pathlib import Path

import pytest

from clubwright.services.actions.door import function_of
from clubwright.services.actions.register.actions import ACTIONS
from clubwright.services.actions.register.facets import KINDS, gate_of, role_of, steps_of
from clubwright.services.actions.register.fields import fields_of
from clubwright.services.actions.register.page import actions_page

PAGE = Path(__file__).parents[4] / "docs" / "actions.md"
WRITE = "python tests/unit/services/actions/test_actions_page.py"


def test_the_page_in_the_docs_is_the_one_the_register_makes() -> None:
    assert PAGE.read_text(encoding="utf-8") == actions_page(), f"write it anew: {WRITE}"


def test_every_action_and_field_is_on_the_page() -> None:
    text = actions_page()
    for key, action in ACTIONS.items():
        part = text.split(f"\n## `{key}`\n")[1].split("\n## ")[0]
        assert f"`POST {action.route}`" in text
        assert all(f"| `{field.name}`" in part for field in fields_of(action.payload))


@pytest.mark.parametrize("key", ACTIONS)
def test_who_does_an_action_takes_what_is_given_for_it(key: str) -> None:
    action = ACTIONS[key]
    taken = inspect.signature(function_of(action)).parameters
    given = {*action.payload.__struct_fields__} - ({"step"} if action.names_step else set())
    assert given | {"key"} <= set(taken)
    needed = {name for name, item in list(taken.items())[1:] if item.default is inspect.Parameter.empty}
    assert needed <= given
    assert set(action.writes) | set(action.undoes) <= set(KINDS)


def test_roles_gates_and_steps_follow_from_the_facts() -> None:
    assert [key for key, action in ACTIONS.items() if role_of(action) == "sign off"] == [
        *("sign", "accept", "finish", "reopen", "order", "forget")
    ]
    gates = {key: gate for key, action in ACTIONS.items() if (gate := gate_of(action))}
    assert gates == {"cut": "cut", "glue": "glue", "finish": "release"}
    steps = {key: found for key, action in ACTIONS.items() if (found := steps_of(action))}
    assert steps["cut"] == ("mark and cut",)
    assert steps["mix"] == steps["mix-from"] == ("mix",)
    assert (steps["tape"], steps["pull"], steps["finish"]) == (("tape",), ("pull",), ("tag",))


def test_no_two_actions_share_a_route() -> None:
    assert len({action.route for action in ACTIONS.values()}) == len(ACTIONS)


if __name__ == "__main__":
    PAGE.write_text(actions_page(), encoding="utf-8")
