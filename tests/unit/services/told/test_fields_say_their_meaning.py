"""Every field of every answer says what it means, and every answer has a JSON Schema."""

from __future__ import annotations

import pkgutil
import re
from importlib import import_module
from typing import Any

import msgspec
import pytest

from clubwright.services import told
from clubwright.services.told.base import Told

for module in pkgutil.iter_modules(told.__path__, "clubwright.services.told."):
    import_module(module.name)
for name in ("clubwright.services.report.as_built", "clubwright.web.api"):
    import_module(name)


def kinds(of: type[Told] = Told) -> list[type[Told]]:
    return [kind for found in of.__subclasses__() for kind in (found, *kinds(found))]


def unsaid(schema: dict[str, Any]) -> list[str]:
    """Fields that say nothing beside their type, and that the docstring does not name either."""
    told_of = schema.get("description", "")
    return [
        name
        for name, value in schema["properties"].items()
        if not value.get("description") and not re.search(rf"\b{name}\b", told_of)
    ]


@pytest.mark.parametrize("kind", sorted(kinds(), key=lambda kind: kind.__name__), ids=lambda kind: kind.__name__)
def test_every_field_says_what_it_means(kind: type[Told]) -> None:
    schema = msgspec.json.schema(kind)["$defs"][kind.__name__]
    assert schema["description"]
    assert unsaid(schema) == []


def test_a_field_without_a_meaning_is_seen() -> None:
    class Mute(msgspec.Struct):
        text: str

    assert unsaid(msgspec.json.schema(Mute)["$defs"]["Mute"]) == ["text"]
