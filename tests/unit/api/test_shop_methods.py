"""The methods of a shop are those that the register makes; run this file with Python to write them anew."""

from __future__ import annotations

import inspect
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[2] / "support"))  # where it is run by itself

from clubwright.api.shop import Shop
from clubwright.services.actions.register.actions import ACTIONS
from clubwright.services.actions.register.fields import fields_of
from clubwright.services.actions.register.python import JOB, method_of, parameters_of
from python_methods import API, BY_HAND, MODULES, WRITE, source_of


@pytest.mark.parametrize("name", MODULES)
def test_the_source_is_what_the_register_makes(name: str) -> None:
    assert (API / name).read_text(encoding="utf-8") == source_of(name), f"write it anew: {WRITE}"


@pytest.mark.parametrize("key", sorted({*ACTIONS} - {"take"}))
def test_an_action_is_a_method_with_its_fields(key: str) -> None:
    action = ACTIONS[key]
    asked = inspect.signature(getattr(Shop, method_of(action))).parameters
    given = parameters_of(action)
    assert list(asked) == ["self", *([JOB] if action.on_a_job else []), *(item.name for item in given), "key"]
    for item in given:
        here = asked[item.name]
        assert here.annotation.replace("'", '"') == item.annotation
        assert (here.default is inspect.Parameter.empty) == item.field.needed
        if not item.field.needed:
            empty = {list: (), dict: {}}
            default = item.field.default
            assert here.default == empty.get(type(default), default)
        assert (here.kind is inspect.Parameter.KEYWORD_ONLY) != item.placed
    assert {item.field.name for item in given} == {field.name for field in fields_of(action.payload)}


@pytest.mark.parametrize("key", ACTIONS)
def test_help_says_what_the_register_says(key: str) -> None:
    said = inspect.getdoc(getattr(Shop, method_of(ACTIONS[key])))
    assert said is not None
    if key != "take":  # a ticket is given to it in three ways
        assert " ".join(said.split()).startswith(ACTIONS[key].more or ACTIONS[key].says)
    assert said.count("\nArgs:") == said.count("\nRaises:") == 1
    if key != "take":
        assert all(f"    {item.name}: {item.field.meaning}" in said for item in parameters_of(ACTIONS[key]))


def test_what_is_written_by_hand_is_no_more_than_that() -> None:
    methods = {method_of(action) for action in ACTIONS.values()}
    assert {name for name in methods if name in vars(Shop)} == BY_HAND
    assert len(methods) == len(ACTIONS)


def test_what_is_asked_of_a_shop_says_what_it_gives() -> None:
    for name in dir(Shop):
        method = getattr(Shop, name)
        if not name.startswith("_") and callable(method):
            assert inspect.getdoc(method), name
            assert inspect.signature(method).return_annotation is not inspect.Signature.empty, name


if __name__ == "__main__":
    for written in MODULES:
        (API / written).write_text(source_of(written), encoding="utf-8")
