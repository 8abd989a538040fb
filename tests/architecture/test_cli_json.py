"""Every command speaks to programs too, and says in one line what it is for."""

from __future__ import annotations

import inspect
from collections.abc import Callable
from typing import Any

import pytest

from clubwright.cli.main import app

ALWAYS_JSON = {"schema"}
"""What these print is JSON by its nature."""

COMMANDS = sorted(name for name in app if not name.startswith("-"))


def function(name: str) -> Callable[..., Any]:
    command = app[name].default_command
    assert command is not None, f"{name} is registered, and its function is not there"
    return command


def test_there_are_commands() -> None:
    assert {"check", "work", "plan", "read", "sheet", "demo"} <= set(COMMANDS)


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_takes_json(name: str) -> None:
    option = inspect.signature(function(name)).parameters.get("json")
    assert option is not None, "no --json"
    assert option.default is (name in ALWAYS_JSON)
    assert option.kind is inspect.Parameter.KEYWORD_ONLY


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_says_what_it_is_for(name: str) -> None:
    said = inspect.getdoc(function(name))
    assert said, "no docstring, so no help"
    assert said.splitlines()[0].endswith(".")
